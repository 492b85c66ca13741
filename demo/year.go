package demo

import (
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

// Habits of the invented grower. Our own.
const (
	noReading    = 0.22 // days nobody looks at the hygrometer
	twoReadings  = 0.2
	awayReading  = 0.7  // days of a trip on which the hygrometer logs by itself
	dryAir       = 40.0 // % humidity under which thirsty plants are misted midweek
	mistHour     = 19.0
	lastHours    = 12 // of the year that belong to the scene
	betweenSoaks = 4  // days, at least, before the last pair of soak mornings
)

// year lives the past from the day the list came in until the scene begins.
func (p *past) year() {
	first := p.today - yearDays
	p.open(first)
	odd := p.oddities(first + 1)
	for d := first + 1; d < date.NewAt(p.now.Add(-lastHours*time.Hour)); d++ {
		p.readings(d)
		if p.away(d) {
			continue
		}
		if p.soaksOn(d) {
			p.soakDay(d)
		}
		at := p.clock(d, 17)
		for _, happen := range odd[d] {
			at = at.Add(p.minutes(10, 50))
			happen(at)
		}
		if d.Weekday() == time.Wednesday && !p.soaksOn(d) {
			p.mistRound(d)
		}
		p.arrivals(d)
	}
}

// open brings in the grower's old list.
func (p *past) open(d date.Date) {
	at := p.clock(d, 18)
	list := &model.Import{File: "plants.csv"}
	for _, l := range p.lives {
		if l.newcomer {
			continue
		}
		days := 2 + p.rng.IntN(6)
		p.arrive(l, p.clock(d-date.Date(days), 17))
		if p.happens(0.8) {
			l.SoakedOn = d - date.Date(days)
		}
		list.Added = append(list.Added, l.Plant)
	}
	p.say(at, list)
	p.say(at.Add(p.minutes(5, 30)), &model.FanSet{Fan: p.fan})
}

// lastSoak is the second of the last two soak mornings before the scene.
func (p *past) lastSoak() date.Date { return p.today - date.Date(p.scene.daysSinceSoak) }

// soaksOn reports whether a day is a soak day: Saturday and Sunday, but the
// last two mornings are where the scene wants them.
func (p *past) soaksOn(d date.Date) bool {
	switch last := p.lastSoak(); {
	case d >= last-1:
		return d <= last
	case d >= last-betweenSoaks:
		return false
	}
	return d.Weekday() == time.Saturday || d.Weekday() == time.Sunday
}

// away reports whether the grower is on a trip.
func (p *past) away(d date.Date) bool { return p.scene.trip && d > p.lastSoak() }

// readings looks at the hygrometer, on most days.
func (p *past) readings(d date.Date) {
	if p.away(d) {
		if p.happens(awayReading) {
			p.reading(p.clock(d, 12))
		}
		return
	}
	if p.happens(noReading) {
		return
	}
	p.reading(p.clock(d, 7).Add(p.minutes(0, 90)))
	if p.happens(twoReadings) {
		p.reading(p.clock(d, 20).Add(p.minutes(0, 120)))
	}
}

func (p *past) reading(at time.Time) { p.say(at, p.weather.read(p.rng, at)) }

// arrivals adds the plants that came by the evening of a day.
func (p *past) arrivals(d date.Date) {
	var added []model.Plant
	at := p.clock(d, 20).Add(p.minutes(0, 60))
	for _, l := range p.lives {
		if !l.newcomer || l.ID != 0 || l.Acquired > d {
			continue
		}
		p.arrive(l, at.AddDate(0, 0, -3))
		if p.happens(0.5) {
			l.SoakedOn = d - 3
		}
		added = append(added, l.Plant)
	}
	if len(added) > 0 {
		p.say(at, &model.Add{Plants: added})
	}
}

// mistRound mists what blooms, and in dry air the thirstier plants too.
func (p *past) mistRound(d date.Date) {
	at := p.clock(d, mistHour).Add(p.minutes(0, 45))
	dry := p.weather.at(at).rh < dryAir
	p.tell(at, &model.Mist{}, p.here(func(l *life) bool {
		return !l.bloom.IsZero() || dry && (l.form == model.Wispy || l.leaf == model.Mesic && l.form != model.Tank)
	})...)
}
