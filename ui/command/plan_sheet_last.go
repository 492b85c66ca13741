package command

import (
	"fmt"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
)

// beginBy says until when the hands may still begin to put a load in.
const beginBy = "begin by %s, or leave it for tomorrow"

// inWords say when a load goes in, and until when it still may.
func (s *soakPaper) inWords(l *day.Load) string {
	from, last := s.at(l.Start), s.at(s.lastIn(l))
	words := "Put it in from " + from + " on"
	if last == "" {
		return words + "."
	}
	words += "; " + fmt.Sprintf(beginBy, last) + "."
	if at, next := s.without(l); !at.IsZero() {
		words += fmt.Sprintf(" After %s there is no time left for load %d.", s.at(at), s.p.Loads[next].Number)
	}
	return words
}

// lastIn is until when a load may go in, with its whole day as much later: so that all of
// it is dry by the hour when all must be, and out within the hours of the hands; over
// night so that its soak is long enough by the morning. What the plan itself does not keep
// bounds nothing. The zero time where there is no bound.
func (s *soakPaper) lastIn(l *day.Load) time.Time {
	dry, soaked := l.End, l.Out.Sub(l.Start)
	for _, t := range l.Plants {
		dry = model.Later(dry, t.Dry)
		soaked = min(soaked, t.Out.Sub(t.In)-time.Duration(t.Least)*time.Second)
	}
	spares := []time.Duration{s.p.Ask.DryBy.Sub(dry), s.p.HoursEnd().Sub(l.End)}
	if l.Night {
		spares = []time.Duration{soaked}
	}
	spares = slices.DeleteFunc(spares, func(d time.Duration) bool { return d < 0 })
	if len(spares) == 0 {
		return time.Time{}
	}
	return l.Start.Add(slices.Min(spares))
}

// without is from when on a load that goes in leaves no time for another after it in its
// vessel, and the place of that one: each may still go in until its own last hour, but for
// what keeps the vessel and the hands busy from the one to the other. The zero time where the
// load's own last hour comes first.
func (s *soakPaper) without(l *day.Load) (at time.Time, load int) {
	room, load := s.leaves(l)
	if at = l.Start.Add(room); load < 0 || !at.Before(s.lastIn(l)) {
		return time.Time{}, -1
	}
	return at, load
}

// leaves is by how much a load may go in late so that those after it in its vessel still have
// time, and the place of the first that would not; -1 where none comes after it.
func (s *soakPaper) leaves(l *day.Load) (room time.Duration, load int) {
	next := -1
	for n := range s.p.Loads {
		m := &s.p.Loads[n]
		if m.Vessel == l.Vessel && m.ToCome() && !m.Night && !m.Start.Before(l.End) && (next < 0 || m.Start.Before(s.p.Loads[next].Start)) {
			next = n
		}
	}
	if next < 0 {
		return 0, -1
	}
	m := &s.p.Loads[next]
	room, load = s.leaves(m)
	if last := s.lastIn(m); !last.IsZero() && (load < 0 || last.Sub(m.Start) < room) {
		room, load = last.Sub(m.Start), next
	}
	hands := s.idle(l.Start, m.Start, func(step *day.Step) bool { return step.Do.Hands() && step.Hands == 0 })
	vessel := s.idle(l.End, m.Start, func(step *day.Step) bool {
		return step.Vessel == l.Vessel && (step.Do == soak.Empty || step.Do == soak.Fill)
	})
	return room + min(hands, vessel), load
}

// idle is how much of the time from one hour to another no step of a kind takes.
func (s *soakPaper) idle(from, until time.Time, kind func(*day.Step) bool) time.Duration {
	idle := until.Sub(from)
	for i := range s.p.Steps {
		if step := &s.p.Steps[i]; kind(step) {
			idle -= max(0, model.Earlier(step.Until, until).Sub(model.Later(step.At, from)))
		}
	}
	return max(0, idle)
}
