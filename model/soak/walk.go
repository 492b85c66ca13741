package soak

import (
	"cmp"
	"slices"
)

// gatherWalks has the plants of each load go in as they hang along the shelves, in one
// walk or in as few as cost nothing: nobody sorts a hundred plants on the floor. For three
// walks or fewer so much weight may be given up in all, by those without a place then.
func (t *trier) gatherWalks(d *schedule, sc score, hair int64) score {
	for l := range d.loads {
		t.try(d)
		if t.p.turns(&d.loads[l]) == 0 {
			continue
		}
		var best schedule
		top, found := score{}, false
		for _, items := range t.walks(&d.loads[l], &t.clock.loads[l]) {
			next := d.clone()
			load := &next.loads[l]
			load.items = items
			if t.p.turns(load) >= t.p.turns(&d.loads[l]) {
				continue
			}
			t.p.sum(load)
			is, ok := t.try(&next)
			if !ok || load.low > load.high || len(next.loads) < len(d.loads) {
				continue
			}
			if !sc.worse(is) {
				*d, found = next, false
				break
			}
			less := sc
			less.weight -= hair
			if few := t.p.turns(&next.loads[l]) < mostWalks; few && t.p.turns(&d.loads[l]) >= mostWalks && !less.worse(is) && (!found || is.better(top)) {
				best, top, found = next, is, true
			}
		}
		if found {
			hair -= max(0, sc.weight-top.weight)
			*d, sc = best, top
		}
	}
	return sc
}

// hair is the weight that few walks are worth: a quarter of a percent of all thirst. A choice.
func (t *trier) hair() int64 {
	all := int64(0)
	for _, i := range t.wanted {
		if !t.p.items[i].Urgent {
			all += t.p.weight[i]
		}
	}
	return all / 400
}

// mostWalks is in how many walks a load is fetched if that can be, and cuts is how finely it
// is cut into them. Choices.
const (
	mostWalks = 3
	cuts      = 12
)

// mostParts is in how many walks at most those of a load are fetched who cannot lie anywhere
// in it. A guess.
const mostParts = 16

// walks are orders of a load's plants in ever more walks: who must be among the first to
// come out, or among the last, in a walk or more of their own; before those in many walks
// the load cut anywhere into three.
func (t *trier) walks(l *load, at *timed) (orders [][]int) {
	first, free, last := t.ends(l, at)
	lying, own := l.items[:l.lying], l.items[l.lying:]
	apart := func(parts int) {
		orders = append(orders, slices.Concat(lying, t.p.walked(first, parts), t.p.walked(free, 1), t.p.walked(last, parts)))
	}
	if apart(1); len(own) >= cuts {
		for a := range cuts {
			for b := max(1, a); b < cuts; b++ {
				i, j := a*len(own)/cuts, b*len(own)/cuts
				orders = append(orders, slices.Concat(lying, t.p.walked(own[:i], 1), t.p.walked(own[i:j], 1), t.p.walked(own[j:], 1)))
			}
		}
	}
	for parts := 2; parts <= mostParts; parts *= 2 {
		apart(parts)
		orders = append(orders, slices.Concat(lying, t.p.walked(own, parts)))
	}
	return orders
}

// pullLater has each load pulled later among the hands' work, as late as costs nothing: what
// is pulled stands on the floor.
func (t *trier) pullLater(d *schedule) {
	sc, ok := t.try(d)
	for l := range d.loads {
		pull, in := slices.Index(d.order, Visit{Pull, l}), slices.Index(d.order, Visit{PutIn, l})
		if pull < 0 {
			continue
		}
		for to := in - 1; to > pull; to-- {
			next := d.clone()
			next.order = slices.Insert(slices.Delete(next.order, pull, pull+1), to, Visit{Pull, l})
			if is, can := t.try(&next); can && ok && !sc.worse(is) && is.free <= sc.free {
				*d = next
				break
			}
		}
	}
}

// ends are the plants of a load that must be among the first to come out, those that
// may lie anywhere, and those that must be among the last, each in the load's order.
func (t *trier) ends(l *load, at *timed) (first, free, last []int) {
	soak, dryBy := at.out-at.in, t.p.hoursAt(at.out).DryBy
	longer := l.out - l.in // that the last one is in, if it takes no time itself
	for _, i := range l.items[l.lying:] {
		it := &t.p.items[i]
		switch {
		case it.latest() < soak+longer || at.end+t.p.soonest[i] > dryBy:
			first = append(first, i)
		case it.Least > soak:
			last = append(last, i)
		default:
			free = append(free, i)
		}
	}
	return first, free, last
}

// turns is how often a walk along the shelves begins anew to fetch a load.
func (p *problem) turns(l *load) int {
	n := 0
	for k := l.lying + 1; k < len(l.items); k++ {
		if p.items[l.items[k]].Walk < p.items[l.items[k-1]].Walk {
			n++
		}
	}
	return n
}

// walked puts plants into so many walks along the shelves.
func (p *problem) walked(items []int, walks int) []int {
	items = slices.Clone(items)
	for n := range walks {
		slices.SortStableFunc(items[n*len(items)/walks:(n+1)*len(items)/walks], func(x, y int) int {
			return cmp.Compare(p.items[x].Walk, p.items[y].Walk)
		})
	}
	return items
}

// noticed is how many s later the hands are free before anybody notices. A guess.
const noticed = 120

// worse reports whether another score serves less, or takes more visits, or has
// the hands free noticeably later.
func (a score) worse(b score) bool {
	return b.late > a.late || b.due > a.due || b.weight < a.weight || b.visits > a.visits || b.free > a.free+noticed
}
