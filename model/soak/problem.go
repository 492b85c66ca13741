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
	items   []Item  // the session's, then those of its given loads
	n       int     // how many of them are the session's own
	more    [][]int // by given load: items that are still to go in with it
	joined  []bool  // items that do
	benches []Bench
	slowest []int   // benches, slowest first
	order   []int   // the same in the order in which plants are laid on them
	rows    []int   // of the session, by item
	dur     [][]int // s to dry, by bench and item, at the room's factor
	atOnce  int     // plants that the factor allows to dry at once
	start   int
	weight  []int64 // thirst in whole parts, so that sums compare alike on every machine
	total   int64   // of them
	morning day     // the session before anything is planned, given loads placed
	late    []Late
	wanted  []int // items that could be served alone, most worth first
	ideal   score // no draft is better
}

func prepare(s *Session) *problem {
	p := &problem{s: s, n: len(s.Items), start: s.Hours[0].From}
	p.items = slices.Clone(s.Items)
	for _, g := range s.Given {
		p.items = append(p.items, g.Items...)
		p.more = append(p.more, g.More)
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
	p.order = p.slowest
	p.rows = slices.Repeat([]int{1}, len(p.items))
	p.inParts()
	return p
}

// parts is how finely thirst is told apart: the largest of a session is this
// many parts.
const parts = 1_000_000

// inParts counts thirst in parts. The conversion keeps a machine
// from fusing a product and a sum, which would round otherwise than another.
func (p *problem) inParts() {
	most := 0.0
	for i := range p.items[:p.n] {
		most = max(most, p.items[i].Thirst)
	}
	p.weight = make([]int64, len(p.items))
	for i := range p.items[:p.n] {
		p.weight[i] = max(1, int64(float64(p.items[i].Thirst/most*parts)+0.5))
		p.total += p.weight[i]
	}
}

// weigh is the thirst of some items, in parts.
func (p *problem) weigh(items []int) int64 {
	sum := int64(0)
	for _, i := range items {
		sum += p.weight[i]
	}
	return sum
}

// bulk is the vessel room that some items take, litres.
func (p *problem) bulk(items []int) float64 {
	sum := 0.0
	for _, i := range items {
		sum += p.items[i].Bulk
	}
	return sum
}

// with is the problem with drying times for so many plants drying at once, and
// its given loads placed with them.
func (p *problem) with(atOnce int) *problem {
	q := *p
	q.atOnce = atOnce
	factor := 1.0
	if p.s.Room != nil {
		factor = p.s.Room(atOnce)
	}
	q.dur = make([][]int, len(p.benches))
	for b, bench := range p.benches {
		q.dur[b] = make([]int, len(p.items))
		for i := range p.items {
			q.dur[b][i] = p.items[i].dries(bench, factor)
		}
	}
	q.joined = make([]bool, len(p.items))
	q.morning = q.newDay()
	q.late = q.morning.placeGiven() // they do not wait until others are dry
	if p.s.Room != nil {
		q.morning.crowd.room = float64(atOnce)
	}
	q.wanted = q.able()
	q.ideal = q.idealFor(q.wanted)
	return &q
}

// neverDry is the s to dry of what never does.
const neverDry = mostSeconds

// dries is the s that an item takes to dry on a bench in a room of a factor.
// The product is rounded before the difference, as on every machine.
func (it *Item) dries(b Bench, factor float64) int {
	dries := math.Ceil(float64(float64(it.DryFor)*b.Factor*factor) - slack)
	if !(dries < neverDry) { // a room may make nonsense of it
		return neverDry
	}
	return max(0, int(dries))
}

// fansFirst is the problem with plants laid on the fastest bench that has room,
// so that fewer lie in the room at once; else they are laid on the slowest that
// dries them in time, so that fans are kept for those that need them.
func (p *problem) fansFirst() *problem {
	q := *p
	q.order = slices.Clone(p.slowest)
	slices.Reverse(q.order)
	q.morning.p = &q
	return &q
}

// near is the problem with drying times for so many more plants drying at once.
func (p *problem) near(more int) *problem {
	n := min(max(1, p.atOnce+more), p.all())
	if n == p.atOnce || p.s.Room == nil {
		return p
	}
	q := *p
	q.order = p.slowest
	near := q.with(n)
	if near.morning.crowd.peak > float64(n) {
		return p // more than that dry already
	}
	near.order = p.order
	return near
}

// all is how many plants could dry at once at most.
func (p *problem) all() int {
	all := len(p.s.Drying)
	for _, n := range p.rows {
		all += n
	}
	return all
}

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
			t = tub{ready: max(p.start, w.Ready), water: w.Worst != Sick, loads: w.Loads, since: w.Since, worst: w.Worst}
		}
		d.tubs = append(d.tubs, t)
	}
	end, piece := p.pieces()
	for _, b := range p.benches {
		d.racks = append(d.racks, newRack(b.Room, p.start, end, piece))
	}
	crowd := math.Inf(1)
	if p.s.Room != nil {
		crowd = float64(p.all())
	}
	d.crowd = newRack(crowd, p.start, end, piece)
	for _, t := range p.s.Drying {
		d.racks[t.Bench].add(p.start, t.Until, t.Room)
		d.crowd.add(p.start, t.Until, 1)
	}
	for b := range d.racks {
		d.racks[b].sum()
	}
	d.crowd.sum()
	return d
}

// mostPieces is how finely room to dry is told apart in time. Our own: the
// shortest soak day in quarter minutes, five days in ten minutes.
const mostPieces = 1500

// pieces is when the last plant is dry at the latest, and the pieces of time in
// which room to dry is told apart: s, ten minutes for hundreds of plants.
func (p *problem) pieces() (end, piece int) {
	end = p.s.Hours[len(p.s.Hours)-1].To
	longest := 0
	for b := range p.dur {
		longest = max(longest, slices.Max(append(p.dur[b], 0)))
	}
	end = min(end+longest, max(end, p.s.Hours[len(p.s.Hours)-1].DryBy)) // but for what is late
	return end, max(1, (end-p.start)/mostPieces, min(p.all()/40*60, 600))
}

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
