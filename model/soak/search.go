package soak

import (
	"math/rand/v2"
	"slices"
)

// askEvery is the work between two looks at whether to stop.
const askEvery = 20_000

// search looks for a better draft by small changes, taking also some that are a
// little worse: threshold accepting (Dueck & Scheuer 1990, Journal of
// Computational Physics 90:161-175), which needs no arithmetic that differs
// between machines.
type search struct {
	p         *problem
	d         day
	rng       *rand.Rand
	seeds     []seed
	cur, next draft
	curCost   int64
	before    []day // the day before each batch of cur, and after the last
	after     []day // the same of next, from the first batch that differs
	best      draft
	bestScore score
	left      []int // items of no batch of cur, most worth first
	brought   []int // those of them that the change being tried brings in
	pool      []int // plants being shared out anew
	has       []bool
	stop      func() bool
	asked     int // work done when stop was asked last
}

// In each round the worsening that is taken falls from a share of the plan's
// length to nothing. Our own, found by trying.
const (
	rounds     = 2   // between two meetings
	firstShare = 120 // the first threshold is this fraction of the plan's length
	oneMore    = 4   // a change has another move one time in so many
)

// newSearch is a search on a problem, the nth of several that must differ.
func newSearch(p *problem, nth int, stop func() bool) *search {
	s := &search{p: p, rng: rand.New(rand.NewPCG(uint64(nth), 0)), has: make([]bool, len(p.items)), stop: stop}
	s.d.p = p
	return s
}

// over reports whether the search is told to stop.
func (s *search) over() bool {
	if s.d.work-s.asked < askEvery {
		return false
	}
	s.asked = s.d.work
	return s.stop()
}

// offer keeps a draft of the given score if it is better than the best.
func (s *search) offer(f draft, sc score) {
	if s.best == nil || sc.compare(s.bestScore) < 0 {
		s.best, s.bestScore = f.copyTo(s.best), sc
	}
}

// improve looks for better drafts until the work is done, or nothing better is
// possible: at the first meeting from the first drafts, else from the best.
func (s *search) improve(meeting, work int) {
	begin := s.d.work
	for r := range rounds {
		f := s.best
		if meeting == 0 && r < len(s.seeds) {
			f = s.seeds[r].draft
		}
		s.enter(f)
		length := int64(s.d.free - s.p.start)
		from, to := begin+work*r/rounds, begin+work*(r+1)/rounds
		for s.d.work < to {
			if s.over() || s.bestScore.compare(s.p.ideal) <= 0 {
				return
			}
			s.step(length / firstShare * int64(max(0, to-s.d.work)) / int64(max(1, to-from)))
		}
	}
}

// enter makes a draft the one that changes are tried on.
func (s *search) enter(f draft) {
	s.next = f.copyTo(s.next)
	s.cur = s.cur[:0]
	s.before = days(s.before, 1)
	s.before[0].begin(&s.p.morning)
	s.play(0, maxCost)
}

// step tries a change of one move, or a few.
func (s *search) step(allow int64) {
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
	if first := s.cur.same(s.next); first < max(len(s.cur), len(s.next)) {
		s.play(first, s.curCost+allow)
	}
}

// play puts the next draft into the day from a batch on, those before it being
// the current draft's, and makes it the current one if it costs no more than
// the limit.
func (s *search) play(first int, limit int64) {
	could := int64(0) // thirst served if every plant of the draft finds its place
	for b := range s.next {
		could += s.p.weigh(s.next[b].items)
	}
	s.d.begin(&s.before[first])
	s.after = days(s.after, len(s.next)+1)
	n := first
	for b := first; b < len(s.next); b++ {
		could -= s.p.weigh(s.next[b].items)
		s.next[b].items = s.d.put(s.next[b].vessel, s.next[b].items)
		could += s.p.weigh(s.next[b].items)
		if s.d.cost(could) > limit {
			return
		}
		if len(s.next[b].items) > 0 {
			s.next[n], s.next[b] = s.next[b], s.next[n]
			n++
			s.after[n].begin(&s.d)
		}
	}
	s.next = s.next[:n]
	s.curCost = s.d.cost(could)
	s.before = days(s.before, n+1)
	for b := first + 1; b <= n; b++ {
		s.before[b], s.after[b] = s.after[b], s.before[b]
	}
	s.cur, s.next = s.next, s.cur
	s.listLeft()
	s.offer(s.cur, s.d.score())
}

// days is at least n days, their memory kept.
func days(d []day, n int) []day {
	for len(d) < n {
		d = append(d, day{})
	}
	return d
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
	for _, i := range s.p.wanted {
		if !s.has[i] {
			s.left = append(s.left, i)
		}
	}
}

// fillUp puts plants that the best draft leaves out into what is left of its
// day, each alone, most worth first.
func (s *search) fillUp() {
	s.enter(s.best)
	f := s.cur.copyTo(nil)
	for _, i := range s.left {
		if v := s.firstTo(i); v >= 0 {
			f = append(f, batch{v, s.d.put(v, []int{i})})
		}
	}
	s.offer(f, s.d.score())
}

// firstTo is the vessel from which a plant would come out first, or -1.
func (s *search) firstTo(i int) int {
	best, soonest, one := -1, 0, []int{i}
	for v := range s.d.tubs {
		if !s.p.takes(v, i) {
			continue
		}
		if _, _, ok := s.d.times(v, one); ok && (best < 0 || s.d.load.end < soonest) {
			best, soonest = v, s.d.load.end
		}
	}
	return best
}

// same is how many batches two drafts have alike before the first that differs.
func (f draft) same(g draft) int {
	n := 0
	for n < len(f) && n < len(g) && f[n].vessel == g[n].vessel && slices.Equal(f[n].items, g[n].items) {
		n++
	}
	return n
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
	n := 0
	for b := range f {
		if len(f[b].items) > 0 {
			f[n], f[b] = f[b], f[n]
			n++
		}
	}
	return f[:n]
}
