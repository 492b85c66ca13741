package soak

import (
	"cmp"
	"math"
	"slices"
)

// plain is a bound on when the hands are free from the plainest reasons: the
// hands' total work, and the soak of the longest soakers between the hands'
// first and last work on them, as for coupled tasks.
func (b bounder) plain(items []int) int {
	best := b.p.start
	if b.given {
		best = b.p.morning.free
	}
	if len(items) == 0 {
		return best
	}
	work := 0
	var out []int
	for _, i := range items {
		work += b.p.items[i].HandsIn
		if b.p.today(i) {
			work += b.p.items[i].HandsOut
			out = append(out, i)
		}
	}
	return max(best, b.p.finish(b.first, work), b.longest(out))
}

// finish is when work of so many seconds, begun at a time, is done in the hours
// that start new loads; the end of them if they do not suffice.
func (p *problem) finish(from, work int) int {
	end := from
	for _, h := range p.s.Hours {
		if h.OutOnly || h.To <= from {
			continue
		}
		start := max(h.From, from)
		if work <= h.To-start {
			return start + work
		}
		work -= h.To - start
		end = h.To
	}
	return end
}

// today reports whether a plant has to come out before the hours that only take
// out.
func (p *problem) today(i int) bool {
	last := p.start
	for _, h := range p.s.Hours {
		if h.OutOnly {
			return last-p.items[i].HandsIn+p.items[i].To < h.From
		}
		last = h.To
	}
	return true
}

// longest is the bound from the plants with the longest soaks, for the best
// choice of how many.
func (b bounder) longest(items []int) int {
	order := slices.Clone(items)
	slices.SortFunc(order, func(x, y int) int { return cmp.Compare(b.p.items[y].From, b.p.items[x].From) })
	best, in, out, tail := b.p.start, 0, 0, math.MaxInt
	for _, i := range order {
		it := &b.p.items[i]
		in, out, tail = in+it.HandsIn, out+it.HandsOut, min(tail, it.From-it.HandsIn+it.HandsOut)
		best = max(best, b.p.finish(b.first+it.From, out), b.p.finish(b.first, in)+tail)
	}
	return best
}
