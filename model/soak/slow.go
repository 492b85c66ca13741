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

// soon is how long before a load goes in it is known whether hands that are late have time
// for it: it may be pulled by then. Who may be soaked later is not given up yet. A choice.
const soon = 3600

// heldSoon is held of what goes in soon. What goes in later comes after it in the order of the
// hands' work, as it did before.
func (t *trier) heldSoon(d schedule, lag, first int, stop func() bool) schedule {
	slow, all := t.held(d, lag, first, stop), d.clone()
	if !t.clock.time(&all) {
		return slow
	}
	in := make([]bool, len(t.p.items))
	for l := range slow.loads {
		for _, i := range slow.loads[l].items {
			in[i] = true
		}
	}
	for l := len(all.loads) - 1; l >= 0; l-- {
		load := &all.loads[l]
		if load.given == 0 && t.clock.loads[l].in >= t.p.start+soon {
			continue
		}
		load.items = slices.DeleteFunc(slices.Clone(load.items), func(i int) bool { return !in[i] })
		if t.p.sum(load); load.given == 0 && (len(load.items) == 0 || !t.p.enough(load)) {
			all.drop(l)
		}
	}
	var order []Visit
	for _, v := range slow.order {
		is := &slow.loads[v.Load]
		if l := slices.IndexFunc(all.loads, func(o load) bool {
			return o.given == is.given && (is.given > 0 || slices.Contains(o.items, is.items[0]))
		}); l >= 0 {
			order = append(order, Visit{v.Do, l})
		}
	}
	at := 0
	for _, v := range all.order {
		if n := slices.Index(order, v); n >= 0 {
			at = max(at, n+1)
			continue
		}
		order = slices.Insert(order, at, v)
		at++
	}
	all.order = order
	return all
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
