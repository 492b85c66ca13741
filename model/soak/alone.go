package soak

import (
	"math"
	"slices"
)

// could reports whether one plant finds a place in a day without others but
// those in the water, in any of the vessels; if not, why, and how many s too late
// it would be dry.
func (t *trier) could(i int) (why Why, by int, ok bool) {
	if !slices.ContainsFunc(t.p.benches, func(b Bench) bool { return t.p.items[i].BenchRoom <= b.Room+slack }) {
		return NoBenchSize, 0, false
	}
	why = NoVessel
	for v := range t.p.Vessels {
		if !t.p.takes(v, i) || slices.Contains(t.p.Vessels[:v], t.p.Vessels[v]) {
			continue
		}
		d := schedule{loads: slices.Clone(t.p.given)}
		got, late := t.single(&d, v, i)
		switch {
		case got == served || got == BenchesTaken || got == RoomTaken: // by what is there already
			return 0, 0, true
		case got == DryTooLate && (why != DriesTooSlow || late < by):
			why, by = DriesTooSlow, late
		case got == WaterTaken && why != DriesTooSlow:
			why = WaterTaken
		case why == NoVessel:
			why = NoHours
		}
	}
	return why, by, false
}

// few tells of an item that has no place even alone whether that is so where no other dries
// at all; if it is not, the others keep it out.
func (t *trier) few(alone []LeftOut) []LeftOut {
	alone, empty := slices.Clone(alone), newTrier(t.p.with(1))
	for n := range alone {
		l := &alone[n]
		if l.Why != DriesTooSlow {
			continue
		}
		if _, by, ok := empty.could(l.Index); ok {
			l.Why = RoomTaken
		} else {
			l.By = by
		}
	}
	return alone
}

// served is no reason: the plant has its place.
const served Why = -1

// single puts one plant into a schedule as a load of its own, however small, and says
// what keeps it out.
func (t *trier) single(d *schedule, v, i int) (Why, int) {
	l := load{vessel: v, items: []int{i}, kind: t.p.kind(i)}
	t.p.sum(&l)
	d.loads = append(d.loads, l)
	t.p.dispatch(d)
	if !t.clock.time(d) {
		return t.clock.fault.why, 0
	}
	missed, _ := t.dry.lay(d, &t.clock, math.MaxInt64)
	clear(t.dry.gone)
	if missed == 0 {
		return served, 0
	}
	return t.dry.places[i].why, t.dry.places[i].dry
}
