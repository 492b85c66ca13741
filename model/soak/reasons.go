package soak

import (
	"slices"
)

// asking finds out what keeps items out of a schedule, all else in it being as it is, and
// gives a place to those that find one.
type asking struct {
	*trier          // which tries loads of any size
	rules  *problem // whose loads are large enough
	is     schedule
	score  score
	takes  bool // who finds a place gets it

	at    []timed // of its loads
	in    []bool  // items of a load
	dryAt []int   // of those, when they are dry
	told  map[like][]LeftOut

	heard LeftOut // the reason that is nearest to a place so far
	near  int
}

// like is what makes two items go into the same loads.
type like struct {
	kind        kind
	least, most int
}

// How near to a place a reason is: the nearest is told.
const (
	noVessel = iota + 1
	noHands
	tooLate
	others // it would have a place, and another lose it
	noRoom
	rule // it has one, against a rule
)

// left gives a place to whom one can be found for, and says of the others why not. Whom it
// takes out of a load for another comes later in the order.
func (t *trier) left(d *schedule, sc score, takes bool) (left []LeftOut, is schedule, best score) {
	a := t.asking(t.p, d, sc)
	for _, i := range t.wanted {
		if a.takes = takes; takes && !a.in[i] {
			a.ask(i)
		}
	}
	left = t.few(slices.DeleteFunc(slices.Clone(t.alone), func(l LeftOut) bool { return a.in[l.Index] })) // it may have a place beside others
	more := t.p.with(t.p.atOnce + 1)                                                                      // more dries in the room
	one, filled := t.asking(more, &a.is, a.score), t.asking(more.filledAgain(), &a.is, a.score)
	for _, i := range t.wanted {
		if !a.in[i] {
			l := one.reason(i)
			if l.Why != NoSpare && t.p.once() && filled.ask(i) {
				l = LeftOut{Why: WaterTaken}
			}
			l.ID, l.Index = t.p.items[i].ID, i
			left = append(left, l)
		}
	}
	slices.SortFunc(left, func(x, y LeftOut) int { return x.Index - y.Index })
	return left, a.is, a.score
}

// once reports whether a vessel is not filled again.
func (p *problem) once() bool {
	return slices.ContainsFunc(p.Vessels, func(v Vessel) bool { return v.Once })
}

// filledAgain is the problem with vessels that can all be filled again.
func (p *problem) filledAgain() *problem {
	q, s := *p, *p.Session
	q.Session, s.Vessels = &s, slices.Clone(s.Vessels)
	for v := range s.Vessels {
		s.Vessels[v].Once = false
	}
	return &q
}

// asking asks about a schedule, with drying times as of a problem, and loads of any size.
func (t *trier) asking(p *problem, d *schedule, sc score) *asking {
	a := &asking{trier: t.anySize(p), rules: t.p, is: d.clone(), score: sc}
	a.wanted = t.wanted
	a.look()
	return a
}

// anySize tries schedules with loads of any size.
func (t *trier) anySize(p *problem) *trier {
	q := *p
	q.fewest, q.least = 0, make([]float64, len(q.least))
	return newTrier(&q)
}

// look notes the times of the schedule.
func (a *asking) look() {
	a.try(&a.is)
	a.at = append(a.at[:0], a.clock.loads...)
	a.in, a.dryAt, a.told = make([]bool, len(a.p.items)), make([]int, len(a.p.items)), map[like][]LeftOut{}
	for l := range a.is.loads {
		for _, i := range a.is.loads[l].items {
			a.in[i], a.dryAt[i] = true, a.dry.places[i].dry
		}
	}
}

// reason is why an item has no place: as of one that is easier to place, or as asked.
func (a *asking) reason(i int) LeftOut {
	if a.instead(i) {
		return LeftOut{Why: NoSpare}
	}
	k := like{a.p.kind(i), a.p.items[i].Least, a.p.items[i].Most}
	for _, l := range a.told[k] {
		if a.easier(l.Index, i) {
			if l.Why == DryTooLate {
				l.By += a.p.soonest[i] - a.p.soonest[l.Index]
			}
			return l
		}
	}
	l := LeftOut{Index: i, Why: NoSpare}
	if !a.ask(i) {
		l.Why, l.By = a.heard.Why, a.heard.By
	}
	if l.Why != NoSpare {
		a.told[k] = append(a.told[k], l)
	}
	return l
}

// easier reports whether whatever has a place for one item has one for another like it.
func (a *asking) easier(i, j int) bool {
	x, y := &a.p.items[i], &a.p.items[j]
	return x.Bulk <= y.Bulk && x.BenchRoom <= y.BenchRoom && a.p.soonest[i] <= a.p.soonest[j] &&
		x.Hands.Pull+x.Hands.In <= y.Hands.Pull+y.Hands.In && x.Hands.Out+x.Hands.Lay <= y.Hands.Out+y.Hands.Lay
}

