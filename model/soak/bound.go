package soak

import (
	"math"
	"slices"
)

// bounder knows what no plan of a session can beat. A plan is free to choose
// how many plants may dry at once, so each bound holds for every such number.
// Given loads come out as [day.placeGiven] has it, before anything else is
// placed: that is a rule of the planner, and a fact as long as it does not hang
// on that number; see [problem.settled].
type bounder struct {
	p     *problem
	given bool  // the morning is the same for every number of plants drying
	opens []int // when each vessel can first take a new load
	first int   // no new plant can go in before
}

func (p *problem) bounder() bounder {
	b := bounder{p: p, given: p.settled(), opens: make([]int, len(p.s.Vessels)), first: math.MaxInt}
	for v := range p.s.Vessels {
		b.opens[v] = p.opens(v)
		if !b.given {
			b.opens[v] = p.opensAlone(v)
		}
		b.first = min(b.first, b.opens[v])
	}
	return b
}

// handsFree is a time before which the hands cannot be done with the given
// items: that of the plainest reasons, or later if shares of plants cannot be
// served by then either.
func (b bounder) handsFree(items []int) int {
	going := b.p.goingIn()
	items = slices.DeleteFunc(slices.Clone(items), func(i int) bool { return going[i] })
	best := b.plain(items)
	if len(items) == 0 || math.MaxInt == b.first {
		return best
	}
	return b.pushOff(items, best)
}

// Steps of the search for the latest time that shares of plants cannot keep.
// The steps start at a fraction of the bound's length and double, then halve
// down to a fraction of it.
const (
	firstPush = 16
	lastPush  = 128
)

// pushOff is the latest time found, from one on, by which the items cannot be
// done: destructive improvement of a bound (Klein & Scholl 1999, European
// Journal of Operational Research 112:322-346).
func (b bounder) pushOff(items []int, from int) int {
	end := b.lastHour()
	if from >= end {
		return from
	}
	f := b.fitting(items)
	step, least := max(1, (from-b.p.start)/firstPush), max(1, (from-b.p.start)/lastPush)
	for growing := true; step >= least; {
		next := min(from+step, end)
		if next > from && f.tooSoon(next) {
			from = next
			if growing {
				step *= 2
			} else {
				step /= 2
			}
			continue
		}
		growing = false
		step /= 2
	}
	return from
}

// lastHour is the end of the hours that start new loads.
func (b bounder) lastHour() int {
	end := b.p.start
	for _, h := range b.p.s.Hours {
		if !h.OutOnly {
			end = h.To
		}
	}
	return end
}

// thirst is the most that any plan can serve, of all the session's items: those
// that cannot be served alone with the drying times of one number of plants may
// be with those of another.
func (b bounder) thirst() float64 {
	most, items := 0.0, make([]int, 0, b.p.n)
	going := b.p.goingIn()
	for i := range b.p.n {
		if going[i] {
			most += b.p.items[i].Thirst
			continue
		}
		items = append(items, i)
	}
	if math.MaxInt == b.first {
		return most
	}
	return most + b.mostThirst(items)
}

// goingIn is the items that may go in with a given load: taken to be served, and
// left out of everything else.
func (p *problem) goingIn() []bool {
	going := make([]bool, p.n)
	for _, more := range p.more {
		for _, i := range more {
			going[i] = true
		}
	}
	return going
}

// crowd is a range of numbers of plants allowed to dry at once: drying times
// are at least those of the lower end, and no more than the upper end dry.
type crowd struct{ from, to int }

// crowds splits the numbers of plants drying at once into ranges.
func (b bounder) crowds(most, pieces int) []crowd {
	if b.p.s.Room == nil {
		return []crowd{{0, math.MaxInt}}
	}
	var all []crowd
	for k, from := 0, 0; k < pieces && from <= most; k++ {
		to := max(from, most*(k+1)/pieces)
		all = append(all, crowd{from, to})
		from = to + 1
	}
	return all
}

// factor is the least by which the room stretches drying times in a crowd.
func (b bounder) factor(c crowd) float64 {
	if b.p.s.Room == nil {
		return 1
	}
	return b.p.s.Room(c.from)
}

// settled reports whether the given loads come out at the same times however
// many plants dry at once. They do if no bench can fill up with them, so that
// they never wait for one, and there is one dry-by hour only, so that waiting
// for a later one is of no use. What still goes in with them may hang on it.
func (p *problem) settled() bool {
	for _, more := range p.more {
		if len(more) > 0 {
			return false
		}
	}
	if len(p.s.Given) == 0 || p.s.Room == nil {
		return true
	}
	need := 0.0
	for i := range p.items[p.n:] {
		need += p.items[p.n+i].BenchRoom
	}
	for b, bench := range p.benches {
		taken := need
		for _, d := range p.s.Drying {
			if d.Bench == b {
				taken += d.Room
			}
		}
		if taken > bench.Room {
			return false
		}
	}
	due := p.s.Hours[0].DryBy
	return !slices.ContainsFunc(p.s.Hours, func(h Hours) bool { return h.DryBy != due })
}

// stands reports whether the water that stands in a vessel when its given load
// is out may serve another load.
func (p *problem) stands(v int) bool {
	t, x := &p.morning.tubs[v], &p.s.Vessels[v]
	if !t.water || t.loads == 0 {
		return t.water
	}
	age := t.ready - t.since
	return (x.Loads == 0 || t.loads < x.Loads) && (x.Age == 0 || age < x.Age) && (x.LastIn == 0 || age <= x.LastIn)
}

// opens is when a vessel can first take a new load.
func (p *problem) opens(v int) int {
	if p.stands(v) {
		return p.morning.tubs[v].ready
	}
	return p.morning.tubs[v].ready + p.s.Vessels[v].Refill
}

// opensAlone is the same if the hands saw to that vessel's given load alone,
// and its water were young.
func (p *problem) opensAlone(v int) int {
	ready := p.start
	for _, g := range p.s.Given {
		if g.Vessel == v {
			for k := range g.Items {
				ready = max(ready, g.In[k]+g.Items[k].From) + g.Items[k].HandsOut
			}
		}
	}
	if p.morning.tubs[v].water {
		return ready
	}
	return ready + p.s.Vessels[v].Refill
}
