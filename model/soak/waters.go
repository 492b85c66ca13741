package soak

// stand is every vessel as the session finds it.
func (c *clock) stand(d *schedule) {
	if c.tubs == nil {
		c.tubs = make([]tub, len(c.p.Vessels))
	}
	for v := range c.tubs {
		t := &c.tubs[v]
		*t = tub{free: c.p.start, out: -1, in: t.in[:0]}
		if w := c.p.Vessels[v].Water; w != nil {
			t.ready, t.water, t.loads, t.since, t.worst = w.Ready, w.Worst != Sick, w.Loads, w.Since, w.Worst
		}
	}
	for l := range d.loads {
		if g := &d.loads[l]; g.given > 0 {
			t := &c.tubs[g.vessel]
			t.in = append(t.in, l)
			if c.p.Vessels[g.vessel].Water == nil && g.lying > 0 {
				t.water, t.loads, t.since = true, max(1, t.loads), c.p.Session.Given[g.given-1].In[0]
			}
			if g.lying > 0 {
				t.worst = max(t.worst, g.kind.company)
			}
		}
	}
}

// waters gives every load its fill, and says after which the water is let out;
// false when two cannot share a vessel.
func (c *clock) waters(d *schedule) bool {
	c.stand(d)
	for l := range c.loads {
		c.loads[l].last, c.loads[l].heap = false, d.loads[l].heap
	}
	for _, visit := range d.order {
		l, load := &c.loads[visit.Load], &d.loads[visit.Load]
		t, v := &c.tubs[load.vessel], &c.p.Vessels[load.vessel]
		switch {
		case visit.Do == GetOut:
			for k := range t.in {
				if t.in[k] == visit.Load {
					t.in = append(t.in[:k], t.in[k+1:]...)
					break
				}
			}
			t.out = visit.Load
		case visit.Do == PutIn && load.given == 0:
			l.fresh = l.must || !t.usable(v, load.kind.company)
			if !c.shares(d, t, load, l.fresh) {
				c.fault = fault{visit.Load, VesselsTaken}
				return false
			}
			if l.fresh && v.Once && (v.Filled || v.Water != nil || t.fill > 0) {
				c.fault = fault{visit.Load, WaterTaken}
				return false
			}
			if len(t.in) == 1 {
				other := &c.loads[t.in[0]]
				if other.heap == 0 {
					other.heap = 1
				}
				l.heap = 3 - other.heap
			}
			if l.fresh {
				if t.out >= 0 {
					c.loads[t.out].last = true
				}
				t.fill++
				t.water, t.loads, t.worst, t.out = true, 0, Healthy, -1
			}
			l.fill = t.fill
			t.loads, t.worst = t.loads+1, max(t.worst, load.kind.company)
			if load.kind.company == Sick {
				t.water = false
			}
			t.in = append(t.in, visit.Load)
		}
	}
	for v := range c.tubs {
		if out := c.tubs[v].out; out >= 0 {
			c.loads[out].last = true
		}
	}
	return true
}

// usable reports whether the water in the vessel may serve another load.
func (t *tub) usable(v *Vessel, c Company) bool {
	if !t.water || t.loads == 0 {
		return t.water
	}
	return c != Sick && t.worst <= c && (v.Loads == 0 || t.loads < v.Loads)
}

// mostHeaps lie in a vessel at a time: more nobody tells apart.
const mostHeaps = 2

// shares reports whether a load may go into a vessel beside what lies in it.
func (c *clock) shares(d *schedule, t *tub, l *load, fresh bool) bool {
	if len(t.in) == 0 {
		return c.p.fits(l)
	}
	if fresh || len(t.in) >= mostHeaps {
		return false
	}
	bulk := l.bulk
	for _, m := range t.in {
		if d.loads[m].kind != l.kind {
			return false
		}
		bulk += d.loads[m].bulk
	}
	return bulk <= c.p.Vessels[l.vessel].Room+slack
}