// ask looks for a place for an item: that of one that is less thirsty, one in a load, or a
// load of its own. It reports whether there is one, and has heard why not.
func (a *asking) ask(i int) bool {
	a.heard, a.near = LeftOut{Why: VesselsTaken}, 0
	return a.instead(i) || a.beside(i) || a.apart(i)
}

func (a *asking) hear(near int, why Why, by int) {
	if near > a.near || near == a.near && by < a.heard.By {
		a.near, a.heard.Why, a.heard.By = near, why, by
	}
}

// finds tries a schedule in which an item has a place, but for the rules; if all of it has,
// it is the schedule from now on, or would be.
func (a *asking) finds(i int, d schedule) bool {
	sc, ok := a.try(&d)
	lost, gone := a.lost[i]
	switch {
	case !ok && (a.clock.fault.why == VesselsTaken || a.clock.fault.why == WaterTaken):
		a.hear(noVessel, a.clock.fault.why, 0)
	case !ok && a.clock.fault.why == RoomTaken:
		a.hear(noRoom, RoomTaken, 0)
	case !ok:
		a.hear(noHands, HandsTaken, 0)
	case gone && lost.why == DryTooLate:
		a.hear(tooLate, DryTooLate, lost.dry)
	case gone:
		a.hear(noRoom, lost.why, 0)
	case len(a.lost) > 0 || a.score.better(sc):
		a.hear(others, HandsTaken, 0)
		for _, x := range a.lost { // room that another would lose
			if x.why == BenchesTaken {
				a.hear(noRoom, BenchesTaken, 0)
			}
		}
	case a.takes && slices.ContainsFunc(d.loads, func(l load) bool { return !a.rules.enough(&l) }):
		a.hear(rule, TooFew, 0)
	case a.takes:
		a.is, a.score = d, sc
		a.look()
		return true
	default:
		return true
	}
	return false
}

// instead looks for a less thirsty item whose place would do for an item.
func (a *asking) instead(i int) bool {
	it := &a.p.items[i]
	for l := range a.is.loads {
		load, at := &a.is.loads[l], &a.at[l]
		if load.given > 0 || load.kind != a.p.kind(i) {
			continue
		}
		in, out, room := at.in, at.out, a.p.Vessels[load.vessel].Room-load.bulk
		for k, q := range load.items {
			x, soaks := &a.p.items[q], out-in
			in, out = in+x.Hands.In, out+x.Hands.Out+x.Hands.Lay
			if a.p.weight[q] >= a.p.weight[i] || soaks < it.Least || soaks > it.Most || it.Bulk > x.Bulk+room+slack ||
				it.Hands.Pull > x.Hands.Pull || it.Hands.In > x.Hands.In || it.Hands.Out+it.Hands.Lay > x.Hands.Out+x.Hands.Lay ||
				it.BenchRoom > x.BenchRoom || out+a.p.soonest[i] > a.dryAt[q] {
				continue
			}
			d := a.is.clone()
			to := &d.loads[l]
			to.items = slices.Clone(to.items)
			to.items[k] = i
			if a.p.sum(to); to.low <= to.high && a.finds(i, d) {
				return true
			}
		}
	}
	return false
}

// beside looks for a place in a load, at its end or where its window belongs.
func (a *asking) beside(i int) bool {
	it := &a.p.items[i]
	for l := range a.is.loads {
		load, at := &a.is.loads[l], &a.at[l]
		longest := load.high + max(0, load.out-load.in) // that its last is in
		if load.given > 0 || load.kind != a.p.kind(i) || it.latest() < load.low || it.Least > longest || !a.p.takes(load.vessel, i) ||
			load.bulk+it.Bulk > a.p.Vessels[load.vessel].Room+slack {
			continue
		}
		if late := at.out + it.Hands.Out + it.Hands.Lay + a.p.soonest[i] - a.p.hoursAt(at.out).DryBy; late > 0 { // even as its first
			a.hear(tooLate, DryTooLate, late)
			continue
		}
		for _, settled := range []bool{false, true} {
			d := a.is.clone()
			to := &d.loads[l]
			to.items = append(slices.Clone(load.items), i)
			if settled {
				a.p.settle(to)
			}
			if a.p.sum(to); to.low <= to.high && a.finds(i, d) {
				return true
			}
			if at.end+it.Hands.Out+it.Hands.Lay+a.p.soonest[i] <= a.p.hoursAt(at.out).DryBy { // but the load would be out later
				a.hear(others, HandsTaken, 0)
			}
		}
	}
	return false
}

