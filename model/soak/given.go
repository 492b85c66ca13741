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
// before anything else, most urgent first, and what goes in with them. They come
// out even where a rule cannot be kept, and are then late.
func (d *day) placeGiven() []Late {
	for _, g := range d.p.s.Given {
		first := &g.Items[0]
		l := Load{Vessel: g.Vessel, Start: g.In[0], Ready: g.In[0], Company: first.Company, Fed: first.Fed, Given: true}
		l.Plants = make([]Placed, len(g.Items))
		d.loads = append(d.loads, l)
	}
	queue := d.p.lyingInWater()
	var whole []lying
	for _, y := range queue {
		if len(d.p.more[y.load]) == 0 {
			whole = append(whole, y)
		}
	}
	late := d.forceAll(whole)
	for l, more := range d.p.more {
		if len(more) == 0 {
			continue
		}
		own := slices.DeleteFunc(slices.Clone(queue), func(y lying) bool { return y.load != l })
		if !d.joinIn(l, own, more) {
			late = append(late, d.forceAll(own)...)
		}
	}
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

// joinIn puts more plants in with a given load of which none is out yet, as many
// of the first of them as can; false if none can.
func (d *day) joinIn(l int, own []lying, more []int) bool {
	g, load := &d.p.s.Given[l], &d.loads[l]
	var items []int
	for _, y := range own {
		if d.p.kind(y.item) != d.p.kind(own[0].item) {
			return false
		}
		items = append(items, y.item)
	}
	for _, i := range more {
		if d.p.kind(i) != d.p.kind(own[0].item) || !d.p.takes(g.Vessel, i) {
			break
		}
		items = append(items, i)
	}
	for ; len(items) > len(own); items = items[:len(items)-1] {
		if d.p.bulk(items) <= d.p.s.Vessels[g.Vessel].Room+slack && d.fitAfter(items, g.In, d.p.start) {
			break
		}
	}
	if len(items) == len(own) {
		return false
	}
	d.account(items)
	for k, i := range items {
		placed := d.placed(k, i)
		if k < len(own) {
			load.Plants[k] = placed
			load.Plants[k].Index = -1
			continue
		}
		d.p.joined[i] = true
		load.Plants = append(load.Plants, placed)
	}
	d.leave(l, d.load.end)
	return true
}

// forceAll takes plants of given loads out, most urgent first.
func (d *day) forceAll(queue []lying) (late []Late) {
	slices.SortStableFunc(queue, func(a, b lying) int { return cmp.Compare(a.latest, b.latest) })
	done := map[int]int{} // when the hands are done with the last one of each load
	for q := range queue {
		y := &queue[q]
		l, isLate := d.forceOut(y, max(done[y.load], d.p.start, y.in+d.p.items[y.item].From))
		done[y.load] = y.placed.Out + d.p.items[y.item].HandsOut
		d.loads[y.load].Plants[y.place] = y.placed
		if isLate {
			late = append(late, l)
		}
	}
	for l := range d.p.s.Given {
		if end, out := done[l]; out {
			d.leave(l, end)
		}
	}
	return late
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

// leave writes down that a given load is out by a time, and leaves its vessel as
// it then is.
func (d *day) leave(l, end int) {
	g, load := &d.p.s.Given[l], &d.loads[l]
	load.Out, load.End = load.Plants[0].Out, end
	t := &d.tubs[g.Vessel]
	t.ready = end
	if d.p.s.Vessels[g.Vessel].Water == nil {
		t.loads, t.since, t.worst = 1, g.In[0], load.Company
	}
	company := load.Company
	for k := range g.Items {
		company = max(company, g.Items[k].Company)
	}
	t.worst = max(t.worst, company)
	t.water = t.worst != Sick
}
