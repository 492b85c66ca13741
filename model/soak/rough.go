package soak

import (
	"cmp"
	"math"
	"slices"
)

// A search among hundreds of plants that moves them one by one gets nowhere. It
// begins with handfuls: plants alike that go in, and come out, one right after
// the other. When it has done what it can it takes them apart and goes on with
// single plants (multilevel refinement: Walshaw 2004, Annals of Operations
// Research 131:325-372).

// What a handful may be. Our own.
const (
	fewItems     = 50   // below so many plants there are none
	manyHandfuls = 100  // handfuls are made larger rather than many more
	vesselPart   = 2    // one fills at most this part, one of so many, of the smallest vessel
	sparePart    = 2    // and keeps this part of the width of its plants' windows
	dryAlike     = 1.25 // its slowest plant takes at most so many times as long to dry as its quickest
)

// rough is the problem in handfuls, and the items of each, in order; nil if
// there are too few plants to be worth it.
func (p *problem) rough() (*problem, [][]int) {
	if p.n < fewItems {
		return nil, nil
	}
	q := *p
	q.items, q.weight, q.rows = nil, nil, nil
	q.more = make([][]int, len(p.more))
	most := max(2, (p.n+manyHandfuls-1)/manyHandfuls)
	var handfuls [][]int
	single := func(i int) {
		handfuls = append(handfuls, []int{i})
		q.items, q.weight, q.rows = append(q.items, p.items[i]), append(q.weight, p.weight[i]), append(q.rows, p.rows[i])
	}
	joining := map[int]bool{}
	for l, more := range p.more {
		for _, i := range more {
			joining[i] = true
			q.more[l] = append(q.more[l], len(handfuls))
			single(i)
		}
	}
	alone := len(handfuls)
	for _, i := range p.alike() {
		if joining[i] {
			continue
		}
		last := len(handfuls) - 1
		if last >= alone && len(handfuls[last]) < most {
			more := append(handfuls[last], i)
			if it, ok := p.handful(more); ok {
				handfuls[last], q.items[last] = more, it
				q.weight[last] += p.weight[i]
				q.rows[last] += p.rows[i]
				continue
			}
		}
		single(i)
	}
	q.n = len(q.items)
	q.items = append(q.items, p.items[p.n:]...)
	q.weight = append(q.weight, p.weight[p.n:]...)
	q.rows = append(q.rows, p.rows[p.n:]...)
	return &q, handfuls
}

// alike lists the items so that those alike stand side by side.
func (p *problem) alike() []int {
	order := make([]int, p.n)
	for i := range order {
		order[i] = i
	}
	const tenMinutes, hour = 600, 3600
	slices.SortFunc(order, func(a, b int) int {
		x, y := &p.items[a], &p.items[b]
		return cmp.Or(p.kind(a).compare(p.kind(b)), x.To-y.To, x.From/tenMinutes-y.From/tenMinutes,
			y.DryFor/hour-x.DryFor/hour, byWorth(p, a, b), a-b)
	})
	return order
}

// compare orders the kinds in some way.
func (k kind) compare(other kind) int {
	if k.company != other.company || k.fed == other.fed {
		return cmp.Compare(k.company, other.company)
	}
	if k.fed {
		return 1
	}
	return -1
}

// handful is plants as one item; false if they should not be one.
func (p *problem) handful(plants []int) (Item, bool) {
	first := &p.items[plants[0]]
	it := Item{From: math.MinInt, To: math.MaxInt, Company: first.Company, Fed: first.Fed, Shelf: first.Shelf}
	spare, quickest := math.MaxInt, first.DryFor
	for _, i := range plants {
		x := &p.items[i]
		longer := it.HandsOut - it.HandsIn // than the first it is in the water
		it.From, it.To = max(it.From, x.From-longer), min(it.To, x.To-longer)
		it.HandsIn, it.HandsOut = it.HandsIn+x.HandsIn, it.HandsOut+x.HandsOut
		it.Bulk, it.BenchRoom, it.Thirst = it.Bulk+x.Bulk, it.BenchRoom+x.BenchRoom, it.Thirst+x.Thirst
		it.DryFor, quickest = max(it.DryFor, x.DryFor), min(quickest, x.DryFor)
		spare = min(spare, x.To-x.From)
	}
	return it, p.kind(plants[0]) == p.kind(plants[len(plants)-1]) &&
		it.To-it.From >= spare/sparePart && it.Bulk <= p.smallest(first.Fed)/vesselPart && float64(it.DryFor) <= dryAlike*float64(quickest)
}

// smallest is the room of the smallest vessel for a kind of water, litres.
func (p *problem) smallest(fed bool) float64 {
	room := 0.0
	for _, v := range p.s.Vessels {
		if v.Fed == fed && (room == 0 || v.Room < room) {
			room = v.Room
		}
	}
	return room
}

// apart is a draft of handfuls as one of plants.
func (f draft) apart(handfuls [][]int) draft {
	fine := make(draft, len(f))
	for b := range f {
		fine[b].vessel = f[b].vessel
		for _, h := range f[b].items {
			fine[b].items = append(fine[b].items, handfuls[h]...)
		}
	}
	return fine
}
