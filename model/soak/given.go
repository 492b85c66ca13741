package soak

import (
	"cmp"
	"slices"
)

// lying is one plant of a given load.
type lying struct {
	load, place int
	item        int // in problem.items
	in          int
	latest      int // to come out, so that neither it nor one behind it soaks too long
	placed      Placed
}

// placeGiven plans the way out of the loads that are in the water already,
// before anything else, most urgent first. They come out even where a rule
// cannot be kept, and are then late.
func (d *day) placeGiven() []Late {
	queue := d.p.lyingInWater()
	slices.SortStableFunc(queue, func(a, b lying) int { return cmp.Compare(a.latest, b.latest) })
	done := make([]int, len(d.p.s.Given)) // when the hands are done with the last one of each load
	for l := range done {
		done[l] = d.p.start
	}
	var late []Late
	for q := range queue {
		y := &queue[q]
		l, isLate := d.forceOut(y, max(done[y.load], y.in+d.p.items[y.item].From))
		done[y.load] = y.placed.Out + d.p.items[y.item].HandsOut
		if isLate {
			late = append(late, l)
		}
	}
	d.recordGiven(queue, done)
	return late
}

// lyingInWater lists the plants of given loads in order.
func (p *problem) lyingInWater() []lying {
	var queue []lying
	item := p.n
	for l, g := range p.s.Given {
		first := len(queue)
		for k := range g.Items {
			queue = append(queue, lying{load: l, place: k, item: item, in: g.In[k], latest: g.In[k] + g.Items[k].To})
			item++
		}
		for q := len(queue) - 2; q >= first; q-- {
			queue[q].latest = min(queue[q].latest, queue[q+1].latest)
		}
	}
	return queue
}

// forceOut takes one plant out at the earliest time from t on that keeps the
// rules, else at the earliest time that has hands, else at t.
func (d *day) forceOut(y *lying, t int) (Late, bool) {
	it := &d.p.items[y.item]
	clear(d.load.own)
	d.load.laid = 0
	out, bench, g := d.outSlot(y.item, t, d.seek(t))
	if soonest, at := d.slot(d.seek(t), t, it.HandsOut, false); g < 0 || out > max(y.latest, soonest) {
		out, g = soonest, at
		bench = d.p.slowest[len(d.p.slowest)-1]
	}
	l := Late{ID: it.ID}
	if g < 0 {
		out, l.NoHands = t, true
	} else {
		hours := d.hours[d.gaps[g].hour]
		l.NotDry = max(0, d.p.dry(bench, y.item, out)-hours.DryBy)
		if !hours.OutOnly {
			d.free = max(d.free, out+it.HandsOut)
		}
		d.take(out, it.HandsOut)
	}
	l.Over = max(0, out-y.in-it.To)
	dry := d.p.dry(bench, y.item, out)
	ok, _ := d.racks[bench].fits(out, dry, it.BenchRoom)
	l.NoBench = !ok
	d.racks[bench].add(out, dry, it.BenchRoom)
	d.crowd.add(out, dry, 1)
	d.racks[bench].sum()
	d.crowd.sum()
	y.placed = Placed{Item: *it, Index: -1, In: y.in, Out: out, Dry: dry, Bench: bench}
	return l, l.NoHands || l.NoBench || l.Over > 0 || l.NotDry > 0
}

// recordGiven writes the given loads down and leaves their vessels as they
// will be when they are out.
func (d *day) recordGiven(queue []lying, done []int) {
	for l, g := range d.p.s.Given {
		t, first := &d.tubs[g.Vessel], &g.Items[0]
		t.ready = done[l]
		if d.p.s.Vessels[g.Vessel].Water == nil {
			t.loads, t.since, t.worst = 1, g.In[0], first.Company
		}
		company := first.Company
		for k := range g.Items {
			company = max(company, g.Items[k].Company)
		}
		t.worst = max(t.worst, company)
		t.water = t.worst != Sick
		d.loads = append(d.loads, Load{Vessel: g.Vessel, Start: g.In[0], End: done[l], Ready: g.In[0],
			Company: company, Fed: first.Fed, Given: true, Plants: make([]Placed, len(g.Items))})
	}
	for _, y := range queue {
		d.loads[y.load].Plants[y.place] = y.placed
	}
	for l := range d.loads {
		d.loads[l].Out = d.loads[l].Plants[0].Out
	}
}
