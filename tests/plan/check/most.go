package check

import (
	"cmp"
	"math"
	"slices"

	"tubside/model/soak"
)

// MostThirst is a thirst that no plan of a session can serve more than: the most that can be
// served if all rules but one are forgotten: how many dry at once, the hands' time before
// each plant must be out to be dry, the room on the benches until the dry-by hour, or the
// room in the vessels. Plants may then be served in part, which the greedy choice by worth
// solves exactly. The more dry at once the slower each is, so that the most is looked for
// among all numbers at once.
func MostThirst(s *soak.Session) float64 { return Heeds{}.MostThirst(s) }

// Heeds is what a bound heeds besides: with each of them it is no higher. What lies in the
// water is heeded for plans that have none of it late.
type Heeds struct {
	Finely  bool // numbers of plants drying at once are told apart by a sixteenth, not by a fourth
	Overdue bool // nothing goes in before what is overdue is out
	Lying   bool // the hands take out in its time what lies in the water
	Rinses  bool // they let the water out
}

// MostThirst is the bound that heeds so much.
func (h Heeds) MostThirst(s *soak.Session) float64 {
	d := &dayBound{s, s.Benches, 0, h}
	if len(d.benches) == 0 {
		d.benches = []soak.Bench{{Room: math.Inf(1), Factor: 1}}
	}
	for _, h := range s.Hours {
		d.dryBy = h.DryBy
	}
	with := map[int]bool{} // may go in with what lies in the water, and is taken to be served
	all, sum := len(s.Items)+len(s.Drying), 0.0
	for _, g := range s.Given {
		all += len(g.Items)
		for _, i := range g.More {
			if !with[i] {
				sum += s.Items[i].Thirst
			}
			with[i] = true
		}
	}
	var items []wanted
	for i := range s.Items {
		if it := &s.Items[i]; !with[i] {
			items = append(items, wanted{it, d.laidFirst(it)})
		}
	}
	lie := 0 // dry there already, and are of those at once
	for _, t := range s.Drying {
		if t.Until > s.Hours[0].From {
			lie++
		}
	}
	best := 0.0
	for few := max(1, lie); few <= max(1, all); {
		many := few + few/crowdParts
		if h.Finely {
			many = few + few/fineParts
		}
		if s.Room == nil {
			many = max(1, all)
		}
		best = max(best, d.with(items, few, many, best))
		few = many + 1
	}
	return (sum + best) * (1 + eps)
}

// crowdParts is how finely numbers of plants drying at once are told apart: fewer make
// the bound weaker, never wrong.
const (
	crowdParts = 4
	fineParts  = 16
)

// dayBound is a session whose most is looked for.
type dayBound struct {
	s       *soak.Session
	benches []soak.Bench
	dryBy   int // the latest
	heeds   Heeds
}

// wanted is an item, and when it can lie on a bench at the earliest.
type wanted struct {
	*soak.Item
	laid int
}

// laidFirst is when an item can lie on a bench at the earliest: all its work and its
// least soak after the first vessel for it can stand filled.
func (d *dayBound) laidFirst(it *soak.Item) int {
	first, start := math.MaxInt/2, d.s.Hours[0].From
	for v := range d.s.Vessels {
		vessel := &d.s.Vessels[v]
		switch {
		case vessel.Fed != it.Fed, it.Bulk > vessel.Room+eps:
		case vessel.Water != nil, slices.ContainsFunc(d.s.Given, func(g soak.Given) bool { return g.Vessel == v }):
			first = min(first, start)
		default:
			first = min(first, start+vessel.Fill)
		}
	}
	if d.heeds.Overdue {
		first = max(first, d.overdueBy(start))
	}
	h := &it.Hands
	return max(first, start+h.Pull) + max(it.Least, h.In) + h.Out + h.Lay
}

// with is the bound if no fewer than few plants dry at once, and no more than many; no more
// matters once it is below one that is known.
func (d *dayBound) with(items []wanted, few, many int, known float64) float64 {
	factor := 1.0
	if d.s.Room != nil {
		factor = d.s.Room(few)
	}
	dries := map[*soak.Item]float64{} // s, on the best bench that holds it
	first := math.MaxInt
	items = slices.DeleteFunc(slices.Clone(items), func(w wanted) bool {
		first = min(first, w.laid)
		dries[w.Item] = math.Inf(1)
		for _, b := range d.benches {
			if takes := math.Max(0, math.Ceil(float64(w.DryFor)*b.Factor*factor-1e-9)); w.BenchRoom <= b.Room+eps && takes < dries[w.Item] {
				dries[w.Item] = takes // and where the room makes nonsense of it, never
			}
		}
		return float64(w.laid)+dries[w.Item] > float64(d.dryBy)
	})
	sum := 0.0
	for _, w := range items {
		sum += w.Thirst
	}
	anyTime := func(wanted) int { return 0 }
	room, litres, air := 0.0, 0.0, float64(many)*math.Max(0, float64(d.dryBy-first))
	for _, t := range d.s.Drying {
		air -= math.Max(0, float64(min(t.Until, d.dryBy)-first))
	}
	for _, b := range d.benches {
		room += b.Room / b.Factor * math.Max(0, float64(d.dryBy-first))
	}
	for _, v := range d.s.Vessels {
		litres += v.Room * float64(d.s.Hours[len(d.s.Hours)-1].To-d.s.Hours[0].From)
	}
	for _, by := range []func() float64{
		func() float64 {
			return share(items, func(w wanted) float64 { return dries[w.Item] }, anyTime, func(int) float64 { return air })
		},
		func() float64 {
			return share(items, work, func(w wanted) int { return d.dryBy - int(dries[w.Item]) }, d.handsBy)
		},
		func() float64 { return d.byRinsing(items) },
		func() float64 {
			takes := func(w wanted) float64 { return w.BenchRoom * float64(w.DryFor) * factor }
			return share(items, takes, anyTime, func(int) float64 { return room })
		},
		func() float64 {
			takes := func(w wanted) float64 { return w.Bulk * float64(w.Least) }
			return share(items, takes, anyTime, func(int) float64 { return litres })
		},
	} {
		if sum <= known {
			break
		}
		sum = min(sum, by())
	}
	return sum
}

