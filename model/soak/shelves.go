package soak

import (
	"cmp"
	"slices"
)

// gatherShelves brings shelf-mates together within each load of a draft where
// that makes the plan no worse, so that the walk is short; it stops when its
// work is done.
func (s *search) gatherShelves(work int) {
	end := s.d.work + work
	for b := range s.best {
		if s.d.work >= end || s.over() {
			return
		}
		s.next = s.best.copyTo(s.next)
		s.byShelf(s.next[b].items)
		if s.changes(s.next[b].items) >= s.changes(s.best[b].items) {
			continue
		}
		s.d.run(s.next)
		if sc := s.d.score(); sc.compare(s.bestScore) <= 0 {
			s.best, s.bestScore = s.next.copyTo(s.best), sc
		}
	}
}

// byShelf orders plants by shelf, the shelf of the first plant first, else as
// they were.
func (s *search) byShelf(items []int) {
	first := map[int]int{}
	for k, i := range items {
		if _, seen := first[s.p.items[i].Shelf]; !seen {
			first[s.p.items[i].Shelf] = k
		}
	}
	slices.SortStableFunc(items, func(x, y int) int {
		return cmp.Compare(first[s.p.items[x].Shelf], first[s.p.items[y].Shelf])
	})
}

// changes is how often the next plant is on another shelf.
func (s *search) changes(items []int) int {
	n := 0
	for k := 1; k < len(items); k++ {
		if s.p.items[items[k]].Shelf != s.p.items[items[k-1]].Shelf {
			n++
		}
	}
	return n
}
