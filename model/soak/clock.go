package soak

import (
	"slices"
)

// clock gives a schedule its times: the hands do their work in the schedule's order,
// each piece as early as may be, and slide later where a window asks for it.
type clock struct {
	p     *problem
	lag   int // s that each piece of work but the first is begun late
	first int // s that the first one is
	loads []timed
	tubs  []tub
	taps  []int // when each tap is free
	hands []int // when each pair is free
	free  int   // end of the last work outside hours that only take out
	late  int   // s for each plant that given loads stay in too long, and s that they keep the hands past their hours
	due   int   // s that given loads whose time is up stay in
	fault fault // why the last schedule found no times
	empty []int // loads that are out, whose water waits for others to come out

	noEnd   bool // what is not in yet comes out in hours for what is
	staysOn bool // only windows count: hours have no end, and what is out dries in time
}

// timed is the times of one load.
type timed struct {
	pull, in, out int // the hands start
	pulled, end   int // they are done
	pair          [GetOut + 1]int8
	fill          int  // number of its fill
	pour, tap     int  // its filling starts, at a tap; of meaning while fresh
	drainer       int8 // the pair that does the next
	drain         int  // before that, the hands let out what stood in the vessel from before; of meaning while stale
	fresh, stale  bool
	must          bool // water that others used would be too old for it
	last          bool // of its fill: the water is let out after it
	rinse         int  // the hands do so then; of meaning while last
	rinser        int8 // the pair that does it
	heap          int
	after         int // it goes in no earlier
}

// tub is what has become of one vessel.
type tub struct {
	free  int // the hands were last at it
	ready int // it stands filled
	since int // its water's first plant went in
	loads int // served by its water
	fill  int
	worst Company
	water bool // it stands filled with water that may be used
	stale bool // it stands filled from before, with nothing in it
	in    []int
	out   int // the load that came out of it last; -1 for none of this fill
}

// fault is what keeps a schedule from having times.
type fault struct {
	load int
	why  Why
}

// time finds the times of a schedule; false when there are none, with the fault.
func (c *clock) time(d *schedule) bool {
	c.loads = append(c.loads[:0], make([]timed, len(d.loads))...)
	for l := range d.loads {
		c.loads[l].after = c.p.start
		if d.loads[l].low > d.loads[l].high {
			c.fault = fault{l, HandsTaken}
			return false
		}
	}
	for range 4*len(d.loads) + 4 {
		if !c.waters(d) {
			return false
		}
		ok, again := c.pass(d)
		if !ok || !again {
			return ok
		}
	}
	return false
}

// pullLate has the hands pull each load as late as nothing else waits for it: what is pulled
// stands on the floor.
func (c *clock) pullLate(d *schedule) {
	next := slices.Repeat([]int{never}, len(c.p.pairs)) // when each pair has something to do
	for _, v := range slices.Backward(d.order) {
		l, load := &c.loads[v.Load], &d.loads[v.Load]
		pair := l.pair[v.Do]
		switch v.Do {
		case GetOut:
			next[pair] = min(next[pair], l.out)
		case PutIn:
			next[pair] = min(next[pair], l.in)
		case Pull:
			if load.pull == 0 {
				continue
			}
			for _, s := range slices.Backward(c.p.pairs[pair]) {
				if from := min(next[pair], l.in, s.To) - load.pull; from >= max(s.From, l.pull) {
					l.pull, l.pulled = from, from+load.pull
					break
				}
			}
			next[pair] = min(next[pair], l.pull)
		}
	}
}

// pass gives times from the first piece of work to the last; again says that one
// has to slide, and all after it.
func (c *clock) pass(d *schedule) (ok, again bool) {
	c.reset()
	drained := false
	for n, visit := range d.order {
		l, load := &c.loads[visit.Load], &d.loads[visit.Load]
		due := visit.Do == GetOut && load.given > 0 && c.p.Session.Given[load.given-1].Due
		if !drained && !due && !c.presses(d, d.order[n:], c.hands[0], c.hands[0]+c.stale()) {
			if drained = true; !c.drain(d) {
				c.fault = fault{visit.Load, HandsTaken}
				return false, false
			}
		}
		switch visit.Do {
		case Pull:
			l.pull, ok = c.work(l, load, Pull, c.p.start, load.pull)
			l.pulled = l.pull + load.pull
		case PutIn:
			ok, again = c.putIn(l, load)
		case GetOut:
			if l.last {
				c.empty = append(c.empty, visit.Load)
			}
			ok, again = c.getOut(d, l, load, d.order[n+1:])
		}
		if !ok {
			c.fault = fault{visit.Load, HandsTaken}
		}
		if !ok || again {
			return ok, again
		}
	}
	return true, false
}

