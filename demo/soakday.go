package demo

import (
	"slices"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/model/air"
	"tubside/model/care"
	"tubside/model/drying"
)

// Habits of a soak day. Our own, but for the minutes.
const (
	forgotten   = 0.03 // plants passed over
	lookedAt    = 0.2  // plants whose signs are noted, whatever they look like
	thorough    = 0.3  // mornings with time for tips and the drop of water
	badlyDry    = 0.65 // RWC under which even a plant in bloom is soaked
	limp        = 0.60 // RWC under which every plant but a fuzzy one has the long soak
	notShaken   = 0.06 // loads
	refill      = 6.0  // minutes between two loads in one vessel
	handMinutes = 0.25 // per plant put in
	dampRoom    = 8.0  // % that drying plants add to the humidity
)

// The three lengths of soak this grower knows, in minutes. Our own, near
// growers' habits.
const (
	brief = 20
	usual = 75
	long  = 150
)

// soakMinutes is this grower's rule: brief for fuzz, usual for what rots or
// needs little, long for the rest and for whatever hangs limp.
func (l *life) soakMinutes(now time.Time, w *weather) float64 {
	held := l.form == model.Bulbous || l.form == model.Tank || l.form == model.Pendent || l.leaf == model.Xeric
	switch {
	case l.form == model.Fuzzy:
		return brief
	case held && l.water(now, w) > limp:
		return usual
	}
	return long
}

// soakDay lives one morning at the tub and the drying that follows.
func (p *past) soakDay(d date.Date) {
	start := p.clock(d, 8.75).Add(p.minutes(0, 50))
	turn := p.here(func(l *life) bool { return soakedFirst(l.Home.Shelf) == (d.Weekday() == p.firstMorning(d)) })
	p.flowers(start.Add(-14*time.Minute), turn)
	p.rots(start.Add(-13*time.Minute), turn)
	turn = slices.DeleteFunc(turn, func(l *life) bool { return !p.goesIn(l, d) })
	p.look(start.Add(-12*time.Minute), turn, lookedAt, p.happens(thorough))
	p.tell(start, &model.Pull{}, turn...)
	p.soakAll(start.Add(p.minutes(8, 15)), turn)
	p.watch(d, turn)
}

// firstMorning is the weekday of the first of the two mornings d is one of.
func (p *past) firstMorning(d date.Date) time.Weekday {
	if last := p.lastSoak(); d >= last-1 {
		return (last - 1).Weekday()
	}
	return time.Saturday
}

// goesIn reports whether a plant is soaked on its morning: xeric ones without
// fuzz every other week and before a trip, in bloom only when badly dry, with
// rot never.
func (p *past) goesIn(l *life, d date.Date) bool {
	week := int(d)/7 + int(l.ID)
	resting := l.leaf == model.Xeric && l.form != model.Fuzzy && week%2 == 0 && !(p.scene.trip && d >= p.lastSoak()-1)
	waits := !l.bloom.IsZero() && l.water(p.clock(d, 9), p.weather) > badlyDry
	return l.rot.IsZero() && !resting && !waits && !p.happens(forgotten)
}

// look notes signs for a share of the plants, drawn without regard to how they
// look. Plants with the same grades share a line.
func (p *past) look(at time.Time, lives []*life, share float64, closely bool) {
	alike := map[model.Signs][]*life{}
	var order []model.Signs
	for _, l := range lives {
		if !p.happens(share) {
			continue
		}
		s := l.signs(p.rng, at, p.weather, closely)
		if alike[s] == nil {
			order = append(order, s)
		}
		alike[s] = append(alike[s], l)
	}
	for i, s := range order {
		p.tell(at.Add(time.Duration(i)*40*time.Second), &model.Look{Signs: s}, alike[s]...)
	}
}

// soakAll takes plants through the vessels, the long soaks first.
func (p *past) soakAll(start time.Time, turn []*life) {
	tubs := &tubs{past: p, free: make([]time.Time, len(p.vessels)), hands: start}
	queues := map[float64][]*life{}
	for _, l := range turn {
		minutes := l.soakMinutes(start, p.weather)
		queues[minutes] = append(queues[minutes], l)
	}
	for _, minutes := range []float64{long, usual, brief} {
		for queue := queues[minutes]; len(queue) > 0; {
			queue = queue[tubs.fill(queue, minutes):]
		}
	}
}

// tubs is the vessels on a soak day, and the one pair of hands.
type tubs struct {
	*past
	free  []time.Time // when each vessel is empty and filled again
	hands time.Time   // when the hands are
}

// fill puts as many plants as there is room for into the next vessel, and takes
// them out again in time. It gives how many.
func (t *tubs) fill(queue []*life, minutes float64) int {
	v, in := t.nextVessel(queue[0])
	n := fits(queue, t.vessels[v].Litres)
	t.soak(in, t.vessels[v].Name, in.Add(minutesOf(minutes)), queue[:n])
	out := in.Add(minutesOf(minutes + t.late(minutes)))
	t.takeOut(out, queue[:n])
	t.hands = in.Add(minutesOf(float64(n) * handMinutes))
	t.free[v] = out.Add(minutesOf(refill))
	return n
}

func minutesOf(m float64) time.Duration { return time.Duration(m * float64(time.Minute)) }

// nextVessel is the vessel that is free first and has room for a plant, and
// when. The first, the largest, takes what fits nowhere.
func (t *tubs) nextVessel(l *life) (best int, in time.Time) {
	best = -1
	for v, vessel := range t.vessels {
		at := t.hands
		if t.free[v].After(at) {
			at = t.free[v]
		}
		if v > 0 && care.Bulk(l.Plant) > vessel.Litres {
			continue
		}
		if best < 0 || at.Before(in) {
			best, in = v, at
		}
	}
	return best, in
}

// fits is how many of the queue find room together, at least one.
func fits(queue []*life, litres float64) int {
	for i, l := range queue {
		if litres -= care.Bulk(l.Plant); litres < 0 && i > 0 {
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

// soak puts a load into a vessel.
func (p *past) soak(in time.Time, vessel string, due time.Time, load []*life) {
	p.tell(in, &model.Soak{Load: p.load, Vessel: vessel, Due: due.Truncate(time.Second).UTC()}, load...)
	p.load++
	for _, l := range load {
		l.goIn(in, p.weather)
	}
}

// takeOut takes plants out of the water and lays them out to dry.
func (p *past) takeOut(out time.Time, load []*life) {
	d := p.weather.at(out)
	room := air.Air{TempC: d.tempC, RH: min(d.rh+dampRoom, 95) / 100}
	power := drying.PowerOf(drying.Stream{Air: room, Speed: speedOf[p.fan]}, drying.TypicalLeafWidthM)
	how := model.Out{Shaken: !p.happens(notShaken), Inverted: load[0].form == model.Bulbous}
	p.tell(out, &how, load...)
	for _, l := range load {
		l.comeOut(out, l.staysWet(p.rng, power, how), p.weather)
	}
}

var speedOf = map[model.Fan]float64{
	model.FanOff: drying.Off, model.FanLow: drying.Low, model.FanOn: drying.On, model.FanNear: drying.Near,
}
