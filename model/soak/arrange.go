package soak

import (
	"context"
	"fmt"
	"sync"
)

// Effort is how long to look for a better plan. There is no clock in it: work
// is counted in plants placed, some 10 million a second on a small computer.
type Effort struct {
	Work int         // plants placed, first drafts in any case; 0 means [DefaultWork], less for a few plants
	Stop func() bool // asked now and then, never twice at a time, until it says true, which ends the search. nil: never
}

// DefaultWork is the work of a plan if no other is asked for.
const DefaultWork = 5_000_000

// eachWork is the most of it that is spent on each plant. Our own.
const eachWork = 30_000

// Arrange plans a session: most thirst served, then the hands free earliest,
// then fewest fills, fewest loads and fewest left half done for something else,
// and shelf-mates together where that costs nothing. It works until the effort
// is spent, Stop says so or the context ends, and returns the best plan so far.
// The error is one of [Session.Check], or the context's when that had ended
// before there was any plan.
func Arrange(ctx context.Context, s *Session, e Effort) (*Plan, error) {
	if err := s.Check(); err != nil {
		return nil, err
	}
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("plan the session: %w", err)
	}
	if e.Work == 0 {
		e.Work = min(DefaultWork, eachWork*len(s.Items))
	}
	a := &arranging{work: e.Work, over: stopper(ctx, e.Stop)}
	if p := prepare(s); s.Before == nil || !a.keep(p, s.Before) {
		a.arrange(p)
	}
	return a.best.plan(a.done), nil
}

// stopper asks, one at a time, whether to stop; it takes a yes for good.
func stopper(ctx context.Context, stop func() bool) func() bool {
	var one sync.Mutex
	over := false
	return func() bool {
		one.Lock()
		defer one.Unlock()
		over = over || ctx.Err() != nil || stop != nil && stop()
		return over
	}
}

// walkers is how many searches go on side by side. They meet now and then and
// go on from the best, so that a plan is the same on any number of processors.
const walkers = 4

// The shares of the work, in tenths, and how often the walkers meet. Our own,
// found by trying.
const (
	seedTenths   = 6 // for first drafts at most
	apartTenths  = 2 // with single plants, after the handfuls
	gatherTenths = 1 // to bring shelf-mates together
	meetings     = 12
)

// arranging is the search for a plan.
type arranging struct {
	work, done int // plants placed
	over       func() bool
	best       *search
}

// tenths is a part of the work.
func (a *arranging) tenths(n int) int { return a.work / 10 * n }

// spend takes account of what a search has done so far.
func (a *arranging) spend(s *search) {
	a.done += s.d.work
	s.d.work, s.asked = 0, 0
}

// prefer makes a search the best if it is better.
func (a *arranging) prefer(s *search) {
	if a.best == nil || s.bestScore.compare(a.best.bestScore) < 0 {
		a.best = s
	}
}

// arrange looks for a plan with handfuls first, then with single plants.
func (a *arranging) arrange(p *problem) {
	rough, handfuls := p.rough()
	if rough == nil {
		a.search(a.walk(p), a.tenths(10-gatherTenths), true)
	} else {
		a.search(a.walk(rough), a.tenths(10-gatherTenths-apartTenths), true)
		a.takeApart(p, handfuls)
		a.search(a.from(a.best), a.tenths(10-gatherTenths), false)
	}
	a.best.fillUp()
	if !a.over() {
		a.best.gatherShelves(a.tenths(gatherTenths))
	}
	a.spend(a.best)
	a.tighten()
}

// walk makes first drafts and sends walkers off, each with another of the best
// guesses.
func (a *arranging) walk(p *problem) []*search {
	guesses := p.seeds(a)
	var all []*search
	for w := range walkers {
		g := &guesses[w%len(guesses)]
		s := newSearch(g.p, w, a.over)
		s.seeds = g.drafts
		s.offer(g.drafts[0].draft, g.drafts[0].score)
		s.fillUp()
		a.spend(s)
		a.prefer(s)
		all = append(all, s)
	}
	return all
}

// from sends walkers off from where a search has come to.
func (a *arranging) from(best *search) []*search {
	all := make([]*search, walkers)
	for w := range all {
		all[w] = newSearch(best.p, w, a.over)
		all[w].offer(best.best, best.bestScore)
	}
	return all
}

// takeApart goes on from the best draft of handfuls with its single plants, or
// from a first draft of them where that is better.
func (a *arranging) takeApart(p *problem, handfuls [][]int) {
	rough := a.best.p
	p = p.with(rough.atOnce)
	p.order = rough.order
	s := newSearch(p, 0, a.over)
	s.enter(a.best.best.apart(handfuls))
	first := a.drafts(p).drafts[0]
	s.offer(first.draft, first.score)
	s.fillUp()
	a.spend(s)
	a.best = s
}

// search lets walkers search until so much work is done in all; when they meet
// all go on from the best of them, some with drying times for other numbers of
// plants drying at once if those may vary.
func (a *arranging) search(all []*search, until int, vary bool) {
	for m := range meetings {
		work := (until - a.done) / (meetings - m) / len(all)
		if work <= 0 || a.over() {
			return
		}
		var walking sync.WaitGroup
		for _, s := range all {
			walking.Go(func() { s.improve(m, work) })
		}
		walking.Wait()
		for _, s := range all {
			a.spend(s)
			a.prefer(s)
		}
		for w := range all {
			all[w] = a.goOn(all[w], w, vary)
		}
	}
}

// goOn brings a walker, the nth, to the best draft.
func (a *arranging) goOn(s *search, nth int, vary bool) *search {
	best, p := a.best, a.best.p
	if vary {
		p = p.near(p.atOnce * nearby[nth] / 100)
	}
	if s.p != p {
		s = newSearch(p, nth, a.over)
	}
	if p == best.p {
		s.offer(best.best, best.bestScore)
	} else {
		s.enter(best.best)
	}
	a.spend(s)
	return s
}

// nearby is by how much the walkers vary the number of plants drying at once,
// in hundredths.
var nearby = [walkers]int{0, 5, -5, 0}

// tighten shortens the drying times to what the best plan allows: those of the
// number of plants that do dry at once in it.
func (a *arranging) tighten() {
	s := a.best
	s.enter(s.best)
	a.spend(s)
	p := s.p.near(int(s.d.crowd.peak) - s.p.atOnce)
	if p == s.p {
		return
	}
	t := newSearch(p, 0, a.over)
	t.enter(s.best)
	a.spend(t)
	if t.bestScore.compare(s.bestScore) <= 0 {
		a.best = t
	}
}
