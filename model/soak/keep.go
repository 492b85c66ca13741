package soak

import "slices"

// keep plans as an earlier plan of the day had it, with new times, and gives
// what it had no place for what is left; false if plants have lost their place,
// so that it takes a new plan. Someone is following the plan: one that is a
// little better is not worth what has been laid out by it.
func (a *arranging) keep(p *problem, before *Before) bool {
	q := p.with(p.all())
	if p.s.Room != nil {
		q = p.with(min(max(1, before.AtOnce), p.all()))
	}
	for q.atOnce < p.all() && q.morning.crowd.peak > float64(q.atOnce) { // more dry already
		q = p.with(min(int(q.morning.crowd.peak), p.all()))
	}
	f := q.before(before)
	for _, order := range []*problem{q, q.fansFirst()} {
		s := newSearch(order, 0, a.over)
		s.enter(f)
		lost := slices.ContainsFunc(s.left, func(i int) bool { return f.has(i) })
		s.fillUp()
		a.spend(s)
		if !lost {
			a.prefer(s)
		}
	}
	if a.best == nil {
		return false
	}
	a.tighten()
	return true
}

// before is an earlier plan's loads with the items that there still are, those
// that may no longer share a load apart.
func (p *problem) before(before *Before) draft {
	items, gone := map[int]int{}, make([]bool, len(p.items))
	for _, i := range p.wanted {
		items[p.items[i].ID] = i
	}
	var f draft
	for _, l := range before.Loads {
		kinds := map[kind]int{} // of the load: its batch
		for _, id := range l.IDs {
			i, ok := items[id]
			if !ok || gone[i] || !p.takes(l.Vessel, i) {
				continue
			}
			gone[i] = true
			b, ok := kinds[p.kind(i)]
			if !ok || p.bulk(f[b].items)+p.items[i].Bulk > p.s.Vessels[l.Vessel].Room+slack {
				b = len(f)
				f = append(f, batch{vessel: l.Vessel})
				kinds[p.kind(i)] = b
			}
			f[b].items = append(f[b].items, i)
		}
	}
	return f
}

// has reports whether an item is in the draft.
func (f draft) has(i int) bool {
	return slices.ContainsFunc(f, func(b batch) bool { return slices.Contains(b.items, i) })
}
