package demo

import (
	"slices"
	"time"

	"tubside/model"
)

// bloom is how far a plant's bloom has come.
type bloom struct {
	stage model.Stage // empty: none
	turns time.Time   // when it goes on to the next
}

// Flowers. Invented.
const bloomsAYear = 0.15 // of the plants that are no mothers yet

// stageDays is how long each stage of a bloom lasts, from and to.
var stageDays = map[model.Stage][2]int{model.Bud: {12, 30}, model.Open: {20, 60}, model.Spent: {14, 30}}

// flowering reports whether a plant is in bud or in flower, and so is kept out
// of the water.
func (l *life) flowering() bool { return l.stage == model.Bud || l.stage == model.Open }

// flowers notes on a walk which blooms have begun or gone on, and of which
// nothing is left.
func (p *past) flowers(at time.Time, walk []*life) {
	turned := map[model.Stage][]*life{}
	var over []*life
	for _, l := range walk {
		switch {
		case l.stage == "" && l.since.IsZero() && l.plain() && p.happens(bloomsAYear/52):
			l.stage = model.Bud
		case l.stage == "" || at.Before(l.turns):
			continue
		case l.stage == model.Spent:
			l.bloom = bloom{}
			over = append(over, l)
			continue
		default:
			l.stage = model.Stages[slices.Index(model.Stages, l.stage)+1]
		}
		days := stageDays[l.stage]
		l.turns = at.AddDate(0, 0, days[0]+p.rng.IntN(days[1]-days[0]))
		if l.stage == model.Spent {
			p.spend(l, at)
		}
		turned[l.stage] = append(turned[l.stage], l)
	}
	for i, s := range model.Stages {
		p.tell(at.Add(time.Duration(i)*10*time.Second), &model.Bloom{Stage: s}, turned[s]...)
	}
	p.tell(at.Add(40*time.Second), &model.Bloom{Over: true}, over...)
}
