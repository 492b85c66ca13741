package soak

import (
	"cmp"
	"slices"
)

// builder makes a schedule load by load: of all loads that could be added it adds
// the one that serves most, in the vessel that does it best.
type builder struct {
	*trier
	order []int  // items, those first that a load takes first
	gone  []bool // items in a load
	best  schedule
	score score
	stop  func() bool
}

// rules say which plants a load takes first: the thirstiest, those with most
// thirst for the hands' time, or for the room they dry in, or those that dry
// slowly.
var rules = []func(p *problem, i int) float64{
	func(p *problem, i int) float64 { return float64(p.weight[i]) },
	func(p *problem, i int) float64 {
		return float64(p.weight[i]) / float64(max(1, p.items[i].Hands.work()))
	},
	func(p *problem, i int) float64 {
		return float64(p.weight[i]) / (float64(p.soonest[i]+1) * (p.items[i].BenchRoom + slack))
	},
	func(p *problem, i int) float64 { return float64(p.soonest[i]) },
}

// slowFirst is the rule that takes the slowest driers first.
const slowFirst = 3

// way is how a first schedule is built.
type way struct {
	rule   int
	inTurn bool    // loads in the order in which they go in, each around the first plant of the order; else the one that serves most
	share  float64 // of the hands' time, filled with those who have most thirst for it: the others are not taken; 0: all
}

// ways are the ways to build a first schedule. Who must come out early to be dry in
// time goes in early: that is the order in which the most jobs are done by their hour
// (Moore 1968, Management Science 15:102).
var ways = []way{{rule: 0}, {rule: 1}, {rule: 2}, {slowFirst, true, 1}, {slowFirst, true, 0.9}, {slowFirst, true, 0.8}}

// work is the hands' time before the plant lies on the bench.
func (h Hands) work() int { return h.Pull + h.In + h.Out + h.Lay }

// ranked lists the items that a rule puts first, first.
func (p *problem) ranked(rule int, items []int) []int {
	worth := make([]float64, p.n)
	for _, i := range items {
		worth[i] = rules[rule](p, i)
	}
	order := slices.Clone(items)
	slices.SortFunc(order, func(x, y int) int { return cmp.Or(cmp.Compare(worth[y], worth[x]), x-y) })
	return order
}

// worthwhile is the items with most thirst for the hands' time, as many as a share of
// it lets be done by their hour.
func (p *problem) worthwhile(items []int, share float64) []int {
	order := p.ranked(1, items)
	time := int(share * float64(p.handsBy(p.end)))
	for k, i := range order {
		if time -= p.items[i].Hands.work(); time < 0 {
			return order[:k]
		}
	}
	return order
}

// build makes a first schedule in a way, from the given loads alone.
func (t *trier) build(w way, wanted []int, stop func() bool) (schedule, score) {
	if w.share > 0 {
		wanted = t.p.worthwhile(wanted, w.share)
	}
	b := &builder{trier: t, order: t.p.ranked(w.rule, wanted), gone: make([]bool, len(t.p.items)), stop: stop}
	b.best = schedule{loads: slices.Clone(t.p.given)}
	t.p.dispatch(&b.best)
	b.score, _ = t.try(&b.best)
	if w.inTurn {
		b.inTurn()
	} else {
		b.grow()
	}
	return b.best, b.score
}

// inTurn adds loads after each other, each around the first plant of the order that
// any vessel still serves.
func (b *builder) inTurn() {
	b.mark()
	for k := 0; k < len(b.order) && !b.stop(); {
		anchor := b.order[k]
		kind := b.p.kind(anchor)
		if b.gone[anchor] || kind.ordinary() && b.full() {
			k++
			continue
		}
		best, sc := schedule{}, b.score
		for v := range b.p.Vessels {
			if !b.p.takes(v, anchor) || slices.ContainsFunc(b.p.Vessels[:v], func(w Vessel) bool { return w == b.p.Vessels[v] }) && b.idle(v) {
				continue
			}
			if d, s, ok := b.largest(v, b.gather(v, kind, anchor, b.p.Vessels[v].Room), len(b.best.loads), false, sc); ok && s.better(sc) {
				best, sc = d, s
			}
			if rest := b.beside(v, kind); rest > 0 {
				if d, s, ok := b.largest(v, b.gather(v, kind, anchor, rest), len(b.best.loads), true, sc); ok && s.better(sc) {
					best, sc = d, s
				}
			}
		}
		if best.loads == nil {
			k++
			continue
		}
		b.best, b.score = best, sc
		b.mark()
		if !b.gone[anchor] {
			k++
		}
	}
}

// full reports whether there may be no more loads of healthy plants.
func (b *builder) full() bool {
	return b.p.Limits.Loads > 0 && b.best.ordinary() >= b.p.Limits.Loads
}

// grow adds loads as long as one serves more.
func (b *builder) grow() {
	for !b.stop() {
		b.mark()
		best, sc := schedule{}, b.score
		for v := range b.p.Vessels {
			if slices.ContainsFunc(b.p.Vessels[:v], func(w Vessel) bool { return w == b.p.Vessels[v] }) && b.idle(v) {
				continue // as good as one looked at already
			}
			for _, k := range b.kinds(v) {
				b.offer(v, k, &best, &sc)
			}
		}
		if best.loads == nil {
			return
		}
		b.best, b.score = best, sc
	}
}

// mark notes who is in a load.
func (b *builder) mark() {
	clear(b.gone)
	for l := range b.best.loads {
		for _, i := range b.best.loads[l].items {
			b.gone[i] = true
		}
	}
}

