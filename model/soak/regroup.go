package soak

import (
	"cmp"
	"slices"
)

// regroupTwo shares the plants of two batches out anew.
func (s *search) regroupTwo(f draft) (draft, bool) {
	a, b, ok := s.alike(f)
	return f, ok && s.regroup(f, a, b)
}

// regroupThree shares the plants of three batches out anew.
func (s *search) regroupThree(f draft) (draft, bool) {
	a, b, ok := s.alike(f)
	if !ok {
		return f, false
	}
	c := s.draw(len(f))
	if c == a || c == b || s.p.kind(f[c].items[0]) != s.p.kind(f[a].items[0]) {
		return f, false
	}
	return f, s.regroup(f, a, b, c)
}

// regroup fills batches one after the other with all their plants, those alike
// together; false if one does not hold its share.
func (s *search) regroup(f draft, batches ...int) bool {
	s.pool = s.pool[:0]
	rooms, asBefore := [3]float64{}, s.draw(2) == 0
	for n, b := range batches {
		rooms[n] = s.p.s.Vessels[f[b].vessel].Room
		if asBefore {
			rooms[n] = s.p.bulk(f[b].items)
		}
		s.pool = append(s.pool, f[b].items...)
		f[b].items = f[b].items[:0]
	}
	order := []func(*problem, int, int) int{byLength, byShortness, byDrying}[s.draw(3)]
	slices.SortStableFunc(s.pool, func(x, y int) int { return order(s.p, x, y) })
	n, used := 0, 0.0
	for _, i := range s.pool {
		if used += s.p.items[i].Bulk; used > rooms[n]+slack && n+1 < len(batches) {
			n, used = n+1, s.p.items[i].Bulk
		}
		f[batches[n]].items = append(f[batches[n]].items, i)
	}
	for _, b := range batches {
		s.order(f[b].items)
		if !s.holds(&f[b]) {
			return false
		}
	}
	return true
}

// sorted puts the plants of a batch in order.
func (s *search) sorted(f draft) (draft, bool) {
	if len(f) == 0 {
		return f, false
	}
	s.order(f[s.draw(len(f))].items)
	return f, true
}

// order sorts a load for going in: mostly the short soaks first, now and then
// the slow driers.
func (s *search) order(load []int) {
	slow := s.draw(3) == 0
	slices.SortFunc(load, func(a, b int) int {
		x, y := &s.p.items[a], &s.p.items[b]
		if slow && x.DryFor != y.DryFor {
			return y.DryFor - x.DryFor
		}
		return cmp.Or(x.From-y.From, x.To-y.To, y.DryFor-x.DryFor, a-b)
	})
}

// several moves plants that follow each other to another batch.
func (s *search) several(f draft) (draft, bool) {
	a, b, ok := s.alike(f)
	if !ok {
		return f, false
	}
	from := s.draw(len(f[a].items))
	to := min(len(f[a].items), from+1+s.draw(mostMoved))
	f[b].items = slices.Insert(f[b].items, s.draw(len(f[b].items)+1), f[a].items[from:to]...)
	f[a].items = slices.Delete(f[a].items, from, to)
	return f, s.holds(&f[b])
}

// mostMoved is how many plants are moved at once at most. Our own.
const mostMoved = 4
