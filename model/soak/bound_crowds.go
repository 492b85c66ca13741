package soak

import (
	"cmp"
	"math"
	"slices"
)

// How fine the relaxation is, and how long prices are looked for. Our own: with
// more of any, bounds of sessions of some hundred plants get hardly better.
const (
	instants     = 8       // that the time is cut at
	evalsAtOnce  = 8       // evaluations between two looks at which crowds are worth it
	thirstParts  = 6       // ranges of crowds to begin with
	narrow       = 100     // a range below this fraction of all crowds is not split
	slowly       = 0.99    // a range whose bound falls by less is split
	thirstShares = 100_000 // plants priced for a bound on thirst, all evaluations together
	soonShares   = 12_000  // the same for one question whether plants can be done by a time
	fewestEvals  = 8
	mostEvals    = 200
	soonParts    = 4 // ranges of crowds that such a question is first asked of
)

// evals is how many evaluations so many shares buy.
func evals(shares, items int) int { return min(max(shares/max(items, 1), fewestEvals), mostEvals) }

// grid cuts the time until an end: evenly from the first plant in, and once
// more at the end of all hours.
func (b bounder) grid(until int) []int {
	last := b.p.s.Hours[len(b.p.s.Hours)-1].To
	var at []int
	until = min(until, last)
	for k := 1; k <= instants; k++ {
		at = append(at, b.first+(until-b.first)*k/instants)
	}
	for _, h := range b.p.s.Hours {
		if h.OutOnly && h.To > until {
			at = append(at, h.To)
		}
	}
	if at[len(at)-1] < last {
		at = append(at, last)
	}
	slices.Sort(at)
	return slices.Compact(at)
}

// branch is a range of crowds and the best bound known for it.
type branch struct {
	crowd
	s     *shares
	z     *prices // nil: not looked at yet
	bound float64
}

// branch is a range with the bound that it serves all that it can at all.
func (b bounder) branch(items []int, c crowd, at []int, known float64) *branch {
	x := &branch{crowd: c, s: b.shares(items, c, math.MaxInt, at)}
	for k := range x.s.items {
		x.bound += x.s.items[k].worth
	}
	x.bound = min(x.bound, known)
	return x
}

// mostThirst is the most thirst that any crowd allows: the ranges with the
// highest bound are looked at more closely, and split, as in branch and bound.
func (b bounder) mostThirst(items []int) float64 {
	at := b.grid(math.MaxInt)
	var open []*branch
	for _, c := range b.crowds(b.p.all(), thirstParts) {
		open = append(open, b.branch(items, c, at, math.Inf(1)))
	}
	last := make([]float64, len(open[0].s.supply)) // prices that were good for another range
	for left := evals(thirstShares, len(items)); left > 0; {
		x := slices.MaxFunc(open, func(x, y *branch) int { return cmp.Compare(x.bound, y.bound) })
		if x.z == nil {
			x.z = startAt(last)
		}
		before, known := x.z.evals, x.bound
		x.bound = min(known, x.z.lower(x.s, evalsAtOnce, 0))
		left -= max(1, x.z.evals-before)
		copy(last, x.z.least)
		if x.bound > known*slowly && x.to < math.MaxInt && x.to-x.from >= b.p.all()/narrow {
			mid := (x.from + x.to) / 2
			open = append(open, b.branch(items, crowd{mid + 1, x.to}, at, x.bound))
			*x = *b.branch(items, crowd{x.from, mid}, at, x.bound)
		}
	}
	most := 0.0
	for _, x := range open {
		most = max(most, x.bound)
	}
	return most
}

// fitting asks whether items can be done by a time.
type fitting struct {
	b      bounder
	items  []int
	crowds []crowd
	z      *prices
}

func (b bounder) fitting(items []int) *fitting {
	f := &fitting{b: b, items: items}
	end := b.lastHour()
	for _, c := range b.crowds(b.p.all(), soonParts) {
		if !f.cannot(c, end) {
			f.crowds = append(f.crowds, c)
		}
	}
	if n := len(f.crowds); n > 0 {
		f.crowds = []crowd{{f.crowds[0].from, f.crowds[n-1].to}}
	}
	return f
}

func (f *fitting) tooSoon(t int) bool {
	for _, c := range f.crowds {
		if !f.cannot(c, t) {
			return false
		}
	}
	return len(f.crowds) > 0
}

// cannot reports whether even in shares not all items can be served by then in
// a crowd.
func (f *fitting) cannot(c crowd, until int) bool {
	s := f.b.shares(f.items, c, until, f.b.grid(until))
	if len(s.items) < len(f.items) {
		return true
	}
	all := 0.0
	for k := range s.items {
		s.items[k].worth = s.items[k].in + s.items[k].out
		all += s.items[k].worth
	}
	if f.z == nil || len(f.z.now) != len(s.supply) {
		f.z = startAt(make([]float64, len(s.supply)))
	}
	f.z.restart()
	enough := all * (1 - 1e-6)
	return f.z.lower(s, evals(soonShares, len(f.items)), enough) < enough
}
