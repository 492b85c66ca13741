package soak

import (
	"cmp"
	"math"
	"slices"
)

// earliest is a time before which the hands are not free if they serve the plants of a
// schedule: all their work, and the longest soaks between the first work and the last.
func (p *problem) earliest(d *schedule) int {
	var items []int
	for l := range d.loads {
		items = append(items, d.loads[l].items[d.loads[l].lying:]...)
	}
	out := slices.DeleteFunc(slices.Clone(items), func(i int) bool { return !p.today(i) })
	slices.SortFunc(out, func(x, y int) int { return cmp.Compare(p.items[y].Least, p.items[x].Least) })
	work, best := 0, p.start
	for _, i := range items {
		h := &p.items[i].Hands
		work += h.Pull + h.In
		if p.today(i) {
			work += h.Out + h.Lay
		}
	}
	for l := range p.given {
		for _, i := range p.given[l].items[:p.given[l].lying] {
			if p.Hours[len(p.Hours)-1].OutOnly {
				break
			}
			work += p.items[i].Hands.Out + p.items[i].Hands.Lay
		}
	}
	best = max(best, p.finish(p.start, work))
	pull, first := math.MaxInt, p.firstReady()
	outs := 0
	for _, i := range out {
		h := &p.items[i].Hands
		pull, outs = min(pull, h.Pull), outs+h.Out+h.Lay
		best = max(best, p.finish(max(p.start+pull, first)+p.items[i].Least, outs))
	}
	return min(best, p.Hours[len(p.Hours)-1].To)
}

// firstReady is when a vessel can stand filled at the earliest.
func (p *problem) firstReady() int {
	first := never
	for v := range p.Vessels {
		first = min(first, p.readyFirst(v))
	}
	return first
}

// readyFirst is when a vessel can stand filled at the earliest.
func (p *problem) readyFirst(v int) int {
	if p.Vessels[v].Water != nil || slices.ContainsFunc(p.Session.Given, func(g Given) bool { return g.Vessel == v }) {
		return p.start
	}
	return p.start + p.Vessels[v].Fill
}

// handsBy is the hands' time up to a time, of all pairs.
func (p *problem) handsBy(t int) int {
	sum := 0
	for _, pair := range p.pairs {
		for _, s := range pair {
			sum += max(0, min(t, s.To)-s.From)
		}
	}
	return sum
}

// finish is when work of so many seconds, begun at a time, is done if no pair of
// hands ever waits, in the hours that start new loads; the end of them if they do
// not suffice.
func (p *problem) finish(from, work int) int {
	if work <= 0 {
		return from
	}
	begun := p.handsBy(from)
	low, high := from, p.start
	for _, h := range p.Hours {
		if !h.OutOnly {
			high = max(high, h.To)
		}
	}
	for low < high {
		mid := low + (high-low)/2
		if p.handsBy(mid)-begun >= work {
			high = mid
		} else {
			low = mid + 1
		}
	}
	return high
}

// today reports whether a plant has to come out before the hours that only take
// out.
func (p *problem) today(i int) bool {
	last := p.start
	for _, h := range p.Hours {
		if h.OutOnly {
			return last-p.items[i].Hands.In+p.items[i].Most < h.From
		}
		last = h.To
	}
	return true
}
