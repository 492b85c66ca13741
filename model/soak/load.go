package soak

import (
	"cmp"
	"math"
	"slices"
)

// load is one load before it has times: which plants, in which order, where.
type load struct {
	vessel int
	items  []int // in order; shared by schedules, never changed
	given  int   // 1 + index in the session's given loads; else 0
	lying  int   // how many of its plants, the first, are in the water already
	kind   kind
	beside bool // may go in beside another load, as a second heap
	begun  bool // is one however few it has
	heap   int  // as it lies or was said before; 0 for not

	bulk      float64
	pull, in  int // s of hands
	out       int
	low, high int // s from the first plant in to the first out, by the windows of those still to go in
	from, to  int // the first plant out, by the windows of those in the water
	dry       int // s from the first plant out to the last dry, each on its best bench
	weight    int64
}

// never is later than any time of a session.
const never = math.MaxInt / 4

// settle puts the plants of a load in order and works out what follows. Windows
// widen along a load, as taking out takes longer than laying in: short ones go
// first, of like ones those that dry slowly, and shelf-mates together.
func (p *problem) settle(l *load) {
	l.items = slices.Clone(l.items)
	slices.SortFunc(l.items[l.lying:], func(x, y int) int { return p.turn[x] - p.turn[y] })
	p.sum(l)
}

// inTurn gives each item its turn in the order in which the plants of a load go in.
func (p *problem) inTurn() {
	order := make([]int, len(p.items))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(x, y int) int {
		a, b := &p.items[x], &p.items[y]
		return cmp.Or(cmp.Compare(a.Least, b.Least), cmp.Compare(a.Most, b.Most), cmp.Compare(b.DryFor, a.DryFor), cmp.Compare(a.Walk, b.Walk), x-y)
	})
	p.turn = make([]int, len(p.items))
	for turn, i := range order {
		p.turn[i] = turn
	}
}

// sum works out what follows from the plants of a load in their order.
func (p *problem) sum(l *load) {
	l.bulk, l.pull, l.in, l.out, l.weight = 0, 0, 0, 0, 0
	l.low, l.high, l.from, l.to, l.dry = 0, never, -never, never, 0
	for k, i := range l.items {
		it := &p.items[i]
		l.bulk += it.Bulk
		if k < l.lying {
			in := p.Session.Given[l.given-1].In[k]
			l.from, l.to = max(l.from, in+it.Least-l.out), min(l.to, in+it.Most-l.out)
		} else {
			l.low, l.high = max(l.low, it.Least+l.in-l.out), min(l.high, it.latest()+l.in-l.out)
			l.in += it.Hands.In
			l.pull += it.Hands.Pull
			l.weight += p.weight[i]
		}
		l.out += it.Hands.Out + it.Hands.Lay
		l.dry = max(l.dry, l.out+p.soonest[i])
	}
	l.to -= min(p.lag, max(0, l.to-l.from))
	l.low = max(l.low, l.in)
}

// lying is a given load, and the items that are still to go in with it. Its first
// plant is the given one at place at of the problem's items.
func (p *problem) lying(g, at int) load {
	given := &p.Session.Given[g]
	l := load{vessel: given.Vessel, given: g + 1, lying: len(given.Items), heap: given.Heap}
	for k := range given.Items {
		l.items = append(l.items, at+k)
		l.kind = p.kind(at)
	}
	p.sum(&l)
	for _, i := range given.More {
		more := l
		more.items = append(slices.Clone(l.items), i)
		if p.sum(&more); p.kind(i) == l.kind && p.takes(l.vessel, i) && more.low <= more.high && p.fits(&more) {
			l = more
		}
	}
	return l
}

// fits reports whether a load by itself has room in its vessel.
func (p *problem) fits(l *load) bool { return l.bulk <= p.Vessels[l.vessel].Room+slack }

// enough reports whether a load is large enough to be one. One that its company
// keeps apart may be small, but not in a larger vessel than it needs.
func (p *problem) enough(l *load) bool {
	switch {
	case l.given > 0 || l.begun:
		return true
	case l.bulk >= p.least[l.vessel]-slack:
		return !l.kind.ordinary() || len(l.items) >= p.fewest
	case l.kind.ordinary():
		return false
	}
	return !slices.ContainsFunc(p.Vessels, func(v Vessel) bool {
		return v.Fed == l.kind.fed && v.Room < p.Vessels[l.vessel].Room && l.bulk <= v.Room+slack
	})
}

// Visit is one piece of the hands' work with a load: they pull it, put it in, or
// take it out.
type Visit struct {
	Do   Do
	Load int // index in [Plan.Loads]
}

// schedule is a plan before it has times: its loads, and the order of the hands'
// work. Plants of no load are left out.
type schedule struct {
	loads []load
	order []Visit
}

func (d *schedule) clone() schedule { return schedule{slices.Clone(d.loads), slices.Clone(d.order)} }

// drop takes a load out of a schedule.
func (d *schedule) drop(l int) {
	d.loads = slices.Delete(d.loads, l, l+1)
	d.order = slices.DeleteFunc(d.order, func(v Visit) bool { return v.Load == l })
	for k := range d.order {
		if d.order[k].Load > l {
			d.order[k].Load--
		}
	}
}

// weight is what a schedule serves if all of it finds a place.
func (d *schedule) weight() int64 {
	sum := int64(0)
	for l := range d.loads {
		sum += d.loads[l].weight
	}
	return sum
}

// ordinary is how many loads the session's limit counts.
func (d *schedule) ordinary() int {
	n := 0
	for l := range d.loads {
		if d.loads[l].given == 0 && d.loads[l].kind.ordinary() {
			n++
		}
	}
	return n
}
