package soak

import (
	"context"
	"fmt"
)

// Arrange plans a session: most thirst served, then the hands free earliest,
// then fewest fills, and shelf-mates together where that costs nothing. It
// works until the effort is spent, Stop says so or the context ends, and
// returns the best plan so far. The error is one of [Session.Check], or the
// context's when that had ended before there was any plan.
func Arrange(ctx context.Context, s *Session, e Effort) (*Plan, error) {
	if err := s.Check(); err != nil {
		return nil, err
	}
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("plan the session: %w", err)
	}
	if e.Work == 0 {
		e.Work = DefaultWork
	}
	p := prepare(s)
	a := &attempt{p: p, ctx: ctx, effort: e}
	if !a.at(p.guess(a)) {
		a.at(p.all())
	}
	a.tighten()
	return a.plan(), nil
}

// attempt is the planning of a session with drying times for some number of
// plants drying at once.
type attempt struct {
	p      *problem
	ctx    context.Context
	effort Effort
	d      day
	search *search
	able   []int // items that could be served alone
}

// open sets the drying times and builds the first drafts.
func (a *attempt) open(atOnce int) {
	a.p.allow(atOnce)
	a.able = a.p.able()
	a.d.p = a.p
	a.search = newSearch(a.ctx, &a.d, a.able, a.effort)
	a.search.start()
}

// at plans with drying times for so many plants at once; false if more dry at
// once in even the first draft.
func (a *attempt) at(atOnce int) bool {
	a.open(atOnce)
	if a.peak() > atOnce {
		return false
	}
	s := a.search
	s.fillUp()
	s.improve(a.effort.Work*8/10, a.p.ideal(a.able))
	s.fillUp()
	s.gatherShelves(a.effort.Work / 10)
	return true
}

// mostGuesses is how many numbers of plants drying at once are tried out.
const mostGuesses = 4

// guess is a number of plants to allow to dry at once. More plants make longer
// drying times, and those more plants: it comes down from all of them to what
// first drafts make of it, and leaves a tenth for better ones.
func (p *problem) guess(a *attempt) int {
	holds := p.all()
	if p.s.Room == nil {
		return holds
	}
	for try, next := 0, holds; try < mostGuesses; try++ {
		a.open(next)
		if peak := a.peak(); peak <= next {
			holds, next = next, peak
		} else {
			next = (next + holds) / 2
		}
		if next >= holds {
			break
		}
	}
	return min(p.all(), holds+holds/10+1)
}

// tighten shortens the drying times to what the plan made with longer ones
// allows.
func (a *attempt) tighten() {
	for a.p.s.Room != nil {
		before := a.p.atOnce
		peak := a.peak()
		if peak >= before {
			return
		}
		a.p.allow(peak)
		if trial := a.peak(); trial > peak || a.d.score().compare(a.search.bestScore) > 0 {
			a.p.allow(before)
			a.peak()
			return
		}
	}
}

// peak puts the best draft into the day, keeping its loads, and counts how many
// plants of it dry at once.
func (a *attempt) peak() int {
	a.d.keep = true
	f := a.search.best.copyTo(nil)
	a.d.run(f)
	a.d.keep = false
	return a.d.dryingAtOnce()
}

// plan writes the plan down.
func (a *attempt) plan() *Plan {
	a.peak()
	d, p := &a.d, a.p
	a.able = p.able()
	plan := &Plan{Late: p.late, HandsFree: d.free, Fills: d.fills, AtOnce: p.atOnce, Work: d.work}
	plan.Loads = d.settle()
	plan.AllDry = p.start
	served := make([]bool, p.n)
	var items []int
	for _, l := range plan.Loads {
		for _, t := range l.Plants {
			plan.AllDry = max(plan.AllDry, t.Dry)
			if t.Index >= 0 {
				served[t.Index] = true
				items = append(items, t.Index)
			}
		}
	}
	for i, yes := range served {
		if yes {
			plan.Thirst += p.items[i].Thirst
		}
	}
	b := p.bounder()
	plan.Bound = Bound{Thirst: max(plan.Thirst, b.thirst(a.able)), HandsFree: b.handsFree(items)}
	plan.Left = p.leftOut(d, served, a.able)
	return plan
}

// ideal is a score that no plan of the items can beat.
func (p *problem) ideal(able []int) score {
	sc := score{lost: p.total, free: p.bounder().handsFree(able)}
	kinds := map[kind]bool{}
	for _, i := range able {
		sc.lost -= p.weight[i]
		kinds[p.kind(i)] = true
	}
	sc.loads = len(kinds)
	for _, fed := range []bool{false, true} {
		sc.fills += p.leastFills(able, fed)
	}
	return sc
}

// leastFills is 1 if there are items for a kind of water that stands in no
// vessel yet.
func (p *problem) leastFills(items []int, fed bool) int {
	for v := range p.s.Vessels {
		if p.s.Vessels[v].Fed == fed && p.morning.tubs[v].water {
			return 0
		}
	}
	for _, i := range items {
		if p.items[i].Fed == fed {
			return 1
		}
	}
	return 0
}
