package demo

import (
	"slices"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/model/estimate"
)

// fed is what this grower feeds with: 0.5 g/L of a powder 14-7-28, as in a trial
// with T. kautskyi fed once a month but in winter (Rev. Bras. Hort. Orn.,
// Jaboticabal 2003-04); 0.5 g/L of 14 % nitrogen is 70 ppm.
var fed = model.Mix{Powder: "14-7-28 with magnesium", N: 14, PPM: 70}

// Feeding. Growers' habit, but for the shares, which are invented.
const (
	noFeedBefore = 14          // days before a trip
	thirds       = 3           // two thirds of the shelves are on each feed round
	mistLitres   = 0.2         // on one shelf
	pail         = "feed pail" // the vessel for fed water
	pailLitres   = 12.0
)

// bathMonths are the months whose first Sunday soak ends in a feed bath.
var bathMonths = []time.Month{time.May, time.August}

// growing reports whether a day lies in the months of feeding.
func growing(d date.Date) bool {
	return d.Month() >= time.Month(house[model.FeedFromMonth]) && d.Month() <= time.Month(house[model.FeedToMonth])
}

// feedsOn reports whether a day has a feed round: a month after the last one, in
// growth, and not shortly before a long trip.
func (p *past) feedsOn(d date.Date) bool {
	due := float64(d-p.lastFeed) >= house[model.FeedDays]
	return due && growing(d) && !p.leavesSoon(d)
}

// feedRound mixes a bottle, feeds two thirds of the shelves, and fills the
// bottle with plain water again.
func (p *past) feedRound(d date.Date) {
	at := p.clock(d, walkHour).Add(p.minutes(0, 30))
	round := int(d-p.lastFeed) + int(d)/7
	p.lastFeed = d
	p.say(at, &model.Bottle{Fed: &fed, Of: model.Rain})
	for i, s := range shelves {
		if i%thirds == round%thirds {
			continue
		}
		at = at.Add(p.minutes(4, 9))
		eaters := p.here(func(l *life) bool { return l.Home.Shelf == s.name && l.mayFeed(at) })
		p.tell(at, &model.Feed{How: model.ByMist, Mix: fed, Litres: mistLitres}, eaters...)
		p.wets(at, eaters)
		eaten(at, eaters)
	}
	p.say(at.Add(p.minutes(3, 8)), &model.Bottle{Of: model.Rain})
}

func eaten(at time.Time, lives []*life) {
	for _, l := range lives {
		l.fed = at
	}
}

// mayFeed reports whether a plant may be fed: not twice in a month, or in two
// for a slow grower; not in bloom or ill; not when it is new or just separated.
func (l *life) mayFeed(at time.Time) bool {
	every := house[model.FeedDays]
	if l.Leaf == model.Xeric {
		every = house[model.FeedDaysSlow]
	}
	wait := house[model.FeedAfterDays]
	var came time.Time
	if l.Acquired != 0 {
		came = model.NoonOf(l.Acquired, at.Location())
	}
	lately := within(l.parted, at, wait) || within(l.released, at, wait) || within(came, at, wait)
	return l.plain() && !lately && !within(l.fed, at, every+1)
}

// bathsOn reports whether a soak day ends in a feed bath.
func (p *past) bathsOn(d date.Date) bool {
	for _, m := range bathMonths {
		if d.Month() == m && d.Day() <= 7 && d.Weekday() == time.Sunday && !p.leavesSoon(d) {
			return true
		}
	}
	return false
}

// bathe ends a soak day with a feed bath in the pail, for some that may be fed
// and are to be soaked anyway. It gives the rest.
func (p *past) bathe(at time.Time, turn []*life) []*life {
	var eaters []*life
	litres := pailLitres
	rest := slices.DeleteFunc(turn, func(l *life) bool {
		bulk := estimate.Bulk(l.Plant)
		if bulk > litres || l.company(at) != model.Sound || !l.mayFeed(at) || l.soakMinutes(at, p.weather) != usual {
			return false
		}
		litres -= bulk
		eaters = append(eaters, l)
		return true
	})
	if len(eaters) == 0 {
		return rest
	}
	mix := fed
	p.say(at.Add(-time.Minute), &model.Fill{Vessel: pail, Of: []model.Source{model.Rain}, TempC: 21, Fed: &mix})
	p.soak(at, pail, at.Add(minutesOf(usual)), eaters)
	eaten(at, eaters)
	out := at.Add(minutesOf(usual + 1))
	p.takeOut(out, eaters)
	p.say(out.Add(p.minutes(1, 5)), &model.Drain{Vessel: pail})
	return rest
}
