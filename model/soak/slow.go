package soak

import "slices"

// held is a schedule without what hands that begin each piece of work late could not get
// out within its window, however long they stayed on.
func (t *trier) held(d schedule, lag, first int, stop func() bool) schedule {
	d = d.clone()
	for l := len(d.loads) - 1; l >= 0; l-- {
		if load := &d.loads[l]; load.given == 0 && load.high-load.low < lag {
			short, long := t.p.wider(*load, lag, true), t.p.wider(*load, lag, false)
			if *load = short; long.weight > short.weight {
				*load = long
			}
			if len(load.items) == 0 || !t.p.enough(load) {
				d.drop(l)
			}
		}
	}
	t.clock.lag, t.clock.first, t.clock.staysOn = lag, first, true
	is := t.keep(d, stop)
	t.clock.lag, t.clock.first, t.clock.staysOn = 0, 0, false
	return is.from
}

// wider is a load without those plants that must be out first, or else that must be in
// longest, as far as its window has to be so many s wide.
func (p *problem) wider(l load, wide int, outFirst bool) load {
	for l.items = slices.Clone(l.items); l.high-l.low < wide && len(l.items) > 0; p.sum(&l) {
		binds, by, shift := 0, never, 0
		for k, i := range l.items {
			it := &p.items[i]
			at := -(it.Least + shift)
			if outFirst {
				at = it.Most + shift
			}
			if at < by {
				binds, by = k, at
			}
			shift += it.Hands.In - it.Hands.Out - it.Hands.Lay
		}
		l.items = slices.Delete(l.items, binds, binds+1)
	}
	return l
}
