package demo

import (
	"time"

	"tubside/model"
	"tubside/model/estimate"
)

// tubs is the vessels on a soak day, and the one pair of hands.
type tubs struct {
	*past
	holds []filled  // by vessel
	hands time.Time // when the hands are free
}

// filled is what stands in a vessel.
type filled struct {
	loads   int       // that this filling served; 0 it is empty
	first   time.Time // when its first plant went in
	free    time.Time // since when no load is in it
	company model.Health
}

// errand is the loads that may share their water and their minutes.
type errand struct {
	company model.Health
	minutes float64
}

// apartBucket is the vessel for whatever must not share the water of the rest.
const apartBucket = 2

// soakAll takes plants through the vessels: the cleanest company first, and of
// each the long soaks first; what must keep apart, and so comes late, has none of
// these. Then all are emptied.
func (p *past) soakAll(start time.Time, turn []*life) {
	t := &tubs{past: p, holds: make([]filled, len(p.vessels)), hands: start}
	queues := map[errand][]*life{}
	for _, l := range turn {
		e := errand{l.company(start), l.soakMinutes(start, p.weather)}
		if e.company > model.Sound {
			e.minutes = min(e.minutes, usual)
		}
		queues[e] = append(queues[e], l)
	}
	for _, company := range []model.Health{model.Sound, model.Newcomer, model.Suspect, model.Sick} {
		for _, minutes := range []float64{long, usual, brief} {
			e := errand{company, minutes}
			for queue := queues[e]; len(queue) > 0; {
				queue = queue[t.fill(queue, e):]
			}
		}
	}
	t.drain()
}

// fill puts as many plants as there is room for into the next vessel, and takes
// them out again in time. It gives how many.
func (t *tubs) fill(queue []*life, e errand) int {
	v, in := t.nextVessel(queue[0], e.company)
	w, vessel := &t.holds[v], t.vessels[v]
	if t.stale(v, e.company, in) {
		t.pours(in.Add(-time.Minute), vessel.Name, w.loads == 0)
		*w = filled{first: in, company: e.company}
	}
	n := fits(queue, vessel.Litres)
	t.soak(in, vessel.Name, in.Add(minutesOf(e.minutes)), queue[:n])
	w.free = in.Add(minutesOf(e.minutes + t.late(e.minutes)))
	w.loads++
	t.takeOut(w.free, queue[:n])
	t.hands = in.Add(minutesOf(float64(n) * handMinutes))
	return n
}

func minutesOf(m float64) time.Duration { return time.Duration(m * float64(time.Minute)) }

// stale reports whether a vessel must be filled afresh for a load: by the house
// rules, and so that nobody shares the water of worse company.
func (t *tubs) stale(v int, company model.Health, in time.Time) bool {
	w := t.holds[v]
	return w.loads == 0 || w.loads >= house.LoadsToFill(t.vessels[v]) || company >= model.Suspect ||
		company != w.company ||
		in.Sub(w.first).Hours() > house.HoursToFill(t.vessels[v])
}

// sameWater is the minutes between two loads in the same water. Invented.
const sameWater = 3.0

// nextVessel is the vessel that is ready first and has room for a plant, and
// when. The first, the largest, takes what fits nowhere; what must keep apart has
// a bucket of its own.
func (t *tubs) nextVessel(l *life, company model.Health) (best int, in time.Time) {
	if company > model.Sound {
		return apartBucket, t.ready(apartBucket, company)
	}
	best = -1
	for v, vessel := range t.vessels {
		if v == apartBucket || v > 0 && estimate.Bulk(l.Plant) > vessel.Litres {
			continue
		}
		if at := t.ready(v, company); best < 0 || at.Before(in) {
			best, in = v, at
		}
	}
	return best, in
}

// ready is when a vessel can take a load: when the hands are free and it is
// empty, rinsed and filled where it must be.
func (t *tubs) ready(v int, company model.Health) time.Time {
	w := t.holds[v]
	if w.loads == 0 {
		return t.hands
	}
	at := later(t.hands, w.free.Add(minutesOf(sameWater)))
	if t.stale(v, company, at) {
		at = later(t.hands, w.free.Add(minutesOf(house[model.Rinse]+house.FillMinutes(t.vessels[v]))))
	}
	return at
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

// drain empties whatever was filled, once its last load is out.
func (t *tubs) drain() {
	for v, w := range t.holds {
		if w.loads > 0 {
			t.say(w.free.Add(t.minutes(1, 5)), &model.Drain{Vessel: t.vessels[v].Name})
		}
	}
}

// fits is how many of the queue find room together, at least one.
func fits(queue []*life, litres float64) int {
	for i, l := range queue {
		if litres -= estimate.Bulk(l.Plant); litres < 0 && i > 0 {
			return i
		}
	}
	return len(queue)
}

// late is how many minutes past due a load comes out: mostly few, at times
// many, fewer with a short soak that one stands beside.
func (p *past) late(minutes float64) float64 {
	short := min(1, minutes/60)
	switch x := p.rng.Float64(); {
	case x < 0.65:
		return short * 4 * p.rng.Float64()
	case x < 0.92:
		return short * (5 + 15*p.rng.Float64())
	}
	return short * (20 + 40*p.rng.Float64())
}
