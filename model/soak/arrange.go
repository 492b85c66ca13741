package soak

import (
	"context"
	"fmt"
	"sync"
)

// Effort is how long to look for a better plan. There is no clock in it: work
// is counted in plants placed, some 10 million a second on a small computer.
type Effort struct {
	Work int         // plants placed; 0 means [DefaultWork], less for a few plants
	Stop func() bool // asked now and then, never twice at a time; true ends the search. nil: never
}

// DefaultWork is the work of a plan if no other is asked for.
const DefaultWork = 6_000_000

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

// stopper asks, one at a time, whether to stop.
func stopper(ctx context.Context, stop func() bool) func() bool {
	var one sync.Mutex
	return func() bool {
		one.Lock()
		defer one.Unlock()
		return ctx.Err() != nil || stop != nil && stop()
	}
}

// walkers is how many searches go on side by side. They meet now and then and
// go on from the best, so that a plan is the same on any number of processors.
const walkers = 4

// The shares of the work, in tenths, and how often the walkers meet. Our own,
// found by trying.
const (
	apartTenths  = 3 // with single plants, after the handfuls
	gatherTenths = 1 // to bring shelf-mates together
	meetings     = 12
)

// arranging is the search for a plan.
type arranging struct {
	work, done int // plants placed
	over       func() bool
	best       *search
}

// arrange looks for a plan with handfuls first, then with single plants.
func (a *arranging) arrange(p *problem) {
	rough, handfuls := p.rough()
	if rough == nil {
		a.search(a.walk(p), a.work*(10-gatherTenths)/10, true)
	} else {
		a.search(a.walk(rough), a.work*(10-gatherTenths-apartTenths)/10, true)
		a.apart(p, handfuls)
		a.search(a.from(a.best), a.work*(10-gatherTenths)/10, false)
	}
	a.best.fillUp()
	a.best.gatherShelves(a.work * gatherTenths / 10)
	a.tighten()
	a.done += a.best.d.work
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
		all = append(all, s)
	}
	a.best = all[0]
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

// apart goes on from the best draft of handfuls with its single plants.
func (a *arranging) apart(p *problem, handfuls [][]int) {
	rough := a.best.p
	p = p.with(rough.atOnce)
	p.order = rough.order
	s := newSearch(p, 0, a.over)
	s.enter(a.best.best.apart(handfuls))
	s.fillUp()
	a.best = s
}

// search lets walkers search until so much work is done in all; when they meet
// all go on from the best of them, some with drying times for other numbers of
// plants drying at once if those may vary.
func (a *arranging) search(all []*search, until int, vary bool) {
	work := max(0, until-a.done)
	for m := range meetings {
		var walking sync.WaitGroup
		for _, s := range all {
			walking.Go(func() { s.improve(m, work/meetings/len(all)) })
		}
		walking.Wait()
		for _, s := range all {
			if s.bestScore.compare(a.best.bestScore) < 0 {
				a.best = s
			}
		}
		best := a.best
		for w, s := range all {
			p := best.p
			if vary {
				p = p.near(p.atOnce * nearby[w] / 100)
			}
			if s.p != p {
				a.done += s.d.work
				all[w] = newSearch(p, w, a.over)
			}
			if p == best.p {
				all[w].offer(best.best, best.bestScore)
			} else {
				all[w].enter(best.best)
			}
		}
	}
	for _, s := range all {
		a.done += s.d.work
		s.d.work = 0
	}
}

// nearby is by how much the walkers vary the number of plants drying at once,
// in hundredths.
var nearby = [walkers]int{0, 5, -5, 0}

// tighten shortens the drying times to what the best plan allows: those of the
// number of plants that do dry at once in it.
func (a *arranging) tighten() {
	s := a.best
	s.enter(s.best)
	p := s.p.near(int(s.d.crowd.peak) - s.p.atOnce)
	if p == s.p {
		return
	}
	t := newSearch(p, 0, a.over)
	if t.enter(s.best); t.bestScore.compare(s.bestScore) <= 0 {
		a.best = t
	}
}
