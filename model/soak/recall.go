package soak

import (
	"cmp"
	"slices"
)

// recall is an earlier plan as a schedule of what is left of it. What is overdue comes out
// before anything else is done.
func (t *trier) recall(before Before) schedule {
	p := t.p
	d := schedule{loads: slices.Clone(p.given)}
	at := make([]int, len(before.Loads))
	index, joined := map[int]int{}, make([]bool, p.n)
	for i := range p.n {
		index[p.items[i].ID] = i
	}
	for g := range p.given {
		for _, i := range p.given[g].items[p.given[g].lying:] {
			joined[i] = true
		}
	}
	for b, was := range before.Loads {
		at[b] = was.Given - 1
		if was.Given > 0 {
			continue
		}
		l := load{vessel: was.Vessel, begun: was.Begun, heap: was.Heap}
		for _, id := range was.IDs {
			if i, ok := index[id]; ok && !joined[i] && p.takes(was.Vessel, i) && (len(l.items) == 0 || p.kind(i) == l.kind) {
				l.items, l.kind, joined[i] = append(l.items, i), p.kind(i), true
			}
		}
		p.sum(&l)
		if len(l.items) > 0 && p.enough(&l) {
			at[b] = len(d.loads)
			d.loads = append(d.loads, l)
		}
	}
	done := make([][GetOut + 1]bool, len(d.loads))
	for _, v := range before.Order {
		if l := at[v.Load]; l >= 0 && p.owes(&d.loads[l], v.Do) {
			d.order = append(d.order, Visit{v.Do, l})
			done[l][v.Do] = true
		}
	}
	var unknown []int
	for l := range d.loads { // what the earlier plan knew nothing of goes in first
		for _, do := range []Do{PutIn, Pull} {
			if !done[l][do] && p.owes(&d.loads[l], do) {
				d.order = slices.Insert(d.order, 0, Visit{do, l})
			}
		}
		if !done[l][GetOut] {
			d.order = append(d.order, Visit{GetOut, l})
			unknown = append(unknown, l)
		}
	}
	for _, l := range unknown {
		d = t.comesOut(d, l)
	}
	return t.waterFirst(t.overdueFirst(d))
}

// overdueFirst has what is overdue come out before anything else is done: the shortest
// first, so that the least time is lost for all, or in the earlier plan's order of taking
// out, where what that has before it would else stay in too long. What was still to go in
// with it goes in afterwards.
func (t *trier) overdueFirst(d schedule) schedule {
	var due, inOrder []Visit
	last := -1
	for n, v := range d.order {
		if l := v.Load; v.Do == GetOut && l < len(t.p.given) && d.loads[l].lying > 0 {
			inOrder = append(inOrder, v)
			if g := &d.loads[l]; t.p.Session.Given[l].Due && g.from <= t.p.start+noticed || g.to < t.p.start {
				due, last = append(due, v), n
			}
		}
	}
	inOrder = slices.DeleteFunc(inOrder, func(v Visit) bool { return slices.Index(d.order, v) > last })
	slices.SortStableFunc(due, func(a, b Visit) int { return cmp.Compare(d.loads[a.Load].out, d.loads[b.Load].out) })
	best := t.outBefore(d, due)
	if len(inOrder) > len(due) {
		is, ok := t.timed(best)
		if as, can := t.timed(t.outBefore(d, inOrder)); can && (!ok || as.score.serves(is.score)) {
			best = t.sooner(as.from) // there may be time for one of them first
		}
	}
	return best
}

// outBefore has some loads come out, in that order, before anything else is done.
func (t *trier) outBefore(d schedule, outs []Visit) schedule {
	order := slices.DeleteFunc(slices.Clone(d.order), func(v Visit) bool { return slices.Contains(outs, v) })
	d.order = append(slices.Clone(outs), order...)
	for _, v := range outs {
		if d.loads[v.Load].toCome() > 0 {
			d = t.placed(t.p.apart(d, v.Load, slices.Index(d.order, v)+1))
		}
	}
	return d
}

// owes reports whether the hands still have to do something with a load.
func (p *problem) owes(l *load, do Do) bool {
	return do == GetOut || l.toCome() > 0
}
