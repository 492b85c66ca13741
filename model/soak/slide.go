package soak

import (
	"cmp"
	"context"
	"fmt"
	"slices"
)

// Before is a plan made earlier, of the same day.
type Before struct {
	AtOnce int // see [Plan.AtOnce]
	Loads  []LoadBefore
	Order  []Visit // of the hands' work, by place in Loads; what is done already is passed over
	New    bool    // nobody follows it yet: it is made, with room to spare for who dries, and now has other times
	Lag    int     // s that the hands are used to begin late: whom there is no time for is left out as if each further piece of work were
	First  int     // s that they then still do nothing before the next one
}

// LoadBefore is a load of an earlier plan. Plants that the session no longer has
// are passed over.
type LoadBefore struct {
	Vessel int
	IDs    []int // of the plants still to go in, in order
	Given  int   // 1 + index in [Session.Given] if it is in the water by now; else 0
	Heap   int   // see [Load.Heap]: as it was said
	Begun  bool  // some of it is in the water or out of it: however little is left is still a load
}

// Slide gives the loads of an earlier plan their times from now on: the same plants in
// the same vessels, in the same order of the hands' work, or in another where that keeps
// more. Each plant comes out with its spare time left where that keeps everybody. Whom no
// time is left for is left out: single plants that would dry too late, whole loads, and the
// last plants of one. The error wraps [ErrSession] or the context's.
func Slide(ctx context.Context, s *Session, before Before) (*Plan, error) {
	if err := s.Check(); err != nil {
		return nil, err
	}
	stop := stopper(ctx)
	best := slid(s, before, stop)
	if !best.whole() && !before.New {
		all := *s
		all.Items = slices.Clone(s.Items)
		for i := range all.Items {
			all.Items[i].Spare = 0
		}
		if is := slid(&all, before, stop); is.score.serves(best.score) {
			best = is
		}
	}
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("slide the plan: %w", err)
	}
	var left []LeftOut
	if !best.whole() {
		left, _, _ = best.by.left(&best.best, best.score, false)
	}
	a := arranging{problem: best.by.p, stop: stop, draft: best.draft}
	plan := a.write(left)
	plan.Lost = !best.whole()
	return plan, nil
}

// slid is the schedule of an earlier plan with what of it is kept, and the drying times
// that this asks for.
func slid(s *Session, before Before, stop func() bool) shedding {
	p := prepare(s)
	if !before.New {
		p.spare = 0
	}
	p.lag = before.Lag
	var best shedding
	crowds := []int{before.AtOnce, p.rows()}
	for n := 0; n < len(crowds); n++ {
		atOnce := crowds[n]
		if atOnce < 1 || best.by != nil && (n < 2 && best.whole() || s.Room == nil) {
			continue
		}
		t := p.trier(atOnce)
		t.clock.noEnd = true
		was := t.recall(before)
		if before.Lag > 0 {
			was = t.heldSoon(was, before.Lag, before.First, stop)
		}
		is := t.keep(was, stop)
		if is = t.byTheEnd(is, stop); best.by == nil || n < 2 && is.score.serves(best.score) || n == 2 && !best.score.serves(is.score) {
			best = is
		}
		if n == 1 { // a few more dry at once than was planned for
			all := was.clone()
			crowds = append(crowds, t.peakOf(&all))
		}
	}
	return best
}

// serves reports whether a score beats another by whom it serves: nobody in the water
// stays noticeably too long, nor what is due noticeably later, and most thirst.
func (a score) serves(b score) bool {
	return cmp.Or(cmp.Compare(b.late, a.late), cmp.Compare(b.due/noticed, a.due/noticed), cmp.Compare(a.weight, b.weight)) > 0
}

// shedding is a schedule that loads and plants were taken out of; best is what of it
// finds a place to dry.
type shedding struct {
	from schedule
	draft
}

// whole reports whether every item of the session is served, and nobody in the water
// stays too long who need not.
func (is *shedding) whole() bool {
	n := 0
	for l := range is.best.loads {
		n += is.best.loads[l].toCome()
	}
	return n == is.by.p.n && is.score.late <= 0
}

// keep is a schedule without those that no time is left for: what is left when loads are
// taken out, or when the heaviest are put in first, in the schedule's own order of the
// hands' work, or in another where that keeps more. What is still to go in with a load in
// the water goes in by itself where that keeps more.
func (t *trier) keep(d schedule, stop func() bool) shedding {
	is, ok := t.timed(d)
	better := func(other shedding, can bool) {
		if can && (!ok || other.score.serves(is.score)) {
			is, ok = other, true
		}
	}
	for _, of := range t.ways(d) {
		again := of.clone()
		t.p.dispatch(&again)
		for _, from := range []func() schedule{
			func() schedule { return of }, func() schedule { return t.sooner(of) }, func() schedule { return again },
		} {
			if ok && is.whole() {
				return is
			}
			better(t.shed(from(), stop))
			better(t.fill(from(), stop))
		}
		if !ok { // hands that cannot even take out in this order
			better(t.timed(again))
		}
	}
	return is
}

