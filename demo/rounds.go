package demo

import (
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

// The rounds of a week without a soak in the way. Invented.
const (
	feedDay    = time.Tuesday
	mistDay    = time.Wednesday // for all; what blooms is misted on Fridays too
	lookDay    = time.Thursday
	walkHour   = 8.0  // of misting and feeding, so that all is dry by midday
	lookHour   = 10.0 // dry, before any water
	fifths     = 5    // a look round sees a fifth of the shelves
	dryAir     = 40.0 // % humidity under which thirsty plants are misted midweek
	weighWeeks = 4    // between two weighings
)

// rounds walks what there is to walk on a day without a soak.
func (p *past) rounds(d date.Date) {
	switch d.Weekday() {
	case feedDay:
		if p.feedsOn(d) {
			p.feedRound(d)
		}
	case lookDay:
		p.lookRound(d)
	case mistDay, time.Friday:
		p.mistRound(d)
	}
}

// mistRound mists what has no other water, and midweek in dry air the thirstier
// plants too.
func (p *past) mistRound(d date.Date) {
	at := p.clock(d, walkHour).Add(p.minutes(0, 45))
	dry := d.Weekday() == mistDay && p.weather.at(at).rh < dryAir
	walk := p.here(func(l *life) bool {
		thin := l.form == model.Wispy || l.leaf == model.Mesic && l.form != model.Tank
		return l.rot.IsZero() && (l.flowering() || l.healing(at) || dry && thin)
	})
	p.tell(at, &model.Mist{Of: model.Rain}, walk...)
	p.wets(at, walk)
}

// lookRound looks over a fifth of the shelves, whatever is ill and the
// newcomers, and releases those whose time has come.
func (p *past) lookRound(d date.Date) {
	at := p.clock(d, lookHour).Add(p.minutes(0, 30))
	p.treats(at)
	p.lookOver(at.Add(30*time.Minute), p.here(func(l *life) bool { return !l.apart.IsZero() }))
	p.releases(at.Add(40 * time.Minute))
	week := int(d) / 7
	for i, s := range shelves {
		if i%fifths == week%fifths {
			walk := p.here(func(l *life) bool { return l.Home.Shelf == s.name })
			p.lookOver(at.Add(time.Duration(60+5*i)*time.Minute), walk)
		}
	}
	if d == p.lastRound(lookDay) {
		p.findsMore(at.Add(150 * time.Minute))
	}
	if week%weighWeeks == 0 {
		p.weighAll(at.Add(3 * time.Hour))
	}
}

// lookOver looks into the plants of a walk: most are clean, some are not, and
// the offsets are counted on the way.
func (p *past) lookOver(at time.Time, walk []*life) {
	var clean, found []*life
	for _, l := range walk {
		switch {
		case l.ill != "" || !l.rot.IsZero() || p.happens(forgotten):
		case p.happens(troublesFound):
			found = append(found, l)
		default:
			clean = append(clean, l)
			l.looked = at
			if l.clean.IsZero() {
				l.clean = at
			}
		}
	}
	p.tell(at, &model.LookedOver{}, clean...)
	for _, l := range found {
		p.falls(at.Add(p.minutes(1, 4)), l, p.trouble(at))
	}
	p.countsPups(at.Add(time.Minute), clean)
}

// illToday is how many plants are ill in a scene, at least. Invented.
const illToday = 2

// findsMore sees to it that the last look round before the scene leaves some
// plants ill, with pests if nothing else was found.
func (p *past) findsMore(at time.Time) {
	for n := len(p.here(func(l *life) bool { return l.ill != "" })); n < illToday; n++ {
		p.falls(at.Add(time.Duration(n)*time.Minute), p.someone((*life).plain), pick(p, pests))
	}
}

// lastRound is the last day before the scene on which a round is walked on its
// day of the week.
func (p *past) lastRound(day time.Weekday) date.Date {
	for d := p.end() - 1; ; d-- {
		if d.Weekday() == day && !p.soaksOn(d) && !p.away(d) {
			return d
		}
	}
}
