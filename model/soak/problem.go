package soak

import (
	"cmp"
	"math"
	"slices"
)

// problem is a session made ready for planning: tables that stay the same
// while plans are tried.
type problem struct {
	s       *Session
	items   []Item // the session's, then those of its given loads
	n       int    // how many of them are the session's own
	benches []Bench
	slowest []int   // benches, slowest first
	dur     [][]int // s to dry, by bench and item, at the room's factor
	atOnce  int     // plants that the factor allows to dry at once
	start   int
	weight  []int // thirst in whole parts, so that sums compare alike on every machine
	total   int   // of them
	morning day   // the session before anything is planned, given loads placed
	late    []Late
}

func prepare(s *Session) *problem {
	p := &problem{s: s, n: len(s.Items), start: s.Hours[0].From}
	p.items = slices.Clone(s.Items)
	for _, g := range s.Given {
		p.items = append(p.items, g.Items...)
	}
	p.benches = s.Benches
	if len(p.benches) == 0 {
		p.benches = []Bench{{Room: math.Inf(1), Factor: 1}}
	}
	p.slowest = make([]int, len(p.benches))
	for b := range p.benches {
		p.slowest[b] = b
	}
	slices.SortStableFunc(p.slowest, func(a, b int) int { return cmp.Compare(p.benches[b].Factor, p.benches[a].Factor) })
	p.dur = make([][]int, len(p.benches))
	for b := range p.dur {
		p.dur[b] = make([]int, len(p.items))
	}
	p.weigh()
	return p
}

// parts is how finely thirst is told apart: the largest of a session is this
// many parts.
const parts = 1_000_000

// weigh counts thirst in parts. The conversions here and in allow keep a
// machine from fusing a product and a sum, which would round otherwise than
// another.
func (p *problem) weigh() {
	most := 0.0
	for i := range p.items[:p.n] {
		most = max(most, p.items[i].Thirst)
	}
	p.weight = make([]int, len(p.items))
	for i := range p.items[:p.n] {
		p.weight[i] = max(1, int(float64(p.items[i].Thirst/most*parts)+0.5))
		p.total += p.weight[i]
	}
}

// allow sets the drying times for so many plants drying at once, and places
// the given loads with them.
func (p *problem) allow(atOnce int) {
	p.atOnce = atOnce
	factor := 1.0
	if p.s.Room != nil {
		factor = p.s.Room(atOnce)
	}
	for b, bench := range p.benches {
		for i := range p.items {
			p.dur[b][i] = int(math.Ceil(float64(float64(p.items[i].DryFor)*bench.Factor*factor) - slack))
		}
	}
	p.morning = p.newDay()
	p.late = p.morning.placeGiven()
}

// all is how many plants could dry at once at most.
func (p *problem) all() int { return len(p.items) + len(p.s.Drying) }

// tub is what has become of one vessel.
type tub struct {
	ready int     // its last load is out
	fill  int     // fills drawn
	water bool    // it stands filled with water that may be used
	loads int     // served by that water
	since int     // that water's first plant went in
	worst Company // of the loads that water served
}

func (p *problem) newDay() day {
	d := day{p: p, free: p.start, load: trial{own: make([]float64, len(p.benches))}}
	d.hands = hands{hours: p.s.Hours, least: p.least()}
	for i, h := range p.s.Hours {
		d.gaps = append(d.gaps, gap{h.From, h.To, i})
	}
	for _, v := range p.s.Vessels {
		t := tub{ready: p.start}
		if w := v.Water; w != nil {
			t = tub{ready: p.start, water: w.Worst != Sick, loads: w.Loads, since: w.Since, worst: w.Worst}
		}
		d.tubs = append(d.tubs, t)
	}
	for _, b := range p.benches {
		d.racks = append(d.racks, newRack(b.Room, p.grid()))
	}
	for _, t := range p.s.Drying {
		d.racks[t.Bench].add(p.start, t.Until, t.Room)
	}
	return d
}

// grid is how finely bench room is told apart in time, s: a second for a
// handful of plants, five minutes for hundreds.
func (p *problem) grid() int { return min(1+len(p.items)/40*30, 300) }

// least is the shortest piece of work that the hands have to do.
func (p *problem) least() int {
	least := math.MaxInt
	for i := range p.items {
		least = min(least, p.items[i].HandsIn, p.items[i].HandsOut)
	}
	return least
}

// kind is what has to agree for two plants to share a load.
type kind struct {
	company Company
	fed     bool
}

func (p *problem) kind(i int) kind { return kind{p.items[i].Company, p.items[i].Fed} }

// takes reports whether a vessel may hold the plant at all.
func (p *problem) takes(v, i int) bool {
	vessel, it := &p.s.Vessels[v], &p.items[i]
	old := vessel.Age > 0 && it.From+it.HandsOut > vessel.Age
	return vessel.Fed == it.Fed && it.Bulk <= vessel.Room+slack && !old
}
