package board

import (
	"context"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/ui/show"
)

// leaves is when the agreed plan has the loads in the water come out: by so many steps of it,
// at a minute.
type leaves struct {
	steps int
	at    time.Time
	of    map[model.LoadID]day.Leaving
}

// leaving is when the agreed plan has the loads in the water come out. It is looked at anew
// when a step is done, and each minute.
func (s *planScreen) leaving() map[model.LoadID]day.Leaving {
	at, l := s.desk.now.Truncate(time.Minute), &s.leaves
	if l.of != nil && l.steps == s.desk.steps && l.at.Equal(at) {
		return l.of
	}
	*l = leaves{s.desk.steps, at, map[model.LoadID]day.Leaving{}}
	p := s.plan
	if s.built != s.desk.version || p == nil || s.proposed() {
		p = nil
		if s.desk.keeper != nil && s.desk.book.AgreedPlan(s.desk.now) != nil {
			p, _ = day.Kept(context.Background(), s.desk.keeper, s.desk.now)
		}
	}
	if p != nil {
		l.of = p.Leaving(s.desk.book)
	}
	return l.of
}

// outAt is when a load in the water comes out: as the agreed plan has it, where that leaves all
// of its plants in their windows, else when its own clock says.
func (d *desk) outAt(l *model.Load) day.Leaving {
	if d.leaving != nil {
		if at, planned := d.leaving()[l.ID]; planned {
			return at
		}
	}
	return day.Leaving{From: l.Due, Until: l.Due}
}

// left is how long it is until a load comes out: nothing while the hands are at it, and less
// than that when it should be out.
func (d *desk) left(l *model.Load) time.Duration {
	out := d.outAt(l)
	if late := out.Late(d.now); late > 0 {
		return -late
	}
	return max(0, out.From.Sub(d.now))
}

// isDue reports whether a load is to come out by now.
func (d *desk) isDue(l *model.Load) bool { return d.left(l) <= 0 }

// outClock is the hour at which a load comes out.
func (d *desk) outClock(l *model.Load) string {
	return show.Clock(d.outAt(l).From, d.now, d.book.Zone())
}
