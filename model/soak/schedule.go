package soak

import "slices"

// score is how good a schedule is.
type score struct {
	late   int   // s for each plant in the water too long, and s past the hours, beyond what a day with nothing else has; below 0 for less
	due    int   // s that loads whose time is up stay in, beyond that
	weight int64 // of what it serves
	visits int
	free   int // when the hands are
	ends   int // sum of the times at which loads are out: a tie-break that pulls everything forward
}

// better reports whether a score beats another: plants in the water come out in
// time, most served, fewest visits, the hands free earliest.
func (a score) better(b score) bool {
	switch {
	case a.late != b.late:
		return a.late < b.late
	case a.due != b.due:
		return a.due < b.due
	case a.weight != b.weight:
		return a.weight > b.weight
	case a.visits != b.visits:
		return a.visits < b.visits
	case a.free != b.free:
		return a.free < b.free
	}
	return a.ends < b.ends
}

// trier tries schedules: it gives them times and places to dry, and takes out of
// them what finds none.
type trier struct {
	p     *problem
	clock clock
	dry   drying
	tried int           // plants placed so far: what it cost
	lost  map[int]place // plants of the last schedule that found no place to dry

	wanted []int     // items that could be served alone, most worth first
	alone  []LeftOut // the others
}

func newTrier(p *problem) *trier {
	return &trier{p: p, clock: clock{p: p}, dry: drying{p: p}, lost: map[int]place{}}
}

// try gives a schedule its times, without the plants that find no place to dry and
// without loads that are then too small. It reports false for a schedule that the
// hands cannot do; then the clock has the fault.
func (t *trier) try(d *schedule) (score, bool) { return t.atLeast(d, 0) }

// atLeast is try for a schedule that is of no use if it serves less than a weight: it
// reports false as soon as that is known.
func (t *trier) atLeast(d *schedule, weight int64) (score, bool) {
	clear(t.lost)
	if d.weight() < weight {
		return score{}, false
	}
	for {
		if !t.clock.time(d) {
			t.tried += 4
			return score{}, false
		}
		for l := range d.loads {
			t.tried += len(d.loads[l].items)
		}
		if t.clock.staysOn {
			break
		}
		missed, ok := t.dry.lay(d, &t.clock, d.weight()-weight)
		if !ok {
			t.clock.fault = fault{why: RoomTaken}
			return score{}, false
		}
		if missed == 0 {
			break
		}
		for i, gone := range t.dry.gone {
			if gone {
				t.lost[i] = t.dry.places[i]
			}
		}
		t.thin(d)
	}
	sc := score{late: t.clock.late - t.p.latest, due: t.clock.due - t.p.latestDue, free: t.clock.free}
	for l := range d.loads {
		load := &d.loads[l]
		sc.weight += load.weight
		sc.ends += t.clock.loads[l].end - t.p.start
		if len(load.items) > load.lying {
			sc.visits++
		}
		sc.visits++
	}
	return sc, true
}

// thin takes plants without a place out of a schedule.
func (t *trier) thin(d *schedule) {
	for l := len(d.loads) - 1; l >= 0; l-- {
		load := &d.loads[l]
		if !slices.ContainsFunc(load.items[load.lying:], t.isGone) {
			continue
		}
		load.items = slices.DeleteFunc(slices.Clone(load.items), t.isGone)
		t.p.sum(load)
		if load.given == 0 && (len(load.items) == 0 || !t.p.enough(load)) {
			d.drop(l)
		}
	}
	clear(t.dry.gone)
}

func (t *trier) isGone(i int) bool { return t.dry.gone[i] }