// idle reports whether a vessel like another has, like it, no load.
func (b *builder) idle(v int) bool {
	return !slices.ContainsFunc(b.best.loads, func(l load) bool { return b.p.Vessels[l.vessel] == b.p.Vessels[v] })
}

// kinds lists the kinds of plants that wait for a vessel.
func (b *builder) kinds(v int) []kind {
	var all []kind
	full := b.full()
	for _, i := range b.order {
		if k := b.p.kind(i); !b.gone[i] && b.p.takes(v, i) && !(full && k.ordinary()) && !slices.Contains(all, k) {
			all = append(all, k)
		}
	}
	return all
}

// offer tries loads of a kind in a vessel, and keeps the schedule with the best.
func (b *builder) offer(v int, k kind, best *schedule, sc *score) {
	var tried [][]int
	for _, anchor := range b.anchors(v, k) {
		items := b.gather(v, k, anchor, b.p.Vessels[v].Room)
		if slices.ContainsFunc(tried, func(t []int) bool { return slices.Equal(t, items) }) {
			continue
		}
		tried = append(tried, items)
		for _, at := range b.places(items) {
			if d, s, ok := b.largest(v, items, at, false, *sc); ok && s.better(*sc) {
				*best, *sc = d, s
			}
		}
		if rest := b.beside(v, k); rest > 0 {
			if d, s, ok := b.largest(v, b.gather(v, k, anchor, rest), len(b.best.loads), true, *sc); ok && s.better(*sc) {
				*best, *sc = d, s
			}
		}
	}
}

// places are where among the others a load is tried: first, last, and before those
// that dry more quickly.
func (b *builder) places(items []int) []int {
	first, last := len(b.p.given), len(b.best.loads)
	if len(items) == 0 || first == last {
		return []int{last}
	}
	slow, early := b.p.slow(items), first
	for early < last && b.p.slow(b.best.loads[early].items) >= slow {
		early++
	}
	return slices.Compact([]int{first, early, last})
}

// slow is the s that some plants take to dry, on average.
func (p *problem) slow(items []int) int {
	sum := 0
	for _, i := range items {
		sum += p.soonest[i]
	}
	return sum / len(items)
}

// beside is the room that the last load in a vessel leaves for a second heap of
// its kind.
func (b *builder) beside(v int, k kind) float64 {
	for l := len(b.best.loads) - 1; l >= 0; l-- {
		if load := &b.best.loads[l]; load.vessel == v {
			if load.kind != k || k.company == Sick {
				return 0
			}
			return b.p.Vessels[v].Room - load.bulk
		}
	}
	return 0
}

// anchors are the plants around which a load is gathered: the first of the order,
// the longest soaker, and the one that must come out soonest.
func (b *builder) anchors(v int, k kind) []int {
	first, long, short := -1, -1, -1
	for _, i := range b.order {
		if b.gone[i] || b.p.kind(i) != k || !b.p.takes(v, i) {
			continue
		}
		if first < 0 {
			first, long, short = i, i, i
		}
		if b.p.items[i].Least > b.p.items[long].Least {
			long = i
		}
		if b.p.items[i].Most < b.p.items[short].Most {
			short = i
		}
	}
	return []int{first, long, short}
}

// gather collects a load around a plant: plants whose windows all hold some
// common soak, in order, until so many litres are full.
func (b *builder) gather(v int, k kind, anchor int, room float64) []int {
	p := b.p
	it := &p.items[anchor]
	items, low, high, in, used := []int{anchor}, it.Least, it.latest(), it.Hands.In, it.Bulk
	if used > room+slack {
		return nil
	}
	for _, i := range b.order {
		it := &p.items[i]
		if b.gone[i] || i == anchor || p.kind(i) != k || used+it.Bulk > room+slack {
			continue
		}
		from, to, hands := max(low, it.Least), min(high, it.latest()), in+it.Hands.In
		if max(from, hands) > to {
			continue
		}
		items, low, high, in, used = append(items, i), from, to, hands, used+it.Bulk
	}
	return items
}

// largest is the schedule with as many of a load's plants, the first of them, as
// find a place; the load is at a place among the others. What serves less than a schedule
// that is known is of no use, where that leaves nobody in the water too long.
func (b *builder) largest(v int, items []int, at int, beside bool, known score) (best schedule, sc score, found bool) {
	low, high, serves := 0, len(items), b.best.weight()
	for _, i := range items {
		serves += b.p.weight[i]
	}
	for n := high; low < high; n = (low + high + 1) / 2 {
		if serves < known.weight && known.late <= 0 && known.due <= 0 {
			break
		}
		d, s, ok := b.with(v, items[:n], at, beside)
		if !ok {
			for ; high >= n; high-- {
				serves -= b.p.weight[items[high-1]]
			}
			continue
		}
		low = n
		if !found || s.better(sc) {
			best, sc, found = d, s, true
		}
	}
	return best, sc, found
}

// with is the schedule with one more load.
func (b *builder) with(v int, items []int, at int, beside bool) (schedule, score, bool) {
	l := load{vessel: v, items: slices.Clone(items), kind: b.p.kind(items[0]), beside: beside}
	b.p.settle(&l)
	if l.low > l.high || !b.p.enough(&l) {
		return schedule{}, score{}, false
	}
	d := schedule{loads: slices.Insert(slices.Clone(b.best.loads), at, l)}
	b.p.dispatch(&d)
	s, ok := b.try(&d)
	return d, s, ok
}
