package demo

import (
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

// Habits of the invented grower. Invented.
const (
	noReading    = 0.22 // days nobody looks at the hygrometer
	twoReadings  = 0.2
	awayReading  = 0.7 // days of a trip on which the hygrometer logs by itself
	lastHours    = 12  // of the year that belong to the scene
	betweenSoaks = 4   // days, at least, before the last pair of soak mornings
)

// end is the day after the last one that is lived before the scene.
func (p *past) end() date.Date { return date.NewAt(p.now.Add(-lastHours * time.Hour)) }

// year lives the past from the day the list came in until the scene begins.
func (p *past) year() {
	first := p.today - yearDays
	p.begin(first)
	odd := p.oddities(first + 1)
	for d := first + 1; d < p.end(); d++ {
		p.airs(d)
		p.readings(d)
		p.logged(d)
		p.tellTrips(d)
		if p.away(d) {
			continue
		}
		if p.soaksOn(d) {
			p.soakDay(d)
		} else {
			p.rounds(d)
		}
		at := p.clock(d, 17)
		for _, happen := range odd[d] {
			at = at.Add(p.minutes(10, 50))
			happen(at)
		}
		p.arrivals(d)
	}
	p.open = false
	p.draws(p.now)
}

// begin brings in the grower's old list, and the house.
func (p *past) begin(d date.Date) {
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
		if p.happens(spentBefore) {
			p.spend(l, at.AddDate(0, 0, -p.rng.IntN(yearDays)))
		}
		list.Added = append(list.Added, l.Plant)
	}
	p.say(at, list)
	p.furnish(at.Add(p.minutes(5, 30)))
	p.chooseSentinels()
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

// readings looks at the hygrometer, on most days.
func (p *past) readings(d date.Date) {
	if p.away(d) {
		if p.happens(awayReading) {
			p.reading(p.clock(d, 12))
		}
		return
	}
	if p.loggedOn(d) || p.happens(noReading) {
		return
	}
	p.reading(p.clock(d, 7).Add(p.minutes(0, 90)))
	if p.happens(twoReadings) {
		p.reading(p.clock(d, 20).Add(p.minutes(0, 120)))
	}
}

func (p *past) reading(at time.Time) { p.say(at, p.weather.read(p.rng, at)) }
