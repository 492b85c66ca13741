package board

import (
	"context"
	"fmt"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/ui/show"
)

// What is next is ticked off with one key, and the key asks where it was likely not meant:
// pressed twice, right after what is next has changed, or long before a step can be done.

// moved is how many entries there were when a plan came, and when what is next was last
// another thing than before though nobody had entered anything.
type moved struct {
	entries int
	at      time.Time
}

// pressed is a key that ticked something off, or asked whether it should.
type pressed struct {
	at   time.Time
	asks bool // the same key again answers
}

// doublePress is within which time a second press of the same key asks first: so
// quickly nobody has done a step. A choice.
const doublePress = 2 * time.Second

// readsAnew is how long after what is next has changed by itself the grower may still mean
// what it was before. A guess.
const readsAnew = time.Minute

// twice reports whether a key comes so soon after it did something that it was likely
// pressed twice, or after what is next was another thing, and asks. The same key again
// answers.
func (s *planScreen) twice(key string, step *day.Step) bool {
	was := s.quick
	s.quick = pressed{at: s.desk.now}
	soon := !was.at.IsZero() && s.desk.now.Sub(was.at) < doublePress
	changed := key == "d" && !s.moved.at.IsZero() && s.desk.now.Sub(s.moved.at) < readsAnew
	if was.asks || !soon && !changed {
		s.moved.at = time.Time{}
		return false
	}
	s.quick.asks = true
	why := "So soon?"
	if !soon {
		why = "This has only just come first."
	}
	s.desk.say("%s %s again ticks off: %s", why, key, show.Safe(show.Step(s.desk.book, s.plan, step)))
	return true
}

// guard notes that what is next is another thing than before though nobody has entered
// anything. A board that was just opened compares with what was next a moment ago: the grower
// may have done that.
func (s *planScreen) guard(plan *day.Plan) {
	entries, is := len(s.desk.book.Entries()), plan.Next()
	opened := s.moved.entries == 0
	changed := false
	switch was := s.nextStep(); {
	case is < 0:
	case opened && !plan.Agreed.IsZero():
		before := model.Later(plan.Made, day.LastDone(s.desk.book, s.desk.now))
		if before = model.Later(before, s.desk.now.Add(-readsAnew)); before.Before(s.desk.now) {
			p, err := day.Kept(context.Background(), s.desk.keeper, before)
			changed = err == nil && p != nil && p.Next() >= 0 && !plan.Steps[is].Same(p.Steps[p.Next()])
		}
	case was != nil && entries == s.moved.entries:
		changed = !plan.Steps[is].Same(*was)
	}
	if changed {
		s.moved.at = s.desk.now
	}
	s.moved.entries = entries
}

// tooSoon asks once before a step is ticked off so long before its time that a plant would
// suffer, or is none the better for it. The same key again answers.
func (s *planScreen) tooSoon(key string, step *day.Step) bool {
	why := s.notYet(step)
	asks := askedOut{key, firstOf(step)}
	if why == "" || s.desk.asksOut == asks {
		s.desk.asksOut = askedOut{}
		return false
	}
	s.desk.asksOut, s.quick.asks = asks, true
	s.desk.refuse("%s", show.Line(fmt.Sprintf("%s: %s again %s", show.Safe(why), key, doneAll[step.Do])))
	return true
}

func firstOf(step *day.Step) model.ID {
	if len(step.Plants) == 0 {
		return 0
	}
	return step.Plants[0]
}

// doneAll says what is written when a step is ticked off.
var doneAll = map[soak.Do]string{
	soak.Fill:  "has it on this one now",
	soak.PutIn: "has them in now", soak.GetOut: "takes them out", soak.Hang: "has them dry and hung",
}

// shortBy is by what part of its least soak a plant may come out sooner without a question: a
// clock is read roughly. A guess.
const shortBy = 0.1

// notYet says that it is much too soon for a step; "" where it is not.
func (s *planScreen) notYet(step *day.Step) string {
	now, ago := s.desk.now, func(d time.Duration) string { return show.Duration(max(0, d).Truncate(time.Minute)) }
	taps := day.Taps(s.desk.book, now)
	switch step.Do {
	case soak.Fill:
		if n := int(s.desk.book.Rules()[model.Taps]); len(taps) >= n && taps[0].Until.Sub(now) >= time.Minute {
			return fmt.Sprintf("the tap is on the %s until %s", taps[0].Vessel, show.Clock(taps[0].Until, now, s.desk.book.Zone()))
		}
	case soak.PutIn:
		for _, tap := range taps {
			if left := tap.Until.Sub(now); tap.Vessel == step.Vessel && left >= time.Minute {
				return fmt.Sprintf("%s is full only at %s, in %s", step.Vessel, show.Clock(tap.Until, now, s.desk.book.Zone()), ago(left))
			}
		}
	case soak.GetOut:
		load := s.desk.book.Load(s.desk.book.Row(step.Plants[0]).Load)
		early, least := s.desk.outAt(load).From.Sub(now), time.Duration(0)
		for _, t := range s.plan.Loads[step.Load].Plants {
			least = max(least, time.Duration(t.Least)*time.Second)
		}
		if so := now.Sub(load.In); early > soonDue || early >= time.Minute && so.Seconds() < (1-shortBy)*least.Seconds() {
			return fmt.Sprintf("%s so far, %s early", ago(so), ago(early))
		}
	case soak.Hang:
		if early := step.At.Sub(now); early > soonDue {
			return fmt.Sprintf("likely dry only at %s, in %s", show.Clock(step.At, now, s.desk.book.Zone()), ago(early))
		}
	}
	return ""
}
