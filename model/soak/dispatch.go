package soak

import "cmp"

// dispatch puts the hands' work on a schedule's loads in order, as a grower would
// who always does what can be done next: what is due comes out, what stands
// ready goes in, and meanwhile the next load is pulled. Loads go into each
// vessel in the schedule's order. Nothing is begun that would keep a load in the
// water too long.
func (p *problem) dispatch(d *schedule) {
	w := worker{p: p, d: d, now: p.start + p.Busy, tap: p.start + p.Began, at: make([]stage, len(d.loads)), free: make([]int, len(p.Vessels)), served: make([]int, len(p.Vessels))}
	for v := range w.free {
		w.free[v] = p.start
		if water := p.Vessels[v].Water; water != nil {
			w.free[v], w.served[v] = max(p.start, water.Ready), water.Loads
			w.tap = max(w.tap, water.Ready) // it runs there until then
		}
	}
	for l := range d.loads {
		load := &d.loads[l]
		if load.given > 0 && len(load.items) == load.lying {
			w.at[l] = stage{step: GetOut, from: load.from, to: load.to, by: load.to}
			if p.Session.Given[load.given-1].Due {
				w.at[l].by = p.start + p.Busy
			}
		} else {
			w.at[l] = stage{step: Pull}
		}
	}
	d.order = d.order[:0]
	for w.next() {
	}
}

// stage is how far a load has come.
type stage struct {
	step     Do  // what is to be done with it next; [Hang] when it is out
	from, to int // it may come out
	by       int // it should come out before anything else is done
}

// worker does what can be done next.
type worker struct {
	p    *problem
	d    *schedule
	now  int
	tap  int
	at   []stage
	free []int // when each vessel stands ready

	served []int // loads, by each vessel's water
}

// next does one piece of work; false when all is done.
func (w *worker) next() bool {
	best, when := -1, never
	for l := range w.at {
		from, ok := w.ready(l)
		if !ok {
			continue
		}
		from = max(from, w.now)
		if from < when || from == when && w.before(l, best) {
			best, when = l, from
		}
	}
	if best < 0 {
		return false
	}
	out := -1
	if w.at[best].step == GetOut {
		out = w.quicker(best, when)
	} else if out = w.pressing(when + w.length(best)); out < 0 && w.at[best].step == PutIn {
		out = w.inTheWay(best, when)
	}
	if out >= 0 {
		best, when = out, max(w.now, w.at[out].from)
	}
	w.do(best, when)
	return true
}

// before reports whether of two loads with which something can be done now one comes
// first: what is furthest, of those to come out the one that must soonest, and of
// those whose time is up the shortest, so that the least time is lost for all.
func (w *worker) before(l, m int) bool {
	a, b := &w.at[l], &w.at[m]
	if a.step != b.step || a.step != GetOut {
		return a.step > b.step
	}
	return cmp.Or(cmp.Compare(max(a.by, w.now), max(b.by, w.now)), cmp.Compare(w.length(l), w.length(m))) < 0
}

// ready is from when on the next piece of work with a load can be done, as far as
// the vessels go.
func (w *worker) ready(l int) (int, bool) {
	load, at := &w.d.loads[l], &w.at[l]
	switch at.step {
	case GetOut:
		return at.from, true
	case PutIn:
		if load.given > 0 {
			return w.now, true
		}
		if !w.turn(l) {
			return 0, false
		}
		return w.free[load.vessel], true
	case Pull:
		for m := range l { // loads are pulled in their order
			if w.at[m].step == Pull && w.d.loads[m].given == 0 {
				return 0, false
			}
		}
		return w.now, true
	}
	return 0, false
}

// turn reports whether a load may go into its vessel now: those in front of it
// are out, or it may lie beside the one that is in.
func (w *worker) turn(l int) bool {
	load := &w.d.loads[l]
	in := 0
	for m := range w.d.loads {
		if m == l || w.d.loads[m].vessel != load.vessel || w.at[m].step > GetOut {
			continue
		}
		lies := w.at[m].step == GetOut || w.d.loads[m].given > 0
		if lies && load.beside && in == 0 && w.d.loads[m].kind == load.kind && w.d.loads[m].bulk+load.bulk <= w.p.Vessels[load.vessel].Room+slack {
			in++
			continue
		}
		if lies || m < l {
			return false
		}
	}
	return true
}

// pressing is a load in the water that would stay in too long if the hands were
// busy with something else until then; -1 for none.
func (w *worker) pressing(until int) int {
	best := -1
	for l := range w.at {
		if at := &w.at[l]; at.step == GetOut && at.by < until && (best < 0 || at.by < w.at[best].by) {
			best = l
		}
	}
	return best
}

// quicker is a load in the water that would stay in too long if another came out
// first, and is out before that one would be, or does not keep that one in too long; -1
// for none. The hands do not wait for it while another from before the session is due.
func (w *worker) quicker(l, when int) int {
	best, until := -1, max(when+w.length(l), w.at[l].to+1)
	for m := range w.at {
		at := &w.at[m]
		end := max(when, at.from) + w.length(m)
		waits := w.d.loads[l].given > 0 && at.from > when && end > w.at[l].to
		if at.step == GetOut && at.to < when+w.length(l) && end < until && !waits {
			best, until = m, end
		}
	}
	return best
}

// inTheWay is a load in the water whose taking out would not let a load out in time
// that goes in now, neither before it nor after it; -1 for none.
func (w *worker) inTheWay(l, when int) int {
	load := &w.d.loads[l]
	in := when + load.in
	for m := range w.at {
		at := &w.at[m]
		if at.step != GetOut || m == l {
			continue
		}
		before := max(in, at.from)+w.d.loads[m].out <= when+load.high
		after := max(in, when+load.low)+load.out <= at.to
		if !before && !after {
			return m
		}
	}
	return -1
}

func (w *worker) length(l int) int {
	load := &w.d.loads[l]
	switch w.at[l].step {
	case Pull:
		return load.pull
	case PutIn:
		return load.in
	}
	return load.out
}

func (w *worker) do(l, when int) {
	load, at := &w.d.loads[l], &w.at[l]
	w.d.order = append(w.d.order, Visit{at.step, l})
	w.now = when + w.length(l)
	v := &w.p.Vessels[load.vessel]
	switch at.step {
	case Pull:
		at.step = PutIn
		if load.given == 0 && w.free[load.vessel] <= w.p.start && v.Water == nil {
			w.free[load.vessel] = w.fill(w.p.start, v)
		}
	case PutIn:
		at.step = GetOut
		w.served[load.vessel]++
		at.from, at.to = max(when+load.low, load.from), min(when+load.high, load.to)
		at.to = min(at.to, w.p.hoursAt(when).DryBy-load.dry)
		at.by = at.to
	case GetOut:
		at.step = Hang
		w.free[load.vessel] = w.now
		if load.kind.company == Sick || v.Loads > 0 && w.served[load.vessel] >= v.Loads {
			w.free[load.vessel], w.served[load.vessel] = w.fill(w.now, v), 0
		}
	}
}

// fill is when a vessel stands full that is to be filled from a time on.
func (w *worker) fill(from int, v *Vessel) int {
	w.tap = max(w.tap, from) + v.Fill
	return w.tap
}
