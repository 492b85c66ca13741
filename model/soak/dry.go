package soak

import (
	"cmp"
	"math"
	"slices"
)

// rack is room that plants take while they dry. They are laid on it in the order
// in which they come out of the water, so that it is never fuller later than at
// the time of the last: room at that time is room until the plant is dry.
type rack struct {
	room  float64
	taken float64   // by now
	freed []float64 // in each piece of time to come
}

func (r *rack) reset(room float64, pieces int) {
	r.room, r.taken = room, 0
	r.freed = append(r.freed[:0], make([]float64, pieces)...)
}

func (r *rack) has(room float64) bool { return r.taken+room <= r.room+slack }

func (r *rack) add(until int, room float64) {
	r.taken += room
	r.freed[until] += room
}

func (r *rack) remove(until int, room float64) { r.add(until, -room) }

// place is where and until when a plant dries; for one that has no place, how many
// s too late it would be dry, and why.
type place struct {
	bench, dry int // bench is -1 for no place
	why        Why
}

// laid is a plant that the hands lay down.
type laid struct{ at, item, dryBy int }

// drying is the benches of a day, and the room that they stand in.
type drying struct {
	p      *problem
	racks  []rack
	crowd  rack
	bounds bool // there is a limit at all
	now    int  // piece of time
	loads  []int
	order  []laid
	places []place // by item
	gone   []bool  // items that found no place, by item
	missed int     // how many
	lost   int64   // and what they weigh
	wet    []int   // items that lie on a bench
	peak   float64
}

func (d *drying) reset() {
	p := d.p
	pieces := (p.end-p.start)/p.piece + 2 + p.spare
	d.bounds = p.Room != nil
	for len(d.racks) < len(p.benches) {
		d.racks = append(d.racks, rack{})
	}
	for b := range p.benches {
		d.bounds = d.bounds || !math.IsInf(p.benches[b].Room, 1)
		d.racks[b].reset(p.benches[b].Room, pieces)
	}
	d.crowd.reset(float64(p.atOnce), pieces)
	d.now, d.peak, d.missed, d.lost = 0, 0, 0, 0
	for _, t := range p.Drying {
		if from := d.piece(t.From); from > 0 {
			d.lies(t.Bench, from, d.piece(t.Until)+p.spare, t.Room)
			continue
		}
		d.add(t.Bench, t.Until, t.Room)
	}
	if len(d.gone) < len(p.items) {
		d.gone = make([]bool, len(p.items))
		d.places = make([]place, len(p.items))
	}
}

// piece is the piece of time that holds a moment.
func (d *drying) piece(t int) int {
	return min(max(0, t-d.p.start)/d.p.piece, (d.p.end-d.p.start)/d.p.piece)
}

func (d *drying) add(bench, until int, room float64) {
	at := d.piece(until) + d.p.spare
	if at <= d.now {
		return
	}
	d.racks[bench].add(at, room)
	d.crowd.add(at, 1)
	d.peak = max(d.peak, d.crowd.taken)
}

// lies has a plant lie on a bench between two pieces of time to come.
func (d *drying) lies(bench, from, until int, room float64) {
	d.racks[bench].freed[from] -= room
	d.racks[bench].freed[until] += room
	d.crowd.freed[from]--
	d.crowd.freed[until]++
}

// goOn lets time pass until a moment.
func (d *drying) goOn(t int) {
	for to := d.piece(t); d.now < to; {
		d.now++
		for b := range d.p.benches {
			d.racks[b].taken -= d.racks[b].freed[d.now]
		}
		d.crowd.taken -= d.crowd.freed[d.now]
		d.peak = max(d.peak, d.crowd.taken)
	}
}

// lay gives every plant of a schedule with times a place to dry, in the order in
// which they come out; it reports how many found none, and false if they weigh
// more than may be lost, or if more dry at once than the times are for.
func (d *drying) lay(f *schedule, c *clock, mayLose int64) (missed int, ok bool) {
	d.reset()
	d.line(f, c)
	for k, o := range d.order {
		d.goOn(o.at)
		i := o.item
		d.places[i] = d.find(i, o.at, o.dryBy)
		switch {
		case d.places[i].bench >= 0:
		case i >= d.p.n:
			d.squeeze(k)
		default:
			d.lose(i)
		}
		if d.lost > mayLose {
			break
		}
	}
	if d.lost > mayLose || d.crowded() {
		clear(d.gone)
		return d.missed, false
	}
	return d.missed, true
}

