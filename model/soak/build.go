package soak

import (
	"cmp"
	"slices"
)

// batch is one load before it has times: which plants, in which order, where.
type batch struct {
	vessel int
	items  []int
}

// draft is a plan before it has times: its loads in the order in which they are
// put into the day. Plants of no batch are left out.
type draft []batch

// run puts a draft into the day. Batches lose the plants that find no place.
func (d *day) run(f draft) {
	d.begin(&d.p.morning)
	for b := range f {
		f[b].items = d.put(f[b].vessel, f[b].items)
	}
}

// builder makes a first draft, load after load, always for the vessel that is
// free first.
type builder struct {
	d    *day
	rule rule
	wait map[kind][]int // not yet taken up, in the rule's order
	gone []bool         // by item: taken up, or given up
	shut []bool         // vessels that nothing more fits into
}

// build makes a first draft after a rule.
func (d *day) build(r rule, wanted []int) draft {
	d.begin(&d.p.morning)
	b := &builder{d: d, rule: r, wait: map[kind][]int{}, gone: make([]bool, len(d.p.items)), shut: make([]bool, len(d.tubs))}
	order := wanted
	if r.able {
		order = d.thirstiest(wanted)
	}
	order = slices.Clone(order)
	slices.SortFunc(order, func(x, y int) int {
		return cmp.Or(r.first(d.p, x, y), d.p.items[x].Shelf-d.p.items[y].Shelf, x-y)
	})
	for _, i := range order {
		k := d.p.kind(i)
		b.wait[k] = append(b.wait[k], i)
	}
	return b.fill()
}

// thirstiest picks the plants with the most thirst for the hands' time, as many
// as the hands could serve if they never waited.
func (d *day) thirstiest(wanted []int) []int {
	order := slices.Clone(wanted)
	slices.SortStableFunc(order, func(x, y int) int { return byWorth(d.p, x, y) })
	left := 0
	for _, g := range d.gaps {
		left += g.to - g.from
	}
	for k, i := range order {
		if left -= d.p.items[i].HandsIn + d.p.items[i].HandsOut; left < 0 {
			return order[:k]
		}
	}
	return order
}

func (b *builder) fill() draft {
	var f draft
	for v := b.nextVessel(); v >= 0; v = b.nextVessel() {
		load, k := b.nextLoad(v)
		if len(load) == 0 {
			b.shut[v] = true
			continue
		}
		b.order(load)
		if kept := b.d.put(v, slices.Clone(load)); len(kept) > 0 {
			f = append(f, batch{v, kept})
			load = kept
		}
		b.remove(k, load) // a load of which nothing fits is given up
	}
	return f
}

// nextVessel is the open one that is free first, the largest of several; -1 if
// all are shut.
func (b *builder) nextVessel() int {
	best := -1
	for v := range b.shut {
		if b.shut[v] {
			continue
		}
		if best < 0 || b.free(v) < b.free(best) || b.free(v) == b.free(best) && b.d.p.s.Vessels[v].Room > b.d.p.s.Vessels[best].Room {
			best = v
		}
	}
	return best
}

func (b *builder) free(v int) int { return b.d.tubs[v].ready }

// nextLoad is the first waiting plant that the vessel takes and all that can
// share the load with it, and their kind.
func (b *builder) nextLoad(v int) ([]int, kind) {
	var kinds []kind
	for c := range companyCount {
		k := kind{c, b.d.p.s.Vessels[v].Fed}
		if b.firstFor(v, k) >= 0 {
			kinds = append(kinds, k)
		}
	}
	if len(kinds) == 0 {
		return nil, kind{}
	}
	if b.rule.mixed {
		slices.SortStableFunc(kinds, func(x, y kind) int {
			return b.rule.first(b.d.p, b.firstFor(v, x), b.firstFor(v, y))
		})
	}
	return b.gather(v, kinds[0]), kinds[0]
}

// firstFor is the first waiting plant of a kind that the vessel takes, or -1.
func (b *builder) firstFor(v int, k kind) int {
	for _, i := range b.wait[k] {
		if b.d.p.takes(v, i) {
			return i
		}
	}
	return -1
}

// farEnough ends the search for plants to share a load, so that building stays
// proportional to the number of plants.
const farEnough = 300

// gather collects a load: plants whose windows all hold some common soak, in
// the rule's order, until the vessel is full.
func (b *builder) gather(v int, k kind) []int {
	var load []int
	p := b.d.p
	room := p.s.Vessels[v].Room * b.rule.share
	low, high, work, used, missed := 0, 0, 0, 0.0, 0
	for _, i := range b.wait[k] {
		it := &p.items[i]
		from, to, hands := max(low, it.From), it.To, work+max(it.HandsIn, it.HandsOut)
		if len(load) > 0 {
			to = min(high, it.To)
		}
		fits := used+it.Bulk <= room+slack || len(load) == 0 && p.takes(v, i)
		if !fits || from > to || len(load) > 0 && hands > to {
			if missed++; missed > farEnough {
				break
			}
			continue
		}
		load = append(load, i)
		low, high, work, used = from, to, hands, used+it.Bulk
	}
	return load
}

// order sorts a load for going in. Soaks grow along a load where plants take
// longer out than in, so short ones go first; of like ones those that dry
// slowly, and shelf-mates together.
func (b *builder) order(load []int) {
	items := b.d.p.items
	slices.SortFunc(load, func(x, y int) int {
		a, c := &items[x], &items[y]
		return cmp.Or(a.From-c.From, a.To-c.To, a.Shelf-c.Shelf, c.DryFor-a.DryFor, x-y)
	})
}

// remove takes plants off the waiting list.
func (b *builder) remove(k kind, load []int) {
	for _, i := range load {
		b.gone[i] = true
	}
	b.wait[k] = slices.DeleteFunc(b.wait[k], func(i int) bool { return b.gone[i] })
}
