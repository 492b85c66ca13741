package soak

import (
	"cmp"
	"math"
	"slices"
)

// bound is what no plan of the day can beat. The thirst is the day's, whatever plan
// asks. The hands' end is for the plants that a plan serves: all their work, and the
// longest soaks between the first work and the last.
func (p *problem) bound(d *schedule) Bound {
	var served []int
	for l := range d.loads {
		served = append(served, d.loads[l].items[d.loads[l].lying:]...)
	}
	return Bound{Thirst: p.mostThirst(), HandsFree: p.earliest(d, served)}
}

// mostThirst is the most of what can be served, if all rules but one are forgotten:
// how many dry at once, the hands' time before each plant must be out to be dry, the
// room on the benches until the dry-by hour, or the room in the vessels. Plants may then
// be served in part, which the greedy choice by worth solves exactly. The more dry at
// once the slower each is, so that the most is looked for among all numbers at once.
func (p *problem) mostThirst() float64 {
	with := make([]bool, len(p.items)) // goes in with what lies in the water
	sum := 0.0
	for g := range p.given {
		more := p.given[g].items[p.given[g].lying:]
		sum += p.thirst(more)
		for _, i := range more {
			with[i] = true
		}
	}
	var items []int
	for i := range p.n {
		if !with[i] {
			items = append(items, i)
		}
	}
	lie := 0 // dry there already, and are of those at once
	for _, t := range p.Drying {
		if t.Until > p.start {
			lie++
		}
	}
	laid := make([]int, len(p.items))
	for _, i := range items {
		laid[i] = p.laidFirst(i)
	}
	most := 0.0
	for few := max(1, lie); few <= p.rows(); {
		many := few + few/crowdParts
		if p.Room == nil {
			many = p.rows()
		}
		most = max(most, p.mostWith(items, laid, few, many, most))
		few = many + 1
	}
	return (sum + most) * (1 + slack)
}

// crowdParts is how finely numbers of plants drying at once are told apart: fewer make
// the bound weaker, never wrong.
const crowdParts = 4

// mostWith is the bound if no fewer than few plants dry at once, and no more than many;
// no more matters once it is below one that is known.
func (p *problem) mostWith(items, laid []int, few, many int, known float64) float64 {
	factor := 1.0
	if p.Room != nil {
		factor = p.Room(few)
	}
	first := never
	items = slices.DeleteFunc(slices.Clone(items), func(i int) bool {
		first = min(first, laid[i])
		return laid[i]+p.driesFirst(i, factor) > p.lastDay()
	})
	most := p.thirst(items)
	for _, by := range []func() float64{
		func() float64 { return p.byCrowd(items, factor, many, first) },
		func() float64 { return p.byHands(items, factor) },
		func() float64 { return p.byBenches(items, factor, first) },
		func() float64 { return p.byVessels(items) },
	} {
		if most <= known {
			break
		}
		most = min(most, by())
	}
	return most
}

// byCrowd is the bound of the room's air, from the time when the first can be laid
// down.
func (p *problem) byCrowd(items []int, factor float64, atOnce, first int) float64 {
	supply := float64(atOnce) * float64(max(0, p.lastDay()-first))
	for _, t := range p.Drying {
		supply -= float64(max(0, min(t.Until, p.lastDay())-first))
	}
	takes := func(i int) float64 { return float64(p.driesFirst(i, factor)) }
	return p.share(items, takes, func(int) int { return 0 }, func(int) float64 { return supply })
}

func (p *problem) thirst(items []int) float64 {
	sum := 0.0
	for _, i := range items {
		sum += p.items[i].Thirst
	}
	return sum
}

