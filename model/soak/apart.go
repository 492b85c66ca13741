package soak

import "slices"

// ways are a schedule as it is, and, where something is still to go in with a load in the
// water, with that as a load of its own: beside it, after it is out, or when all else is done.
func (t *trier) ways(d schedule) []schedule {
	all := []schedule{d}
	for l := range t.p.given {
		if d.loads[l].toCome() == 0 {
			continue
		}
		if len(all) == 1 {
			all = append(all, d, d, d)
		}
		all[1] = t.placed(t.p.apart(all[1], l, -1))
		all[2] = t.placed(t.p.apart(all[2], l, slices.Index(all[2].order, Visit{GetOut, l})+1))
		all[3] = t.placed(t.p.apart(all[3], l, len(all[3].order)))
	}
	return all
}

// apart is a schedule in which the plants that are still to go in with a load in the water
// are a load of their own, the last: it goes in at a place in the order of the hands' work,
// or where they would have, which is -1.
func (p *problem) apart(d schedule, l, at int) schedule {
	d = d.clone()
	g, n := &d.loads[l], len(d.loads)
	rest := load{vessel: g.vessel, items: slices.Clone(g.items[g.lying:]), kind: g.kind, beside: true, begun: true}
	g.items = slices.Clone(g.items[:g.lying])
	p.sum(g)
	p.sum(&rest)
	d.loads = append(d.loads, rest)
	own := func(v Visit) bool { return v.Load == l && v.Do != GetOut }
	if at >= 0 {
		before, later := slices.Clone(d.order[:at]), slices.Clone(d.order[at:])
		d.order = slices.Concat(slices.DeleteFunc(before, own), []Visit{{Pull, l}, {PutIn, l}}, slices.DeleteFunc(later, own))
	}
	for k, v := range d.order {
		if own(v) {
			d.order[k].Load = n
		}
	}
	d.order = append(d.order, Visit{GetOut, n})
	return d
}

// placed has the last load come out where in the order of the hands' work that is best.
func (t *trier) placed(d schedule) schedule { return t.comesOut(d, len(d.loads)-1) }

// comesOut has a load come out where in the order of the hands' work that is best.
func (t *trier) comesOut(d schedule, l int) schedule {
	out := Visit{GetOut, l}
	others := slices.DeleteFunc(slices.Clone(d.order), func(v Visit) bool { return v == out })
	var best shedding
	found := false
	for at := len(others); at >= 0; at-- {
		next := schedule{d.loads, slices.Insert(slices.Clone(others), at, out)}
		if is, ok := t.timed(next); ok && (!found || is.score.better(best.score)) {
			best, found = is, true
		}
		if at > 0 && others[at-1] == (Visit{PutIn, l}) {
			break
		}
	}
	if !found {
		return d
	}
	return best.from
}
