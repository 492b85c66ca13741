package demo

import (
	"slices"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/model/air"
	"tubside/model/drying"
)

// Habits of a soak day. Invented, but for the minutes.
const (
	forgotten   = 0.03 // plants passed over
	lookedAt    = 0.2  // plants whose signs are noted, whatever they look like
	thorough    = 0.3  // mornings with time for tips and the drop of water
	badlyDry    = 0.65 // RWC under which even a plant in bloom is soaked
	limp        = 0.60 // RWC under which every plant but a fuzzy one has the long soak
	notShaken   = 0.06 // loads
	onTowels    = 30   // plants at most; more go onto the rack
	handMinutes = 0.25 // per plant put in
	dampRoom    = 8.0  // % that drying plants add to the humidity
	dampOpen    = 3.0  // the same with a window open
	putBack     = 0.12 // mornings on which a pulled plant is hung back unsoaked
)

// The three lengths of soak this grower knows, in minutes. Invented, near
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
	if p.happens(putBack) {
		p.tell(start.Add(p.minutes(2, 6)), &model.PutBack{}, turn[len(turn)-1])
		turn = turn[:len(turn)-1]
	}
	p.draws(start)
	fedToo := turn
	if p.bathsOn(d) {
		turn = p.bathe(start.Add(p.minutes(3, 7)), slices.Clone(turn))
	}
	p.soakAll(start.Add(p.minutes(8, 15)), turn)
	p.watch(d, fedToo)
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
// rot or a fresh wound never.
func (p *past) goesIn(l *life, d date.Date) bool {
	week := int(d)/7 + int(l.ID)
	resting := l.leaf == model.Xeric && l.form != model.Fuzzy && week%2 == 0 && !(p.scene.trip && d >= p.lastSoak()-1)
	waits := l.flowering() && l.water(p.clock(d, 9), p.weather) > badlyDry
	return l.rot.IsZero() && !resting && !waits && !l.healing(p.clock(d, 9)) && !p.happens(forgotten)
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
	damp := dampRoom
	if p.open {
		damp = dampOpen
	}
	over := p.breath(out, damp)
	how := model.Out{Shaken: !p.happens(notShaken),
		Inverted: load[0].form == model.Bulbous || load[0].form == model.Tank}
	how.Bench = "towels"
	if len(load) > onTowels {
		how.Bench = "rack"
	}
	p.tell(out, &how, load...)
	for _, l := range load {
		l.comeOut(out, l.staysWet(p.rng, over, how), over, p.weather)
		if l.sentinel && p.happens(weighedWet) {
			p.weigh(out.Add(p.minutes(1, 3)), l, true)
		}
	}
}

// breath is the air over wet leaves, damper by some % than outside of what dries
// in it.
func (p *past) breath(at time.Time, damp float64) drying.Stream {
	d := p.weather.at(at)
	return drying.Stream{Air: air.Air{TempC: d.tempC, RH: min(d.rh+damp, 95) / 100}, Speed: speedOf[p.fan]}
}

// wets mists plants, with water or feed.
func (p *past) wets(at time.Time, lives []*life) {
	over := p.breath(at, 0)
	for _, l := range lives {
		l.mist(at, over, p.weather)
	}
}

var speedOf = map[model.Fan]float64{
	model.FanOff: drying.Off, model.FanLow: drying.Low, model.FanOn: drying.On, model.FanNear: drying.Near,
}
