package soak

import (
	"cmp"
	"slices"
)

// mostFull is how many s before its load goes in a vessel is full at most, unless the tap is
// taken then: water that stands is a danger to children. It is what hands may be late by
// without having to wait for the tap. A guess.
const mostFull = 20 * 60

// fillLate has no vessel filled sooner than that asks for, as far as the tap's next filling
// and the hours of the hands allow. No other time changes by that.
func (t *trier) fillLate(d *schedule) {
	pours := make([]int, 0, len(d.loads))
	for l := range d.loads {
		if t.clock.loads[l].fresh {
			pours = append(pours, l)
		}
	}
	slices.SortFunc(pours, func(a, b int) int { return cmp.Compare(t.clock.loads[b].pour, t.clock.loads[a].pour) })
	next := slices.Repeat([]int{never}, len(t.clock.taps))
	for _, l := range pours {
		at, fill := &t.clock.loads[l], t.p.Vessels[d.loads[l].vessel].Fill
		at.pour = max(at.pour, t.withHands(t.turnOn(d, l, min(at.in, next[at.tap])-fill), fill))
		next[at.tap] = at.pour
	}
}

// turnOn is when the tap is turned on for a load: once it is time, as the hands go from one
// thing to the next, if they do.
func (t *trier) turnOn(d *schedule, l, latest int) int {
	at := &t.clock.loads[l]
	from := max(at.pour, at.in-t.p.Vessels[d.loads[l].vessel].Fill-mostFull)
	for g := range t.p.given { // what is overdue comes out first
		if t.p.Session.Given[g].Due && t.clock.loads[g].end <= latest {
			from = max(from, t.clock.loads[g].end)
		}
	}
	best := never
	for m := range d.loads {
		is := &t.clock.loads[m]
		for _, next := range [...]int{at.pour, is.pull, is.in, is.out, is.end} {
			if next >= from {
				best = min(best, next)
			}
		}
	}
	if best > latest {
		return min(from, latest)
	}
	return best
}

// withHands is the last time up to another from which on the hands are there for so long.
func (t *trier) withHands(at, need int) int {
	last := -never
	for _, h := range t.p.Hours {
		if h.From <= at && h.From+need <= h.To {
			last = min(at, h.To-need)
		}
	}
	return last
}