// work is the hands' seconds for an item until it lies on the bench.
func work(w wanted) float64 { return float64(w.Hands.Pull + w.Hands.In + w.Hands.Out + w.Hands.Lay) }

// byRinsing is the bound of the hands' time in all: a fill serves so many loads at most, none
// larger than its vessel. So each litre that soaks has its part of the rinsing, and each load
// in the water its own.
func (d *dayBound) byRinsing(items []wanted) float64 {
	if !d.heeds.Rinses {
		return math.Inf(1)
	}
	supply, fills := d.handsBy(math.MaxInt), map[int]bool{}
	for _, g := range d.s.Given {
		if v := &d.s.Vessels[g.Vessel]; d.heeds.Lying && v.Loads > 0 && len(g.Items) > 0 && !fills[g.Vessel] {
			fills[g.Vessel] = true
			supply -= float64(v.Rinse) / float64(v.Loads)
		}
	}
	return share(items, func(w wanted) float64 {
		rinse := math.Inf(1)
		for _, v := range d.s.Vessels {
			if v.Fed == w.Fed && w.Bulk <= v.Room+eps {
				rinse = min(rinse, float64(v.Rinse)*w.Bulk/v.Room/float64(cmp.Or(v.Loads, math.MaxInt32)))
			}
		}
		return work(w) + rinse
	}, func(wanted) int { return 0 }, func(int) float64 { return supply })
}

// handsBy is the hands' time up to a time, of all pairs, without that for what lies in the water.
func (d *dayBound) handsBy(t int) float64 {
	sum := 0
	for _, h := range d.s.Hours {
		sum += max(0, min(t, h.To)-h.From)
	}
	for _, h := range d.s.Help {
		sum += max(0, min(t, h.To)-h.From)
	}
	for _, g := range d.s.Given {
		takes, by := 0, math.MaxInt/2
		for k, it := range g.Items {
			by = min(by, g.In[k]+it.Most-takes) // the first comes out
			takes += it.Hands.Out + it.Hands.Lay
		}
		by += takes
		if g.Due {
			by = cmp.Or(d.overdueBy(0), math.MaxInt)
		}
		if by <= t && (d.heeds.Lying || d.heeds.Overdue && g.Due) {
			sum -= takes
		}
	}
	return float64(sum)
}

// overdueBy is when what is overdue is out; another time if that is not known, since another
// pair of hands takes some of it out, or something is to go in with what lies there.
func (d *dayBound) overdueBy(unknown int) int {
	at := d.s.Hours[0].From
	for _, g := range d.s.Given {
		if len(d.s.Help) > 0 || len(g.More) > 0 {
			return unknown
		}
		for _, it := range g.Items {
			if g.Due {
				at += it.Hands.Out + it.Hands.Lay
			}
		}
	}
	return at
}

// share is the most thirst that can be served if each plant takes some of a supply, by
// some time, and so much is there by each time.
func share(items []wanted, takes func(wanted) float64, by func(wanted) int, supply func(t int) float64) float64 {
	order := slices.Clone(items)
	slices.SortStableFunc(order, func(x, y wanted) int {
		return cmp.Compare(y.Thirst*(takes(x)+eps), x.Thirst*(takes(y)+eps))
	})
	var times []int
	for _, w := range items {
		times = append(times, by(w))
	}
	slices.Sort(times)
	times = everyNth(slices.Compact(times), mostTimes)
	left := make([]float64, len(times))
	for k, t := range times {
		left[k] = supply(t)
	}
	sum := 0.0
	for _, w := range order {
		first, _ := slices.BinarySearch(times, by(w))
		first = min(first, len(times)-1)
		has, need, part := max(0, slices.Min(left[first:])), takes(w), 1.0
		if need > has {
			part = has / need
		}
		sum += part * w.Thirst
		for k := first; k < len(left); k++ {
			left[k] -= part * need
		}
	}
	return sum
}

// mostTimes is how many different times a bound tells apart: fewer make it weaker,
// never wrong.
const mostTimes = 64

// everyNth keeps at most about n of some rising times, the last among them.
func everyNth(times []int, n int) []int {
	step := len(times)/n + 1
	var some []int
	for k := len(times) - 1; k >= 0; k -= step {
		some = append(some, times[k])
	}
	slices.Reverse(some)
	return some
}