// apart looks for a load of its own, in the time that the others leave the hands.
func (a *asking) apart(i int) bool {
	gaps := a.gaps()
	for v := range a.p.Vessels {
		if !a.p.takes(v, i) || slices.Contains(a.p.Vessels[:v], a.p.Vessels[v]) {
			continue
		}
		l := a.company(i, v)
		for n, from := range gaps {
			in := from.From + l.pull
			if a.p.hoursAt(from.From).OutOnly {
				continue
			}
			for _, to := range gaps[n:] {
				out := max(to.From, in+l.low)
				goesIn := max(in, out-l.high) // it may wait for the hands to be there when it comes out
				if out+l.out <= to.To && goesIn+l.in <= from.To && a.goes(i, l, goesIn, out) {
					return true
				}
			}
		}
	}
	a.hear(noHands, HandsTaken, 0)
	return false
}

// company is an item as a load, with as many of those that are left out as make it large
// enough; by itself if there are too few.
func (a *asking) company(i, v int) load {
	b := builder{trier: a.trier, order: a.wanted, gone: a.in}
	alone := load{vessel: v, items: []int{i}, kind: a.p.kind(i)}
	items := b.gather(v, alone.kind, i, a.p.Vessels[v].Room)
	a.p.sum(&alone)
	for n := 1; n <= len(items); n++ {
		l := load{vessel: v, items: items[:n], kind: alone.kind}
		if a.p.settle(&l); l.low <= l.high && a.rules.enough(&l) {
			return l
		}
	}
	return alone
}

// goes looks whether a load of an item may be in a vessel from one time to another.
func (a *asking) goes(i int, l load, in, out int) bool {
	if late := out + l.dry - a.p.hoursAt(out).DryBy; late > 0 {
		a.hear(tooLate, DryTooLate, late)
		return false
	}
	if a.lies(&l, in, out+l.out) {
		a.hear(noVessel, VesselsTaken, 0)
		return false
	}
	d := a.is.clone()
	n := len(d.loads)
	d.loads = append(d.loads, l)
	d.order = slices.Insert(d.order, a.workAt(in), Visit{Pull, n}, Visit{PutIn, n})
	d.order = slices.Insert(d.order, a.workAt(out)+2, Visit{GetOut, n})
	why := served
	switch {
	case l.kind.ordinary() && a.p.Limits.Loads > 0 && a.is.ordinary() >= a.p.Limits.Loads:
		why = LoadsTaken // also of one that is too small: a small one could not be added either
	case !a.rules.enough(&l):
		why = TooFew
	}
	takes := a.takes
	a.takes = takes && why == served
	found := a.finds(i, d)
	if a.takes = takes; found && why != served {
		a.hear(rule, why, 0)
		return false
	}
	return found
}

// lies reports whether something lies in a load's vessel at a time, beside which it cannot.
func (a *asking) lies(l *load, from, to int) bool {
	for m := range a.is.loads {
		other, at := &a.is.loads[m], &a.at[m]
		in := at.in
		if other.lying > 0 {
			in = a.p.start
		}
		if other.vessel == l.vessel && in < to && at.end > from &&
			(other.kind != l.kind || other.bulk+l.bulk > a.p.Vessels[l.vessel].Room+slack) {
			return true
		}
	}
	return false
}

// workAt is the place in the order of the hands' work of what begins at a time or later.
func (a *asking) workAt(t int) int {
	for k, v := range a.is.order {
		if a.begins(v) >= t {
			return k
		}
	}
	return len(a.is.order)
}

// begins is when the hands begin with something.
func (a *asking) begins(v Visit) int {
	switch at := &a.at[v.Load]; v.Do {
	case Pull:
		return at.pull
	case PutIn:
		return at.in
	default:
		return at.out
	}
}

// gaps are the stretches in which the others leave a pair of hands nothing to do.
func (a *asking) gaps() (gaps []Stretch) {
	for n, pair := range a.p.pairs {
		for _, s := range pair {
			from := s.From
			for _, v := range a.is.order { // as the hands do it
				load, at := &a.is.loads[v.Load], &a.at[v.Load]
				begins, until := a.begins(v), at.pulled
				switch v.Do {
				case PutIn:
					until = at.in + load.in
				case GetOut:
					if until = at.end; at.last {
						until = at.rinse + a.p.Vessels[load.vessel].Rinse
					}
				}
				if int(at.pair[v.Do]) != n || begins >= s.To || until <= from || until == begins {
					continue
				}
				if begins > from {
					gaps = append(gaps, Stretch{from, begins})
				}
				from = until
			}
			if from < s.To {
				gaps = append(gaps, Stretch{from, s.To})
			}
		}
	}
	slices.SortFunc(gaps, func(x, y Stretch) int { return x.From - y.From })
	return gaps
}
