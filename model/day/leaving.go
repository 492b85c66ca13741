package day

import (
	"slices"
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// Leaving is when a load that lies in the water comes out.
type Leaving struct {
	From, Until time.Time // the hands are at it
}

// Late is for how long by a time the load should have been out; 0: it is not late.
func (l Leaving) Late(now time.Time) time.Duration { return max(0, now.Sub(l.Until)) }

// ByNow reports whether the hands are at it by a time, in the time that it takes.
func (l Leaving) ByNow(now time.Time) bool { return !now.Before(l.From) && now.Before(l.Until) }

// Leaving is when a plan that is followed has the loads of the book come out of the water. A
// load of which a plant would be in for too long is not among them: its own clock counts.
func (p *Plan) Leaving(b *model.Book) map[model.LoadID]Leaving {
	all := map[model.LoadID]Leaving{}
	first := true // of the hands' work
	for n := range p.Steps {
		s := &p.Steps[n]
		if s.Done || !s.Do.Hands() || s.Do == soak.Hang {
			continue
		}
		at := Leaving{s.At, s.Until}
		if first && !p.missed.IsZero() { // it has slid on since nobody has done it
			at = Leaving{s.At.Add(-s.Until.Sub(p.missed)), p.missed}
		}
		if first = false; s.Do != soak.GetOut || p.Loads[s.Load].tooLong() {
			continue
		}
		for _, id := range s.Plants {
			row := b.Row(id)
			if row == nil || row.State != model.Soaking {
				continue
			}
			if is, told := all[row.Load]; told {
				at = Leaving{model.Earlier(is.From, at.From), model.Later(is.Until, at.Until)}
			}
			all[row.Load] = at
		}
	}
	return all
}

// tooLong reports whether a plant of a load is in the water for longer than it may be.
func (l *Load) tooLong() bool {
	return slices.ContainsFunc(l.Plants, func(t Plant) bool {
		return t.Out.Sub(t.In) > time.Duration(t.Most)*time.Second
	})
}