// drain has the hands let out what stands in a vessel from before, where the first load to go
// in there has fresh water; false when they have no time for it.
func (c *clock) drain(d *schedule) (ok bool) {
	for _, visit := range d.order {
		l, load := &c.loads[visit.Load], &d.loads[visit.Load]
		if t, v := &c.tubs[load.vessel], &c.p.Vessels[load.vessel]; visit.Do == PutIn && t.stale {
			t.stale = false
			if l.stale = l.fresh; !l.stale {
				continue
			}
			if l.drain, ok = c.work(l, load, PutIn, t.free, v.Rinse); !ok {
				return false
			}
			t.free, l.drainer = l.drain+v.Rinse, l.pair[PutIn]
		}
	}
	return true
}

// stale is for how many s the hands rinse what stands filled from before.
func (c *clock) stale() (s int) {
	for v := range c.tubs {
		if c.tubs[v].stale {
			s += c.p.Vessels[v].Rinse
		}
	}
	return s
}

func (c *clock) reset() {
	p := c.p
	c.free, c.late, c.due, c.empty = p.start, 0, 0, c.empty[:0]
	c.taps = append(c.taps[:0], make([]int, max(1, p.Taps))...)
	c.hands = append(c.hands[:0], make([]int, len(p.pairs))...)
	for i := range c.taps {
		c.taps[i] = p.start + p.Began
	}
	for i := range c.hands {
		c.hands[i] = p.start
	}
	c.hands[0] += p.Busy
	for v := range c.tubs {
		t := &c.tubs[v]
		t.free, t.ready, t.fill, t.stale = p.start, p.start, -1, false
		if w := p.Vessels[v].Water; w != nil {
			t.ready, t.fill, t.since, t.stale = max(p.start, w.Ready), 0, w.Since, w.Loads > 0
			if w.Loads == 0 {
				t.since = never
			}
			if tap := c.nextTap(); w.Ready > p.start+p.Began { // it runs there
				c.taps[tap] = max(c.taps[tap], w.Ready)
			}
		}
	}
	for l := range p.given {
		g := &p.given[l]
		c.tubs[g.vessel].stale = false
		if g.lying > 0 && c.tubs[g.vessel].fill < 0 {
			c.tubs[g.vessel].fill, c.tubs[g.vessel].since = 0, p.Session.Given[l].In[0]
		}
	}
}

func (c *clock) putIn(l *timed, load *load) (ok, again bool) {
	v, t := &c.p.Vessels[load.vessel], &c.tubs[load.vessel]
	if l.fresh && t.fill != l.fill {
		if l.pour, l.tap, ok = c.pour(t.free, v.Fill); !ok {
			return false, false
		}
		t.ready, t.fill, t.since = l.pour+v.Fill, l.fill, never
	}
	l.in, ok = c.work(l, load, PutIn, max(t.ready, t.free, l.pulled, l.after), load.in)
	if !ok || load.given > 0 {
		return ok, false
	}
	if t.since == never {
		t.since = l.in
	} else if v.LastIn > 0 && l.in-t.since > v.LastIn {
		l.must = true
		return true, true
	}
	return true, false
}