func (d *drying) lose(i int) {
	d.gone[i] = true
	d.missed++
	d.lost += d.p.weight[i]
}

// crowded reports whether more dried at once than the times are for.
func (d *drying) crowded() bool { return d.p.Room != nil && d.peak > d.crowd.room }

// line puts the plants in the order in which the hands lay them down.
func (d *drying) line(f *schedule, c *clock) {
	d.loads = d.loads[:0]
	for l := range f.loads {
		d.loads = append(d.loads, l)
	}
	slices.SortFunc(d.loads, func(a, b int) int { return cmp.Or(cmp.Compare(c.loads[a].out, c.loads[b].out), a-b) })
	d.order = d.order[:0]
	sorted := true
	for _, l := range d.loads {
		t := c.loads[l].out
		dryBy := d.p.hoursAt(t).DryBy
		for _, i := range f.loads[l].items {
			h := &d.p.items[i].Hands
			t += h.Out + h.Lay
			sorted = sorted && (len(d.order) == 0 || d.order[len(d.order)-1].at <= t)
			d.order = append(d.order, laid{t, i, dryBy})
		}
	}
	if !sorted { // two pairs of hands
		slices.SortStableFunc(d.order, func(a, b laid) int { return cmp.Compare(a.at, b.at) })
	}
}

// find is the first bench, in the problem's order, that has a plant laid on it at
// a time dry by an hour, and room for it.
func (d *drying) find(i, t, dryBy int) place {
	none := place{-1, never, DryTooLate}
	for _, b := range d.p.order {
		dry := t + d.p.dries[b][i]
		switch {
		case dry > dryBy:
			none.dry = min(none.dry, dry-dryBy)
			continue
		case d.bounds && !d.racks[b].has(d.p.items[i].BenchRoom):
			none.why = BenchesTaken
			continue
		case d.p.Room != nil && !d.crowd.has(1):
			none.why = RoomTaken
			continue
		}
		if d.bounds {
			d.add(b, dry, d.p.items[i].BenchRoom)
		}
		return place{b, dry, 0}
	}
	return none
}

// squeeze lays a plant that was in the water when the session began on the best bench: it
// has to come out. Those of the session that lie there give way to it, the least worth first.
func (d *drying) squeeze(k int) {
	o, best := d.order[k], 0
	for b := range d.p.benches {
		if d.p.dries[b][o.item] < d.p.dries[best][o.item] {
			best = b
		}
	}
	rack, room := &d.racks[best], d.p.items[o.item].BenchRoom
	wet, theirs := d.wet[:0], 0.0
	for _, x := range d.order[:k] {
		if at := d.places[x.item]; x.item < d.p.n && !d.gone[x.item] && d.piece(at.dry)+d.p.spare > d.now {
			wet = append(wet, x.item)
			if at.bench == best {
				theirs += d.p.items[x.item].BenchRoom
			}
		}
	}
	d.wet = wet
	slices.SortStableFunc(wet, func(x, y int) int { return cmp.Compare(d.p.weight[x], d.p.weight[y]) })
	if rack.taken-theirs+room <= rack.room+slack {
		for n := 0; n < len(wet) && !rack.has(room); n++ {
			if d.places[wet[n]].bench == best {
				d.giveWay(wet[n])
			}
		}
	}
	for n := 0; d.p.Room != nil && !d.crowd.has(1) && n < len(wet); n++ {
		if !d.gone[wet[n]] {
			d.giveWay(wet[n])
		}
	}
	at := place{bench: best, dry: o.at + d.p.dries[best][o.item]}
	switch {
	case at.dry > o.dryBy:
		at.why = DryTooLate
	case !rack.has(room):
		at.why = BenchesTaken
	}
	d.add(best, at.dry, room)
	d.places[o.item] = at
}

// giveWay takes a plant that lies on a bench off it.
func (d *drying) giveWay(i int) {
	at := d.places[i]
	until := d.piece(at.dry) + d.p.spare
	d.racks[at.bench].remove(until, d.p.items[i].BenchRoom)
	d.crowd.remove(until, 1)
	d.places[i] = place{-1, never, RoomTaken}
	d.lose(i)
}
