package soak

import (
	"math"
	"slices"
)

// mostPasses ends the search for a load's times. Each pass moves at least one
// plant later; more passes than this happen only to loads that are about to
// fail.
const mostPasses = 10

// fit finds the earliest times for a load of plants, in their order, in a
// vessel that stands ready from a time on: all go in one after the other, then
// all come out in the same order, each within its window. The times are the
// least solution of constraints that only ever push later, found by pushing
// until nothing moves.
func (d *day) fit(items []int, ready int) bool { return d.fitAfter(items, nil, ready) }

// fitAfter is the same for a load of which the first plants lie in the water
// since the given times.
func (d *day) fitAfter(items, since []int, ready int) bool {
	d.load.sized(len(items))
	d.load.lying = copy(d.load.in, since)
	if k := d.tooMany(items); k > 0 && len(since) == 0 {
		d.load.excess = k
		return false
	}
	for k := range items {
		d.load.lb[k] = ready
	}
	for pass := 0; pass < mostPasses; pass++ {
		d.work += len(items)
		if !d.goIn(items) || !d.comeOut(items) {
			return false
		}
		if !d.overstay(items) {
			return true
		}
		if d.load.stuck() {
			break
		}
	}
	d.load.excess = 1
	return false
}

// sized makes the trial ready for n plants.
func (t *trial) sized(n int) {
	for _, list := range []*[]int{&t.in, &t.out, &t.lb, &t.bench, &t.hour} {
		*list = slices.Grow((*list)[:0], n)[:n]
	}
	t.excess, t.slow = 1, -1
}

// tooMany is by how many plants, roughly, the load is too large for the windows
// of its own plants even if the hands do nothing else; 0 if it is not.
func (d *day) tooMany(items []int) int {
	work, most := 0, 0 // of hands between a plant's going in and coming out
	for _, i := range items {
		work += d.p.items[i].HandsIn
	}
	for _, i := range items {
		it := &d.p.items[i]
		if over := work - it.To; over > 0 {
			most = max(most, over/(it.HandsIn+it.HandsOut)+1)
		}
		work += it.HandsOut - it.HandsIn
	}
	return min(most, len(items))
}

// goIn sets the times in, none before its bound; false if the hours end.
func (d *day) goIn(items []int) bool {
	t := d.load.lb[0]
	g := d.seek(t)
	for k, i := range items {
		if k < d.load.lying {
			continue
		}
		need := d.p.items[i].HandsIn
		if t, g = d.slot(g, max(t, d.load.lb[k]), need, true); g < 0 {
			d.load.excess, d.load.slow = len(items)-k, -1
			return false
		}
		d.load.in[k] = t
		t += need
	}
	d.load.end = t
	return true
}

// comeOut sets the times out, none before its plant's shortest soak; false if
// the hours end or a plant could not be dry in time.
func (d *day) comeOut(items []int) bool {
	t := d.load.end
	g := d.seek(t)
	clear(d.load.own)
	d.load.laid = 0
	for k, i := range items {
		it := &d.p.items[i]
		out, bench, at := d.outSlot(i, max(t, d.load.in[k]+it.From), g)
		if at < 0 {
			d.load.excess = len(items) - k
			return false
		}
		g, t = at, out+it.HandsOut
		d.load.out[k], d.load.bench[k], d.load.hour[k] = out, bench, d.gaps[at].hour
		d.load.own[bench] += it.BenchRoom
		d.load.laid += d.p.rows[i]
	}
	d.load.end = t
	return true
}

// outSlot is the earliest time from t on, looking from gap g on, at which a
// plant can come out: the hands are free, a bench and the room have room, and
// it dries in time. The gap is -1 if there is none.
func (d *day) outSlot(i, t, g int) (out, bench, at int) {
	need := d.p.items[i].HandsOut
	d.load.slow = -1
	for {
		if out, at = d.slot(g, t, need, false); at < 0 {
			return 0, 0, -1
		}
		bench, again := d.benchFor(i, out, d.hours[d.gaps[at].hour].DryBy)
		if bench >= 0 {
			return out, bench, at
		}
		d.load.slow = i
		if again < math.MaxInt {
			t, g = again, at
		} else if g = d.pastDryBy(at); g == len(d.gaps) {
			return 0, 0, -1
		}
	}
}

// benchFor is the first bench that has room for the plant and dries it in time.
// If there is none it says when to ask again, math.MaxInt for not before a later
// dry-by hour.
func (d *day) benchFor(i, out, dryBy int) (bench, again int) {
	again = math.MaxInt
	for _, b := range d.p.order {
		dry := d.p.dry(b, i, out)
		if dry > dryBy {
			continue
		}
		ok, next := d.racks[b].fits(out, dry, d.p.items[i].BenchRoom+d.load.own[b])
		if ok {
			if ok, next = d.crowd.fits(out, dry, float64(d.load.laid+d.p.rows[i])); ok {
				return b, 0
			}
		}
		again = min(again, next)
	}
	return -1, again
}

// stuck reports whether a plant would soak too long that lies in the water
// already.
func (t *trial) stuck() bool {
	for k := range t.lying {
		if t.lb[k] > t.in[k] {
			return true
		}
	}
	return false
}

// overstay moves the bounds of plants that would soak too long to later times;
// false if there are none.
func (d *day) overstay(items []int) bool {
	moved := false
	for k, i := range items {
		if latest := d.load.out[k] - d.p.items[i].To; latest > d.load.in[k] {
			d.load.lb[k] = latest
			moved = true
		}
	}
	return moved
}

// lighten takes plants off a load that did not fit: the one whose drying is to
// blame, or else those with the least thirst for the hands' time.
func (d *day) lighten(items []int) []int {
	if at := slices.Index(items, d.load.slow); d.load.slow >= 0 && at >= 0 {
		return slices.Delete(items, at, at+1)
	}
	for range max(1, d.load.excess/2) {
		worst := 0
		for k := range items {
			if d.p.worth(items[k]) <= d.p.worth(items[worst]) {
				worst = k
			}
		}
		items = slices.Delete(items, worst, worst+1)
		if len(items) == 0 {
			break
		}
	}
	return items
}

// worth is the thirst served for each second of hands.
func (p *problem) worth(i int) float64 {
	it := &p.items[i]
	return it.Thirst / float64(it.HandsIn+it.HandsOut)
}
