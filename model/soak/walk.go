package soak

import (
	"cmp"
	"slices"
)

// gatherWalks has the plants of each load go in as they hang along the shelves, in one
// walk or in as few as cost nothing: nobody sorts a hundred plants on the floor.
func (t *trier) gatherWalks(d *schedule, sc score) {
	for l := range d.loads {
		t.try(d)
		first, free, last := t.ends(&d.loads[l], &t.clock.loads[l])
		for parts := 1; parts <= mostParts; parts *= 2 {
			next := d.clone()
			load := &next.loads[l]
			load.items = slices.Concat(load.items[:load.lying], t.p.walked(first, parts), t.p.walked(free, 1), t.p.walked(last, parts))
			if t.p.turns(load) >= t.p.turns(&d.loads[l]) {
				continue
			}
			t.p.sum(load)
			if is, ok := t.try(&next); ok && load.low <= load.high && !sc.worse(is) {
				*d = next
				break
			}
		}
	}
}

// mostParts is in how many walks at most those of a load are fetched who cannot lie
// anywhere in it. A guess.
const mostParts = 16

// ends are the plants of a load that must be among the first to come out, those that
// may lie anywhere, and those that must be among the last, each in the load's order.
func (t *trier) ends(l *load, at *timed) (first, free, last []int) {
	soak, dryBy := at.out-at.in, t.p.hoursAt(at.out).DryBy
	longer := l.out - l.in // that the last one is in, if it takes no time itself
	for _, i := range l.items[l.lying:] {
		it := &t.p.items[i]
		switch {
		case it.Most < soak+longer || at.end+t.p.soonest[i] > dryBy:
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
