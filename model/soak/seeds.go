package soak

import (
	"cmp"
	"slices"
)

// seed is a first draft.
type seed struct {
	draft draft
	score score
}

// guess is a problem with drying times for some number of plants drying at
// once, and first drafts for it, best first.
type guess struct {
	p      *problem
	drafts []seed
}

// The numbers of plants drying at once that are tried: each this share of the
// one before, until so many in a row are no better, if any plant is served at
// all, or the work for it is done.
// More plants at once dry more slowly; fewer wait for each other. Our own.
const (
	crowdShare = 85 // in a hundred
	worseRow   = 4
)

// seeds makes first drafts for several numbers of plants drying at once, and
// both orders of benches, the guess with the best draft first.
func (p *problem) seeds(a *arranging) []guess {
	var all []guess
	var best score
	for n, worse := max(1, p.all()), 0; n > 0 && worse < worseRow; n = n * crowdShare / 100 {
		q := p.with(n)
		if len(all) > 0 && q.morning.crowd.peak > float64(n) {
			break // those that dry already are more
		}
		some := []guess{a.drafts(q)}
		if len(p.benches) > 1 && !a.over() {
			some = append(some, a.drafts(q.fansFirst()))
		}
		if len(all) > 0 && best.lost < p.total-q.morning.served {
			worse++
		}
		for _, g := range some {
			if first := g.drafts[0].score; len(all) == 0 || first.compare(best) < 0 {
				best, worse = first, 0
			}
			all = append(all, g)
		}
		if p.s.Room == nil || a.done >= a.tenths(seedTenths) || a.over() {
			break
		}
	}
	slices.SortStableFunc(all, func(x, y guess) int { return x.drafts[0].score.compare(y.drafts[0].score) })
	return all
}

// drafts makes first drafts of a problem by every rule, or those it comes to.
func (a *arranging) drafts(p *problem) guess {
	g, d := guess{p: p}, day{p: p}
	for _, r := range rules() {
		if len(g.drafts) > 0 && a.over() {
			break
		}
		g.drafts = append(g.drafts, seed{d.build(r, p.wanted), d.score()})
	}
	a.done += d.work
	slices.SortStableFunc(g.drafts, func(x, y seed) int { return x.score.compare(y.score) })
	return g
}

// rule is an order in which plants are taken up when a draft is built.
type rule struct {
	first func(p *problem, a, b int) int
	share float64 // of the vessel's room that a load may take
	able  bool    // take up only the thirstiest that the hands have time for
	mixed bool    // take up what is first, not the cleanest company first
}

// The orders. Longest soak first is the usual rule for batches (Lee, Uzsoy &
// Martin-Vega 1992, Operations Research 40:764-775; with sizes, Uzsoy 1994,
// International Journal of Production Research 32:1615-1635); the others are
// for days in which drying or the hands are short.
func rules() []rule {
	var all []rule
	for _, first := range []func(*problem, int, int) int{byLength, byDrying, byWorth, byShortness} {
		for _, share := range []float64{1, 0.5} {
			all = append(all, rule{first: first, share: share, able: true}, rule{first: first, share: share, mixed: true})
		}
	}
	return all
}

func byLength(p *problem, a, b int) int {
	x, y := &p.items[a], &p.items[b]
	return cmp.Or(y.From-x.From, x.To-y.To, y.DryFor-x.DryFor)
}

func byShortness(p *problem, a, b int) int { return byLength(p, b, a) }

func byDrying(p *problem, a, b int) int {
	x, y := &p.items[a], &p.items[b]
	return cmp.Or(y.From+y.DryFor-x.From-x.DryFor, x.To-y.To)
}

func byWorth(p *problem, a, b int) int { return cmp.Compare(p.worth(b), p.worth(a)) }
