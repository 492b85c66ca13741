package demo

import (
	"time"

	"tubside/model"
)

// health is what a plant has, and what is suspected of it. A zero time is
// never, or not now.
type health struct {
	rot      time.Time     // when the suspicion will be settled
	ill      model.Ailment // empty: nothing
	illSince time.Time
	treated  int       // times
	cleared  time.Time // when it was last rid of something that spreads
	apart    time.Time // in quarantine since
	clean    time.Time // first of the clean looks since then
	looked   time.Time // last looked over and found clean
	released time.Time
}

// house is the house rules that this grower keeps to: those of a fresh book.
var house = model.DefaultRules()

// plain reports whether a plant needs nothing but water: it is not in bloom nor
// in quarantine, and has nothing and is suspected of nothing.
func (l *life) plain() bool {
	return !l.flowering() && l.rot.IsZero() && l.ill == "" && l.apart.IsZero()
}

// company is the company a plant may keep in the water.
func (l *life) company(at time.Time) model.Health {
	switch {
	case !l.rot.IsZero(), l.ill != "" && l.ill.Spreads():
		return model.Sick
	case within(l.cleared, at, house[model.LooksApart]):
		return model.Suspect
	case !l.apart.IsZero():
		return model.Newcomer
	}
	return model.Sound
}

// within reports whether something was so many days before a time, or less.
func within(t, at time.Time, days float64) bool {
	return !t.IsZero() && at.Sub(t).Hours() < 24*days
}

// Rot. Invented.
const (
	nightsWet      = 8.0   // hours wet, from which rot is to be feared
	rotAfterNight  = 0.004 // of plants wet that long
	rotOtherwise   = 0.0002
	rotDaysFrom    = 12 // until the suspicion is settled
	rotDaysTo      = 28
	rotIsRot       = 0.45 // of suspicions
	suspectedToday = 3    // on each of the last two mornings before the scene
)

// rots notes on a walk which plants may be rotting, which turned out sound and
// which are lost.
func (p *past) rots(at time.Time, walk []*life) {
	var suspected, sound, lost []*life
	wanted := 0
	if at.After(p.clock(p.lastSoak()-1, 0)) {
		wanted = suspectedToday
	}
	for _, l := range walk {
		switch {
		case l.plain() && (p.rotSets(l) || len(suspected) < wanted && p.happens(0.02)):
			l.rot = at.AddDate(0, 0, rotDaysFrom+p.rng.IntN(rotDaysTo-rotDaysFrom))
			suspected = append(suspected, l)
		case l.rot.IsZero() || l.rot.After(at):
		case p.happens(rotIsRot):
			l.here = false
			lost = append(lost, l)
		default:
			l.rot, l.cleared = time.Time{}, at
			sound = append(sound, l)
		}
	}
	p.tell(at, &model.Rot{}, suspected...)
	p.tell(at.Add(10*time.Second), &model.Rot{Over: true}, sound...)
	p.tell(at.Add(20*time.Second), &model.Leave{How: model.Lost, Cause: "rot"}, lost...)
}

// rotSets reports whether a plant that was soaked last time begins to rot: most
// likely one that stayed wet into the night.
func (p *past) rotSets(l *life) bool {
	if l.dry.Sub(l.out).Hours() > nightsWet && !l.out.IsZero() {
		return p.happens(rotAfterNight)
	}
	return p.happens(rotOtherwise)
}

// Troubles. Invented.
const (
	troublesFound = 0.0016 // of plants, at each look: some ten a year
	lostToPests   = 0.12   // of plants treated twice
	badPlaceDays  = 21     // until burn, cold or sun is over
)

// What is found all the year, in the heating season, and outside it.
var (
	pests          = []model.Ailment{model.Scale, model.Mealybug, model.Mites}
	winterTroubles = append(pests[:3:3], model.Cold)
	summerTroubles = append(pests[:3:3], model.Burn, model.Sun)
)

// treatment is what this grower does about a trouble.
var treatment = map[model.Ailment]string{
	model.Scale: "lifted off with a swab of alcohol, rinsed", model.Mealybug: "dabbed with alcohol, rinsed",
	model.Mites: "rinsed hard, hung in damper air", model.Burn: "two plain baths, no feed",
	model.Cold: "off the cold sill", model.Sun: "out of the noon sun",
}

// trouble is what a plant may have at that time of the year.
func (p *past) trouble(at time.Time) model.Ailment {
	if p.weather.at(at).rh > dryAir {
		return pick(p, summerTroubles)
	}
	return pick(p, winterTroubles)
}

// falls makes a plant ill, as it is found on a walk, and treats it at once.
func (p *past) falls(at time.Time, l *life, what model.Ailment) {
	l.ill, l.illSince, l.treated, l.clean = what, at, 1, time.Time{}
	p.tell(at, &model.Trouble{What: l.ill}, l)
	p.tell(at.Add(p.minutes(8, 20)), &model.Trouble{What: l.ill, Treatment: treatment[l.ill]}, l)
}

// treats looks at every plant that is ill: pests are treated twice, a week
// apart, and then are gone or have won.
func (p *past) treats(at time.Time) {
	for i, l := range p.here(func(l *life) bool { return l.ill != "" }) {
		at := at.Add(time.Duration(i) * 3 * time.Minute)
		switch {
		case !l.ill.Spreads() && within(l.illSince, at, badPlaceDays):
		case l.ill.Spreads() && l.treated < 2:
			l.treated++
			p.tell(at, &model.Trouble{What: l.ill, Treatment: treatment[l.ill]}, l)
		case l.ill.Spreads() && p.happens(lostToPests):
			l.here = false
			p.tell(at, &model.Leave{How: model.Lost, Cause: "pests"}, l)
		default:
			p.tell(at, &model.Trouble{What: l.ill, Over: true}, l)
			if l.ill.Spreads() {
				l.cleared = at
			}
			l.ill = ""
		}
	}
}
