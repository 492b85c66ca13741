package soak

import (
	"cmp"
	"math"
	"slices"
)

// bounder knows what no plan of a session can beat. Each of its bounds drops
// all rules but a few: the hands' total work; the soak of the longest soakers
// between the hands' first and last work on them, as for coupled tasks; the
// vessels' room times hours.
type bounder struct {
	p     *problem
	first int // no new plant can go in before
}

func (p *problem) bounder() bounder {
	b := bounder{p, math.MaxInt}
	for v := range p.s.Vessels {
		b.first = min(b.first, p.opens(v))
	}
	return b
}

// opens is when a vessel can first take a new load.
func (p *problem) opens(v int) int {
	t := &p.morning.tubs[v]
	if t.water {
		return t.ready
	}
	return t.ready + p.s.Vessels[v].Refill
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
	last := 0
	for _, h := range p.s.Hours {
		if h.OutOnly {
			return last-p.items[i].HandsIn+p.items[i].To < h.From
		}
		last = h.To
	}
	return true
}

// handsFree is a time before which the hands cannot be done with the given
// items.
func (b bounder) handsFree(items []int) int {
	best := b.p.morning.free
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
	best = max(best, b.p.finish(b.first, work), b.longest(out))
	return max(best, b.room(out, false), b.room(out, true))
}

// longest is the bound from the plants with the longest soaks, for the best
// choice of how many.
func (b bounder) longest(items []int) int {
	order := slices.Clone(items)
	slices.SortFunc(order, func(x, y int) int { return cmp.Compare(b.p.items[y].From, b.p.items[x].From) })
	best, in, out, tail := 0, 0, 0, math.MaxInt
	for _, i := range order {
		it := &b.p.items[i]
		in, out, tail = in+it.HandsIn, out+it.HandsOut, min(tail, it.From-it.HandsIn+it.HandsOut)
		best = max(best, b.p.finish(b.first+it.From, out), b.p.finish(b.first, in)+tail)
	}
	return best
}

// room is the bound from litres times seconds, for one kind of water.
func (b bounder) room(items []int, fed bool) int {
	need := 0.0
	for _, i := range items {
		if b.p.items[i].Fed == fed {
			need += b.p.energy(i)
		}
	}
	if need == 0 {
		return 0
	}
	return b.p.filledBy(need, fed)
}

// energy is the least room times time that a plant takes of a vessel.
func (p *problem) energy(i int) float64 {
	return p.items[i].Bulk * float64(p.items[i].From+p.items[i].HandsOut)
}

// filledBy is when the vessels of a kind of water have offered so much room
// times time.
func (p *problem) filledBy(need float64, fed bool) int {
	var open []int
	for v := range p.s.Vessels {
		if p.s.Vessels[v].Fed == fed {
			open = append(open, v)
		}
	}
	slices.SortFunc(open, func(x, y int) int { return cmp.Compare(p.opens(x), p.opens(y)) })
	room, at := 0.0, p.start
	for _, v := range open {
		if room > 0 && need <= room*float64(p.opens(v)-at) {
			break
		}
		need -= float64(room * float64(p.opens(v)-at))
		room, at = room+p.s.Vessels[v].Room, p.opens(v)
	}
	if room == 0 {
		return p.start
	}
	return at + int(math.Ceil(need/room-slack))
}

// thirst is the most that can be served of the items that can be served alone:
// the hands' time shared out by worth, in fractions of plants, and the same
// with the vessels' room.
func (b bounder) thirst(items []int) float64 {
	all := 0.0
	for _, i := range items {
		all += b.p.items[i].Thirst
	}
	time := 0.0
	for _, g := range b.p.morning.gaps {
		if !b.p.s.Hours[g.hour].OutOnly {
			time += float64(max(0, g.to-max(g.from, b.first)))
		}
	}
	hands := b.p.fractions(items, time, func(i int) float64 {
		if !b.p.today(i) {
			return float64(b.p.items[i].HandsIn)
		}
		return float64(b.p.items[i].HandsIn + b.p.items[i].HandsOut)
	})
	return min(all, hands, b.roomThirst(items, false)+b.roomThirst(items, true))
}

func (b bounder) roomThirst(items []int, fed bool) float64 {
	end, offer := b.p.s.Hours[len(b.p.s.Hours)-1].To, 0.0
	for v := range b.p.s.Vessels {
		if b.p.s.Vessels[v].Fed == fed {
			offer += b.p.s.Vessels[v].Room * float64(max(0, end-b.p.opens(v)))
		}
	}
	var own []int
	for _, i := range items {
		if b.p.items[i].Fed == fed {
			own = append(own, i)
		}
	}
	return b.p.fractions(own, offer, b.p.energy)
}

// fractions is the most thirst that a supply can serve when each item needs so
// much of it and may be served in part (Dantzig 1957, Operations Research
// 5:266-277).
func (p *problem) fractions(items []int, supply float64, need func(i int) float64) float64 {
	order := slices.Clone(items)
	slices.SortFunc(order, func(x, y int) int {
		return cmp.Compare(p.items[y].Thirst*need(x), p.items[x].Thirst*need(y))
	})
	sum := 0.0
	for _, i := range order {
		if n := need(i); n > supply {
			return sum + p.items[i].Thirst*supply/n
		}
		supply -= need(i)
		sum += p.items[i].Thirst
	}
	return sum
}
