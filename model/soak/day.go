package soak

// day is a session partly planned: the hands' time, the benches and the
// vessels after the loads put in so far. Loads are put in one by one, each as
// early as what was put in before it allows; this is the serial schedule
// generation of project scheduling (Kolisch 1996, European Journal of
// Operational Research 90:320-333), here with two pieces of work a plant and a
// window between them: coupled tasks (Shapiro 1980, Naval Research Logistics
// Quarterly 27:489-498).
type day struct {
	p *problem
	hands
	racks  []rack
	crowd  rack // of rows that dry in the room at once
	tubs   []tub
	free   int // end of the last work outside hours that only take out
	fills  int
	count  int   // of loads
	served int64 // parts of thirst
	work   int
	loads  []Load // kept only when keep is set
	keep   bool
	breaks int   // times that the hands leave a load half put in, or half out
	ends   int64 // sum of the ends of all loads: a tie-break that pulls everything forward
	load   trial
}

// trial is the load that is being placed.
type trial struct {
	in, out, lb []int
	lying       int // how many of its plants, the first, are in the water already
	bench       []int
	hour        []int     // of the hours it comes out in
	end         int       // the hands are done with it
	laid        int       // rows of it that are out
	own         []float64 // bench room of the plants of it that are out, by bench, all taken to dry after the last is out
	excess      int       // after a failure: how many plants too many, by guess
	slow        int       // after a failure: the plant whose drying is to blame, or -1
}

// begin makes the day a copy of a morning, keeping its memory.
func (d *day) begin(morning *day) {
	d.p, d.hours, d.least = morning.p, morning.hours, morning.least
	d.gaps = append(d.gaps[:0], morning.gaps...)
	d.tubs = append(d.tubs[:0], morning.tubs...)
	for len(d.racks) < len(morning.racks) {
		d.racks = append(d.racks, rack{})
	}
	for b := range morning.racks {
		d.racks[b].reset(&morning.racks[b])
	}
	d.crowd.reset(&morning.crowd)
	d.load.own = append(d.load.own[:0], make([]float64, len(d.racks))...)
	d.free, d.fills, d.count, d.served = morning.free, morning.fills, morning.count, morning.served
	d.breaks, d.ends = morning.breaks, morning.ends
	d.loads = append(d.loads[:0], morning.loads...)
}

// put places a load of the given plants, in that order, in a vessel, leaving
// out those that do not fit in; it returns the plants that stay, which share
// the memory of those given.
func (d *day) put(v int, items []int) []int {
	for len(items) > 0 {
		if d.tryWater(v, items) {
			return items
		}
		items = d.lighten(items)
	}
	return nil
}

// tryWater places the load in the water that stands in the vessel if it may be
// used, and in fresh water otherwise.
func (d *day) tryWater(v int, items []int) bool {
	ready, fresh, ok := d.times(v, items)
	if ok {
		d.commit(v, items, ready, fresh)
	}
	return ok
}

// times finds the load's times in the vessel: when it stands ready, and whether
// with fresh water.
func (d *day) times(v int, items []int) (ready int, fresh, ok bool) {
	t, vessel := &d.tubs[v], &d.p.s.Vessels[v]
	if t.usable(vessel, d.p.items[items[0]].Company) {
		if !d.fit(items, t.ready) {
			return 0, false, false
		}
		if d.youngEnough(v, t.loads > 0) {
			return t.ready, false, true
		}
	}
	ready = t.ready + vessel.Refill
	if !d.fit(items, ready) {
		return 0, true, false
	}
	if !d.youngEnough(v, false) {
		d.load.excess, d.load.slow = len(items), -1
		return 0, true, false
	}
	return ready, true, true
}

// usable reports whether the water in the vessel may serve another load.
func (t *tub) usable(v *Vessel, c Company) bool {
	if !t.water {
		return false
	}
	if t.loads == 0 {
		return true
	}
	return c != Sick && t.worst != Sick && t.worst <= c && (v.Loads == 0 || t.loads < v.Loads)
}

// youngEnough reports whether the load just fitted goes in, and is out, before
// its water is too old.
func (d *day) youngEnough(v int, used bool) bool {
	vessel, since := &d.p.s.Vessels[v], d.load.in[0]
	if used {
		since = d.tubs[v].since
	}
	return (vessel.Age == 0 || d.load.end-since <= vessel.Age) && (vessel.LastIn == 0 || d.load.in[0]-since <= vessel.LastIn)
}

// commit makes the load just fitted part of the day.
func (d *day) commit(v int, items []int, ready int, fresh bool) {
	t := &d.tubs[v]
	if fresh {
		t.fill++
		t.loads, t.worst = 0, Healthy
		d.fills++
	}
	if t.loads == 0 {
		t.since = d.load.in[0]
	}
	company := d.p.items[items[0]].Company
	t.ready, t.water = d.load.end, company != Sick
	t.loads, t.worst = t.loads+1, max(t.worst, company)
	d.count++
	d.ends += int64(t.ready - d.p.start)
	d.account(items)
	if d.keep {
		d.loads = append(d.loads, d.record(v, items, ready))
	}
}

// account takes the hands' time and the bench room of the load just fitted, and
// counts it.
func (d *day) account(items []int) {
	lying := d.load.lying
	d.handle(items[lying:], d.load.in[lying:], func(it *Item) int { return it.HandsIn })
	d.handle(items, d.load.out, func(it *Item) int { return it.HandsOut })
	for k, i := range items {
		it, out, b := &d.p.items[i], d.load.out[k], d.load.bench[k]
		dry := d.p.dry(b, i, out)
		d.racks[b].add(out, dry, it.BenchRoom)
		d.crowd.add(out, dry, float64(d.p.rows[i]))
		d.served += d.p.weight[i]
		if k >= lying {
			d.free = max(d.free, d.load.in[k]+it.HandsIn)
		}
		if !d.hours[d.load.hour[k]].OutOnly {
			d.free = max(d.free, out+it.HandsOut)
		}
	}
	for b := range d.racks {
		d.racks[b].sum()
	}
	d.crowd.sum()
}

// handle takes the hands' time for plants going in, or coming out, and counts
// how often the hands leave off in between.
func (d *day) handle(items, at []int, seconds func(*Item) int) {
	if len(items) == 0 {
		return
	}
	from, until := at[0], at[0] // of the plants handled without a wait so far
	for k, i := range items {
		if at[k] != until {
			d.take(from, until-from)
			if at[k]-until > idle {
				d.breaks++
			}
			from = at[k]
		}
		until = at[k] + seconds(&d.p.items[i])
	}
	d.take(from, until-from)
}

func (d *day) record(v int, items []int, ready int) Load {
	t := &d.load
	first := &d.p.items[items[0]]
	l := Load{Vessel: v, Fill: d.tubs[v].fill, Start: t.in[0], Out: t.out[0], End: t.end, Ready: ready,
		Company: first.Company, Fed: first.Fed, Plants: make([]Placed, len(items))}
	for k, i := range items {
		l.Plants[k] = d.placed(k, i)
	}
	return l
}

// placed is the kth plant of the load just fitted.
func (d *day) placed(k, i int) Placed {
	t := &d.load
	return Placed{Item: d.p.items[i], Index: i, In: t.in[k], Out: t.out[k], Bench: t.bench[k], Dry: d.p.dry(t.bench[k], i, t.out[k])}
}

// dry is when a plant is dry that the hands start to take out at a time.
func (p *problem) dry(bench, i, out int) int { return out + p.items[i].HandsOut + p.dur[bench][i] }