// byTheEnd is a schedule without what is not in the water yet and could not be out before hours that
// are only for what is: without the last that go in, or without others where that serves more.
func (t *trier) byTheEnd(is shedding, stop func() bool) shedding {
	in, ok := t.timed(is.from)
	if ok {
		t.clock.time(&in.from)
	}
	last := make([]int, len(is.from.loads))
	for l := range last {
		last[l] = l
	}
	slices.SortStableFunc(last, func(x, y int) int { return cmp.Compare(t.clock.loads[y].in, t.clock.loads[x].in) })
	t.clock.noEnd = false
	if in, ok := t.timed(is.from); ok {
		return in
	}
	takes := make([]int, len(last))
	for _, l := range last {
		n := is.from.loads[l].toCome()
		for take := 1; take < 2*n && !stop(); take *= 2 {
			takes[l] = min(take, n)
			if in, ok := t.timed(is.from.without(t.p, takes)); ok {
				if other := t.keep(is.from, stop); other.score.serves(in.score) {
					return other
				}
				return in
			}
		}
	}
	return t.keep(is.from, stop)
}

// sooner has what lies in the water come out earlier in the order of the hands' work, where
// that serves more: hands that are late would leave it in too long.
func (t *trier) sooner(d schedule) schedule {
	best, ok := t.timed(d)
	for l := range t.p.given {
		order, out := best.from.order, Visit{GetOut, l}
		for at := slices.Index(order, out) - 1; at >= 0 && order[at] != (Visit{PutIn, l}); at-- {
			next := best.from
			next.order = slices.Insert(slices.DeleteFunc(slices.Clone(order), func(v Visit) bool { return v == out }), at, out)
			if is, can := t.timed(next); can && (!ok || is.score.serves(best.score)) {
				best, ok = is, true
			}
		}
	}
	return best.from
}

// shed takes loads, or the last plants of one, out of a schedule as long as more is served
// by that, and until it has times: at each step those without which most is served.
func (t *trier) shed(d schedule, stop func() bool) (shedding, bool) {
	is, ok := t.timed(d)
	for !stop() && !(ok && is.whole()) {
		best, found := is, false
		for l := range is.from.loads {
			n := is.from.loads[l].toCome()
			for take := 1; take < 2*n; take *= 2 {
				less := is.from.clone()
				less.cut(t.p, l, min(take, n))
				if tried, can := t.timed(less); can && (!ok && !found || tried.score.serves(best.score)) {
					best, found = tried, true
				}
			}
		}
		if !found {
			return is, ok
		}
		is, ok = best, true
	}
	return is, ok
}

// fill puts loads into a schedule that has none to come, the heaviest first, each without
// as few of its last plants as must be.
func (t *trier) fill(d schedule, stop func() bool) (is shedding, ok bool) {
	takes, heavy := make([]int, len(d.loads)), make([]int, len(d.loads))
	for l := range d.loads {
		takes[l], heavy[l] = d.loads[l].toCome(), l
	}
	slices.SortStableFunc(heavy, func(x, y int) int { return cmp.Compare(d.loads[y].weight, d.loads[x].weight) })
	is, ok = t.timed(d.without(t.p, takes))
	for _, l := range heavy {
		n := takes[l]
		for take := 0; take < n && !stop(); take = max(1, 2*take) {
			takes[l] = take
			if with, can := t.timed(d.without(t.p, takes)); can && (!ok || with.score.serves(is.score)) {
				is, ok, n = with, true, take
			}
		}
		takes[l] = n
	}
	return is, ok
}

// timed gives a schedule times, which it is left without; false when there are none.
func (t *trier) timed(from schedule) (shedding, bool) {
	d := from.clone()
	sc, ok := t.try(&d)
	return shedding{from, draft{d, sc, t}}, ok
}

// cut takes the last plants out of a load that are still to go in, so many; with none
// left, or too few for a load, all of it.
func (d *schedule) cut(p *problem, l, plants int) {
	load := &d.loads[l]
	if plants == 0 {
		return
	}
	load.items = slices.Clone(load.items[:max(load.lying, len(load.items)-plants)])
	p.sum(load)
	switch {
	case load.given == 0 && (len(load.items) == 0 || !p.enough(load)):
		d.drop(l)
	case load.given > 0 && load.toCome() == 0:
		d.order = slices.DeleteFunc(d.order, func(v Visit) bool { return v.Load == l && v.Do != GetOut })
	}
}

// without is the schedule without so many of each load's last plants.
func (d *schedule) without(p *problem, takes []int) schedule {
	less := d.clone()
	for l := len(takes) - 1; l >= 0; l-- {
		less.cut(p, l, takes[l])
	}
	return less
}

// toCome is how many plants of a load still have to go in.
func (l *load) toCome() int { return len(l.items) - l.lying }

// waterFirst has water that is only still to be let out go before anything but what is due to
// come out, where that keeps nobody in the water for longer: it is a danger to children.
func (t *trier) waterFirst(d schedule) schedule {
	due := func(v Visit) bool {
		return v.Do == GetOut && v.Load < len(t.p.given) && t.p.Session.Given[v.Load].Due
	}
	for g := range t.p.given {
		out := Visit{GetOut, g}
		if len(d.loads[g].items) > 0 || !due(out) {
			continue
		}
		was, ok := t.timed(d)
		others := slices.DeleteFunc(slices.Clone(d.order), func(v Visit) bool { return v == out })
		for at := 0; at <= len(others) && (at == 0 || due(others[at-1])); at++ {
			next := d
			next.order = slices.Insert(slices.Clone(others), at, out)
			if is, can := t.timed(next); can && (!ok || !was.score.serves(is.score)) {
				d = next
				break
			}
		}
	}
	return d
}