// share is the most thirst that can be served if each plant takes some of a
// supply, by some time, and so much is there by each time.
func (p *problem) share(items []int, takes func(i int) float64, by func(i int) int, supply func(t int) float64) float64 {
	order := slices.Clone(items)
	slices.SortStableFunc(order, func(x, y int) int {
		return cmp.Compare(p.items[y].Thirst*(takes(x)+slack), p.items[x].Thirst*(takes(y)+slack))
	})
	var times []int
	for _, i := range items {
		times = append(times, by(i))
	}
	slices.Sort(times)
	times = slices.Compact(times)
	times = everyNth(times, mostTimes)
	left := make([]float64, len(times))
	for k, t := range times {
		left[k] = supply(t)
	}
	sum := 0.0
	for _, i := range order {
		first, _ := slices.BinarySearch(times, by(i))
		if first == len(times) {
			first--
		}
		has := max(0, slices.Min(left[first:]))
		need := takes(i)
		part := 1.0
		if need > has {
			part = has / need
		}
		sum += part * p.items[i].Thirst
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

// lastDay is the latest dry-by hour.
func (p *problem) lastDay() int { return p.Hours[len(p.Hours)-1].DryBy }

func (p *problem) byHands(items []int, factor float64) float64 {
	takes := func(i int) float64 { return float64(p.items[i].Hands.work()) }
	by := func(i int) int { return p.lastDay() - p.driesFirst(i, factor) }
	return p.share(items, takes, by, func(t int) float64 { return float64(p.handsBy(t)) })
}

// driesFirst is the s that an item takes to dry on the best bench that holds it, in a
// room of a factor.
func (p *problem) driesFirst(i int, factor float64) int {
	best := neverDry
	for _, b := range p.benches {
		if p.items[i].BenchRoom <= b.Room+slack {
			best = min(best, p.items[i].dries(b, factor))
		}
	}
	return best
}

// laidFirst is when an item can lie on a bench at the earliest: all its work and its
// least soak after the first vessel for it can stand filled.
func (p *problem) laidFirst(i int) int {
	first := never
	for v := range p.Vessels {
		if p.takes(v, i) {
			first = min(first, p.readyFirst(v))
		}
	}
	h := &p.items[i].Hands
	return max(first, p.start+h.Pull) + max(p.items[i].Least, h.In) + h.Out + h.Lay
}

// handsBy is the hands' time up to a time, of all pairs.
func (p *problem) handsBy(t int) int {
	sum := 0
	for _, pair := range p.pairs {
		for _, s := range pair {
			sum += max(0, min(t, s.To)-s.From)
		}
	}
	return sum
}

func (p *problem) byBenches(items []int, factor float64, first int) float64 {
	supply := 0.0
	for _, b := range p.benches {
		supply += b.Room / b.Factor * float64(max(0, p.lastDay()-first))
	}
	takes := func(i int) float64 { return p.items[i].BenchRoom * float64(p.items[i].DryFor) * factor }
	return p.share(items, takes, func(int) int { return 0 }, func(int) float64 { return supply })
}

func (p *problem) byVessels(items []int) float64 {
	supply, end := 0.0, p.Hours[len(p.Hours)-1].To
	for _, v := range p.Vessels {
		supply += v.Room * float64(end-p.start)
	}
	takes := func(i int) float64 { return p.items[i].Bulk * float64(p.items[i].Least) }
	return p.share(items, takes, func(int) int { return 0 }, func(int) float64 { return supply })
}

// earliest is a time before which the hands are not free if they serve some
// plants.
func (p *problem) earliest(d *schedule, items []int) int {
	out := slices.DeleteFunc(slices.Clone(items), func(i int) bool { return !p.today(i) })
	slices.SortFunc(out, func(x, y int) int { return cmp.Compare(p.items[y].Least, p.items[x].Least) })
	work, best := 0, p.start
	for _, i := range items {
		h := &p.items[i].Hands
		work += h.Pull + h.In
		if p.today(i) {
			work += h.Out + h.Lay
		}
	}
	for l := range p.given {
		for _, i := range p.given[l].items[:p.given[l].lying] {
			if p.Hours[len(p.Hours)-1].OutOnly {
				break
			}
			work += p.items[i].Hands.Out + p.items[i].Hands.Lay
		}
	}
	best = max(best, p.finish(p.start, work))
	pull, first := math.MaxInt, p.firstReady()
	outs := 0
	for _, i := range out {
		h := &p.items[i].Hands
		pull, outs = min(pull, h.Pull), outs+h.Out+h.Lay
		best = max(best, p.finish(max(p.start+pull, first)+p.items[i].Least, outs))
	}
	return min(best, p.Hours[len(p.Hours)-1].To)
}

// firstReady is when a vessel can stand filled at the earliest.
func (p *problem) firstReady() int {
	first := never
	for v := range p.Vessels {
		first = min(first, p.readyFirst(v))
	}
	return first
}

// readyFirst is when a vessel can stand filled at the earliest.
func (p *problem) readyFirst(v int) int {
	if p.Vessels[v].Water != nil || slices.ContainsFunc(p.Session.Given, func(g Given) bool { return g.Vessel == v }) {
		return p.start
	}
	return p.start + p.Vessels[v].Fill
}

// finish is when work of so many seconds, begun at a time, is done if no pair of
// hands ever waits, in the hours that start new loads; the end of them if they do
// not suffice.
func (p *problem) finish(from, work int) int {
	if work <= 0 {
		return from
	}
	begun := p.handsBy(from)
	low, high := from, p.start
	for _, h := range p.Hours {
		if !h.OutOnly {
			high = max(high, h.To)
		}
	}
	for low < high {
		mid := low + (high-low)/2
		if p.handsBy(mid)-begun >= work {
			high = mid
		} else {
			low = mid + 1
		}
	}
	return high
}

// today reports whether a plant has to come out before the hours that only take
// out.
func (p *problem) today(i int) bool {
	last := p.start
	for _, h := range p.Hours {
		if h.OutOnly {
			return last-p.items[i].Hands.In+p.items[i].Most < h.From
		}
		last = h.To
	}
	return true
}
