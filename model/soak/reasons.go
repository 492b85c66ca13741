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
		case why == NoVessel:
			why = NoHours
		}
	}
	return why, by, false
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

// nearest says which of two reasons is nearer to a place: the plant got further.
var nearest = [...]int{VesselsTaken: 1, TooFew: 2, LoadsTaken: 3, HandsTaken: 4, DryTooLate: 5, BenchesTaken: 6, RoomTaken: 7}

// mostAsked is for how many plants it is tried what keeps them out; others are
// told what holds for the most like them.
const mostAsked = 150

// left puts into the best schedule what still finds a place in one of its loads, and
// gives the reason for every other item that is not served.
func (a *arranging) left(t *trier) []LeftOut {
	left := slices.Clone(t.alone)
	in := make([]bool, len(t.p.items))
	for l := range a.best.loads {
		for _, i := range a.best.loads[l].items {
			in[i] = true
		}
	}
	type like struct {
		kind        kind
		least, most int
	}
	told := map[like]LeftOut{}
	asked := 0
	for _, i := range t.wanted {
		if in[i] {
			continue
		}
		it := &t.p.items[i]
		k := like{t.p.kind(i), it.Least, it.Most}
		l, known := told[k]
		if !known || asked < mostAsked {
			asked++
			l.Why, l.By = a.ask(t, i)
			if l.Why == served {
				continue
			}
			told[k] = l
		}
		l.ID, l.Index = it.ID, i
		left = append(left, l)
	}
	slices.SortFunc(left, func(x, y LeftOut) int { return x.Index - y.Index })
	return left
}

// ask tries a plant in every load, and in one of its own.
func (a *arranging) ask(t *trier, i int) (Why, int) {
	why, by := VesselsTaken, 0
	hear := func(w Why, late int) {
		if nearest[w] > nearest[why] || w == why && late < by {
			why, by = w, late
		}
	}
	for l := range a.best.loads {
		load := &a.best.loads[l]
		it := &t.p.items[i]
		if load.given > 0 || load.kind != t.p.kind(i) || it.Most < load.low || it.Least > load.high || load.bulk+it.Bulk > t.p.Vessels[load.vessel].Room+slack {
			continue
		}
		d := a.best.clone()
		d.loads[l].items = append(slices.Clone(load.items), i)
		t.p.settle(&d.loads[l])
		sc, ok := t.try(&d)
		switch {
		case ok && len(t.lost) == 0 && !a.score.better(sc):
			a.best, a.score = d, sc
			return served, 0
		case !ok:
			hear(t.clock.fault.why, 0)
		case t.lost[i].bench < 0:
			hear(t.lost[i].why, t.lost[i].dry)
		default: // it would have a place, and another lose it
			hear(HandsTaken, 0)
		}
	}
	for v := range t.p.Vessels {
		if !t.p.takes(v, i) || slices.Contains(t.p.Vessels[:v], t.p.Vessels[v]) {
			continue
		}
		d := schedule{loads: slices.Clone(a.best.loads)}
		got, late := t.single(&d, v, i)
		if got == served || got == RoomTaken && !t.p.enough(&d.loads[len(d.loads)-1]) { // the times are for those that dry now
			got = TooFew
			if t.p.Limits.Loads > 0 && a.best.ordinary() >= t.p.Limits.Loads && t.p.kind(i).ordinary() {
				got = LoadsTaken
			}
		}
		hear(got, late)
	}
	return why, by
}
