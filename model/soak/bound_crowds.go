package soak

import (
	"cmp"
	"math"
	"slices"
	"sort"
)

// How fine the relaxation is, and how long prices are looked for. Our own: with
// more of any, bounds of sessions of some hundred plants get hardly better.
const (
	instants     = 10     // that the time is cut at, beside the end
	thirstEven   = 6      // of them, evenly apart
	soonEven     = 4      // the same for a question whether plants can be done by a time
	evalsAtOnce  = 8      // evaluations between two looks at which crowds are worth it
	thirstParts  = 6      // ranges of crowds to begin with
	soonParts    = 8      // ranges that a question is first asked of
	narrow       = 100    // a range below this fraction of all crowds is not split
	slowly       = 0.99   // a range whose bound falls by less is split
	thirstShares = 60_000 // plants priced for a bound on thirst, all evaluations together
	soonShares   = 12_000 // the same for one question
	fewestEvals  = 8
	mostEvals    = 200
)

// evals is how many evaluations so many shares buy.
func evals(shares, items int) int { return min(max(shares/max(items, 1), fewestEvals), mostEvals) }

// grid is the instants at which a crowd's relaxation is looked at: some evenly
// from the first plant in until an end, the others where the plants' latest
// hours to come out are, and the end of all hours.
func (b bounder) grid(items []int, c crowd, until, even int) []int {
	last := b.p.s.Hours[len(b.p.s.Hours)-1].To
	until = min(until, last)
	at := []int{until, last}
	for k := 1; k < even; k++ {
		at = append(at, b.first+(until-b.first)*k/even)
	}
	due := b.latestHours(items, c, until)
	for k := 0; k < instants-even && len(due) > 0; k++ {
		at = append(at, due[len(due)*k/(instants-even)])
	}
	slices.Sort(at)
	at = slices.Compact(at)
	for len(at) <= instants { // rows of one length, so that prices of one crowd do for another
		at = append(at, last)
	}
	return at
}

// latestHours is when the items can come out at the latest on the fastest
// bench, where that is before an end, in order.
func (b bounder) latestHours(items []int, c crowd, until int) []int {
	s := shares{b: b, until: until}
	fastest, factor := b.p.slowest[len(b.p.slowest)-1], b.factor(c)
	var due []int
	for _, i := range items {
		if end := s.latest(i, b.dries(i, fastest, factor), math.MaxInt); end > b.first && end < until {
			due = append(due, end)
		}
	}
	slices.Sort(due)
	return due
}

// branch is a range of crowds and the best bound known for it.
type branch struct {
	crowd
	s     *shares
	z     *prices // nil: not looked at yet
	bound float64
}

// branch is a range with the bound that it serves all that it can at all.
func (b bounder) branch(items []int, c crowd, known float64) *branch {
	x := &branch{crowd: c, s: b.shares(items, c, math.MaxInt, b.grid(items, c, math.MaxInt, thirstEven))}
	for k := range x.s.items {
		x.bound += x.s.items[k].worth
	}
	x.bound = min(x.bound, known)
	return x
}

// lessThan leaves the numbers up to one: the drying times stay.
func (x *branch) lessThan(most int) {
	x.to, x.s.crowd.to = most, most
	x.s.supplies()
	x.z.restart()
}

// mostThirst is the most thirst that any crowd allows: the ranges with the
// highest bound are looked at more closely, and split, as in branch and bound.
func (b bounder) mostThirst(items []int) float64 {
	var open []*branch
	for _, c := range b.crowds(b.p.all(), thirstParts) {
		open = append(open, b.branch(items, c, math.Inf(1)))
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
			open = append(open, b.branch(items, crowd{mid + 1, x.to}, x.bound))
			x.lessThan(mid)
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

// fitting sorts out the crowds in which the items can be done at all.
func (b bounder) fitting(items []int) *fitting {
	f := &fitting{b: b, items: items}
	end := b.lastHour()
	for _, c := range b.crowds(b.largestCrowd(items), soonParts) {
		if !f.cannot(c, end) {
			f.crowds = append(f.crowds, c)
		}
	}
	return f
}

// largestCrowd is the largest number of plants drying at once at which each of
// the items alone could be dry in time.
func (b bounder) largestCrowd(items []int) int {
	if b.p.s.Room == nil {
		return 0
	}
	s := shares{b: b, until: b.lastHour()}
	fastest := b.p.slowest[len(b.p.slowest)-1]
	return sort.Search(b.p.all(), func(n int) bool {
		factor := b.p.s.Room(n + 1)
		return slices.ContainsFunc(items, func(i int) bool {
			soonest, ok := b.soonest(i)
			return !ok || s.latest(i, b.dries(i, fastest, factor), math.MaxInt) < soonest
		})
	})
}

// tooSoon reports whether the items cannot be done by then in any crowd. The
// crowd that could last time is asked first.
func (f *fitting) tooSoon(t int) bool {
	for k, c := range f.crowds {
		if !f.cannot(c, t) {
			f.crowds[0], f.crowds[k] = c, f.crowds[0]
			return false
		}
	}
	return len(f.crowds) > 0
}

// cannot reports whether even in shares not all items can be served by then in
// a crowd.
func (f *fitting) cannot(c crowd, until int) bool {
	s := f.b.shares(f.items, c, until, f.b.grid(f.items, c, until, soonEven))
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