func (c *clock) getOut(d *schedule, l *timed, load *load, next []Visit) (ok, again bool) {
	from, need := load.from, load.out
	if len(load.items) > load.lying {
		from = max(from, l.in+load.low)
	}
	if l.last { // the water goes when the others are out, whoever takes them out
		from = max(from, c.tubs[load.vessel].free-load.out)
	}
	for _, m := range c.empty {
		need += c.p.Vessels[d.loads[m].vessel].Rinse
	}
	hands, free := [...]int{c.hands[0], c.hands[len(c.hands)-1]}, c.free
	l.out, ok = c.work(l, load, GetOut, from, need)
	if load.given > 0 {
		if alone := c.begun(max(from, c.p.start), hands[0]); !ok || l.out > load.to+noticed && alone < l.out { // no hours, or not in time: the hands come for it
			c.hands[0], c.hands[len(c.hands)-1], c.free = hands[0], hands[1], free
			l.out, ok = alone, true
			c.hands[0], l.pair[GetOut] = l.out+need, 0
			hours := c.p.pairs[0]
			c.late += max(0, l.out+need-hours[len(hours)-1].To)
		}
		if load.lying > 0 {
			c.late += load.tooLong(l.out)
			if c.p.Session.Given[load.given-1].Due {
				c.due += l.out - c.p.start - c.p.Busy
			}
		}
	}
	l.end = l.out + load.out
	if !ok {
		return false, false
	}
	if len(load.items) > load.lying && l.out > l.in+load.high {
		if load.given > 0 {
			return false, false
		}
		l.after = l.out - load.high
		return true, true
	}
	t := &c.tubs[load.vessel]
	if t.free = max(t.free, l.end); c.presses(d, next, l.end, l.out+need) {
		c.hands[l.pair[GetOut]] = l.end
		return true, false
	}
	at := l.end
	for _, m := range c.empty {
		v := d.loads[m].vessel
		c.loads[m].rinse, c.loads[m].rinser, at = at, l.pair[GetOut], at+c.p.Vessels[v].Rinse
		if c.tubs[v].free = max(c.tubs[v].free, at); d.loads[m].kind.company == Sick {
			c.tubs[v].free += c.p.Vessels[v].Rest
		}
	}
	c.empty = c.empty[:0]
	return true, false
}

// presses reports whether what comes out next would be in the water too long if the hands
// were to rinse first, from a time until another.
func (c *clock) presses(d *schedule, next []Visit, from, until int) bool {
	if from == until || len(next) == 0 || next[0].Do != GetOut || len(c.hands) > 1 {
		return false
	}
	l := &d.loads[next[0].Load]
	return l.lying > 0 && l.lying == len(l.items) && l.from < until && l.to < until
}

// tooLong is for how many s a given load stays in too long that comes out at a time, for
// each of its plants: hands then never wait for what is not due yet while something is.
func (l *load) tooLong(out int) int {
	if out <= l.to+noticed {
		return 0
	}
	return (out - l.to) * l.lying
}

// work finds the first time from t on at which a pair of hands has need seconds
// in one piece, and takes it. Nothing is begun in hours that only take out, nor goes
// on into them; what comes out may, but for what is not in yet into hours for what is.
func (c *clock) work(l *timed, load *load, do Do, t, need int) (int, bool) {
	if need == 0 {
		return max(t, c.p.start), true
	}
	best, at, begins, given := -1, never, do != GetOut, load.given > 0 || c.noEnd || c.staysOn
	for h, pair := range c.p.pairs {
		for k, s := range pair {
			from, to := max(c.begun(t, c.hands[h]), s.From), s.To
			if !begins || c.staysOn {
				to = pair.staysUntil(k, given)
			}
			if s.given && !given || from+need > to || from > s.To || begins && !c.staysOn && c.p.hoursAt(from).OutOnly {
				continue
			}
			if from < at {
				best, at = h, from
			}
			break
		}
	}
	if best < 0 {
		return 0, false
	}
	c.hands[best] = at + need
	l.pair[do] = int8(best)
	if !c.p.hoursAt(at).OutOnly {
		c.free = max(c.free, at+need)
	}
	return at, true
}

// begun is when something is begun that could be at a time, by hands or a tap that are
// free then.
func (c *clock) begun(t, free int) int {
	if free > c.p.start+max(c.p.Busy, c.p.Began) {
		return max(t, free) + c.lag
	}
	return max(t, free) + c.first
}

// nextTap is the tap that is free first.
func (c *clock) nextTap() (tap int) {
	for i := range c.taps {
		if c.taps[i] < c.taps[tap] {
			tap = i
		}
	}
	return tap
}

// pour finds the first time from t on at which a tap can run for need seconds
// while the hands are there to shut it, and takes it.
func (c *clock) pour(t, need int) (from, tap int, ok bool) {
	tap = c.nextTap()
	for _, h := range c.p.Hours {
		if from := max(c.begun(t, c.taps[tap]), h.From); from+need <= h.To {
			c.taps[tap] = from + need
			return from, tap, true
		}
	}
	return 0, 0, false
}
