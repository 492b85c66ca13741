package demo

import (
	"time"

	"tubside/model"
)

// Flowers and trouble. Our own.
const (
	bloomsAYear    = 0.15  // of the plants
	bloomDaysFrom  = 20    // how long a bloom lasts
	bloomDaysTo    = 60    // the same
	nightsWet      = 8.0   // hours wet, from which rot is to be feared
	rotAfterNight  = 0.004 // of plants wet that long
	rotOtherwise   = 0.0002
	rotDaysFrom    = 12 // until the suspicion is settled
	rotDaysTo      = 28
	rotIsRot       = 0.45 // of suspicions
	suspectedToday = 3    // on each of the last two mornings before the scene
)

// flowers notes on a walk which blooms have opened and which are over.
func (p *past) flowers(at time.Time, walk []*life) {
	var opened, over []*life
	for _, l := range walk {
		switch {
		case l.bloom.IsZero() && l.rot.IsZero() && p.happens(bloomsAYear/52):
			l.bloom = at.AddDate(0, 0, bloomDaysFrom+p.rng.IntN(bloomDaysTo-bloomDaysFrom))
			opened = append(opened, l)
		case !l.bloom.IsZero() && l.bloom.Before(at):
			l.bloom = time.Time{}
			over = append(over, l)
		}
	}
	p.tell(at, &model.Bloom{}, opened...)
	p.tell(at.Add(20*time.Second), &model.Bloom{Over: true}, over...)
}

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
			l.rot = time.Time{}
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
