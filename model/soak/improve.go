package soak

import (
	"context"
	"math/rand/v2"
	"slices"
)

// Effort is how long to look for a better plan. There is no clock in it: work
// is counted in plants placed, some 15 million a second on a small computer.
type Effort struct {
	Work int         // plants placed; 0 means [DefaultWork]
	Stop func() bool // asked now and then; true ends the search. nil: never
}

// DefaultWork is the work of a plan if no other is asked for.
const DefaultWork = 1_500_000

// askEvery is the work between two looks at Stop and the context.
const askEvery = 20_000

// search looks for a better draft by small changes, taking also some that are a
// little worse: threshold accepting (Dueck & Scheuer 1990, Journal of
// Computational Physics 90:161-175), which needs no arithmetic that differs
// between machines.
type search struct {
	p         *problem
	d         *day
	rng       *rand.Rand
	cur, next draft
	curCost   int
	first     []start // best first
	best      draft
	bestScore score
	left      []int // items of no batch of cur, most worth first
	brought   []int // those of them that the change being tried brings in
	wanted    []int // most worth first
	has       []bool
	stop      func() bool
	asked     int
}

// The search goes through rounds; in each the worsening it allows falls from a
// share of the plan's length to nothing. Found by trying.
const (
	rounds     = 12
	firstShare = 15 // the first threshold is this fraction of the plan's length
	oneMore    = 4  // a change has another move one time in so many
)

func newSearch(ctx context.Context, d *day, wanted []int, e Effort) *search {
	s := &search{p: d.p, d: d, rng: rand.New(rand.NewPCG(1, 2)), wanted: wanted, has: make([]bool, d.p.n)}
	s.stop = func() bool { return ctx.Err() != nil || e.Stop != nil && e.Stop() }
	return s
}

// over reports whether the search was told to stop.
func (s *search) over() bool {
	if s.d.work < s.asked {
		return false
	}
	s.asked = s.d.work + askEvery
	return s.stop()
}

// start makes a draft by every rule, and keeps the best that agrees with its
// drying times, or just the best.
func (s *search) start() {
	for _, r := range rules() {
		f := s.d.build(r, s.wanted)
		s.first = append(s.first, start{f, s.d.score()})
		if s.over() {
			break
		}
	}
	slices.SortStableFunc(s.first, func(a, b start) int { return a.score.compare(b.score) })
	for _, f := range s.first {
		if s.best == nil {
			s.offer(f.draft, f.score)
		}
	}
	if s.best == nil {
		s.best, s.bestScore = s.first[0].draft.copyTo(nil), s.first[0].score
	}
}

// offer keeps a draft of the given score if it is better than the best, and
// agrees with its drying times.
func (s *search) offer(f draft, sc score) bool {
	if s.best != nil && sc.compare(s.bestScore) >= 0 || !s.agrees(f) {
		return false
	}
	s.best, s.bestScore = f.copyTo(s.best), sc
	return true
}

// agrees reports whether no more plants of a draft dry at once than the drying
// times allow for.
func (s *search) agrees(f draft) bool {
	if s.p.s.Room == nil {
		return true
	}
	s.d.keep = true
	s.d.run(f.copyTo(nil))
	s.d.keep = false
	return s.d.dryingAtOnce() <= s.p.atOnce
}

// start is a draft to start from.
type start struct {
	draft draft
	score score
}

// improve looks for better drafts until the work is done, or nothing better is
// possible.
func (s *search) improve(work int, ideal score) {
	begin := s.d.work
	for r := range rounds {
		if r < rounds/2 && r < len(s.first) {
			s.enter(s.first[r].draft)
		} else {
			s.enter(s.best)
		}
		length := s.curCost % (2 * (s.p.s.Hours[len(s.p.s.Hours)-1].To - s.p.start))
		from, to := begin+work*r/rounds, begin+work*(r+1)/rounds
		for s.d.work < to {
			if s.over() || s.bestScore.compare(ideal) <= 0 {
				return
			}
			s.step(length / firstShare * max(0, to-s.d.work) / max(1, to-from))
		}
	}
}

// enter makes a draft the one that changes are tried on.
func (s *search) enter(f draft) {
	s.cur = f.copyTo(s.cur)
	s.d.run(s.cur)
	s.curCost = s.d.cost()
	s.listLeft()
}

// step tries a change of one move, or a few.
func (s *search) step(allow int) {
	s.next = s.cur.copyTo(s.next)
	s.brought = s.brought[:0]
	s.d.work++
	for again := true; again; again = s.draw(oneMore) == 0 {
		f, ok := moves[s.draw(len(moves))](s, s.next)
		s.next = f.compact()
		if !ok {
			return
		}
	}
	s.d.run(s.next)
	cost := s.d.cost()
	if cost > s.curCost+allow {
		return
	}
	s.cur, s.next, s.curCost = s.next, s.cur, cost
	s.cur = s.cur.compact()
	s.listLeft()
	s.offer(s.cur, s.d.score())
}

// listLeft lists what the current draft leaves out.
func (s *search) listLeft() {
	s.left = s.left[:0]
	clear(s.has)
	for _, b := range s.cur {
		for _, i := range b.items {
			s.has[i] = true
		}
	}
	for _, i := range s.wanted {
		if !s.has[i] {
			s.left = append(s.left, i)
		}
	}
}

// copyTo makes a copy of a draft in the memory of another.
func (f draft) copyTo(to draft) draft {
	to = to[:cap(to)]
	for len(to) < len(f) {
		to = append(to, batch{})
	}
	to = to[:len(f)]
	for b := range f {
		to[b].vessel = f[b].vessel
		to[b].items = append(to[b].items[:0], f[b].items...)
	}
	return to
}

// compact drops empty batches.
func (f draft) compact() draft {
	return slices.DeleteFunc(f, func(b batch) bool { return len(b.items) == 0 })
}
