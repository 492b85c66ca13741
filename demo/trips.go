package demo

import (
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

// journey is one trip, from the day of leaving to that of coming home.
type journey struct {
	leave, back date.Date
	note        string
}

// Journeys. Invented.
const (
	shortAgo  = 165 // days: a week's days away, between two soaks
	shortDays = 4
	longDays  = 9 // at least, where the scene does not begin with the return
	toldDays  = 2 // before leaving
	leaveHour = 10.0
	backHour  = 18.0
)

// journeys lists the trips of the year.
func (p *past) journeys() []journey {
	leave := monday(p.today - shortAgo)
	all := []journey{{leave, leave + shortDays, "nothing due before the weekend"}}
	switch {
	case p.scene.trip && p.scene.backAgo == 0:
		all = append(all, journey{p.lastSoak() + 1, p.today, "all soaked the day before; nobody comes in"})
	case p.scene.trip:
		back := p.today - date.Date(p.scene.backAgo)
		all = append(all, journey{monday(back - longDays), back, "soaked on the Sunday; nobody comes in"})
	}
	return all
}

// monday is the Monday on or before a day.
func monday(d date.Date) date.Date {
	for d.Weekday() != time.Monday {
		d--
	}
	return d
}

// away reports whether the grower is on a trip, the days of leaving and of
// coming home among them.
func (p *past) away(d date.Date) bool {
	for _, j := range p.trips {
		if j.leave <= d && d <= j.back {
			return true
		}
	}
	return false
}

// leavesSoon reports whether a long trip is so near that nothing is fed.
func (p *past) leavesSoon(d date.Date) bool {
	for _, j := range p.trips {
		if j.back-j.leave > shortDays && d <= j.leave && j.leave-d < noFeedBefore {
			return true
		}
	}
	return false
}

// tellTrips writes on a day that a trip is ahead, or that it is over.
func (p *past) tellTrips(d date.Date) {
	for _, j := range p.trips {
		until := p.clock(j.back, backHour)
		if j.back == p.today {
			until = p.clock(j.back, leaveHour)
		}
		switch d {
		case j.leave - toldDays:
			p.say(p.clock(d, 21.5).Add(p.minutes(0, 40)),
				&model.Trip{From: p.clock(j.leave, leaveHour).UTC(), Until: until.UTC(), Note: j.note})
		case j.back:
			p.say(until.Add(p.minutes(5, 50)), &model.Back{})
		}
	}
}
