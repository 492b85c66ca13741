package demo

import (
	"slices"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

// Habits at the bench. Invented.
const (
	firstRound, lastRound = 11.5, 21.25 // hours
	morningRound          = 7.1         // of the next day: whatever is left is hung
	seenDry               = 0.97        // of dry plants, in a round
	calledDry             = 0.04        // of plants not dry yet, called dry too soon
	notedDamp             = 0.3         // of plants not dry yet, noted as damp
	hungAtOnce            = 0.85        // of plants found dry; the rest hang after the next round
)

// watch lives the bench of a day: rounds until late, and one in the morning.
func (p *past) watch(d date.Date, turn []*life) {
	wet, dry := slices.Clone(turn), []*life(nil)
	end := p.clock(d, lastRound)
	for at := p.clock(d, firstRound).Add(p.minutes(0, 40)); at.Before(end); at = at.Add(p.minutes(150, 240)) {
		wet, dry = p.round(at, wet, dry)
	}
	at := p.clock(d+1, morningRound).Add(p.minutes(0, 25))
	p.tell(at, &model.FoundDry{}, wet...)
	p.tell(at.Add(p.minutes(4, 15)), &model.Hung{}, append(dry, wet...)...)
}

// round looks at everything that is out of the water, and hangs what is dry.
// It gives what is still wet or in the water, and what is dry and not hung.
func (p *past) round(at time.Time, wet, dry []*life) (stillWet, left []*life) {
	var damp, found []*life
	for _, l := range wet {
		switch {
		case l.out.After(at):
			stillWet = append(stillWet, l)
		case p.looksDry(l, at):
			found = append(found, l)
		default:
			if p.happens(notedDamp) {
				damp = append(damp, l)
			}
			stillWet = append(stillWet, l)
		}
	}
	p.tell(at, &model.Damp{}, damp...)
	p.tell(at.Add(p.minutes(1, 3)), &model.FoundDry{}, found...)
	hung := dry
	for _, l := range found {
		if p.happens(hungAtOnce) {
			hung = append(hung, l)
		} else {
			left = append(left, l)
		}
	}
	p.tell(at.Add(p.minutes(5, 20)), &model.Hung{}, hung...)
	return stillWet, left
}

func (p *past) looksDry(l *life, at time.Time) bool {
	if l.dry.After(at) {
		return p.happens(calledDry)
	}
	return p.happens(seenDry)
}
