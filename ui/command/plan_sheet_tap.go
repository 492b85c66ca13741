package command

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tubside/model/day"
	"tubside/model/soak"
	"tubside/ui/show"
)

// tapLine is something done at a tap.
type tapLine struct {
	line  sheetLine
	stays time.Time // until when the hands stay at it; zero where they go on
	near  time.Time // until when they go on only where they hear it: no walk begins before
}

// withinHearing is up to how long a vessel fills for which no walk along the shelves is
// begun or broken off. A guess.
const withinHearing = 2 * time.Minute

// taps are the lines of filling, in clock order.
func (s *soakPaper) taps() []tapLine {
	var taps []tapLine
	for _, f := range s.fills() {
		takes := f.Until.Sub(f.At)
		line := sheetLine{at: f.At, until: f.Until, load: fmt.Sprint(s.p.Loads[f.Load].Number), text: show.Line(s.fill(&f))}
		if s.p.BeforeHours(&f) || takes <= withinHearing && !s.cannotWait(&f) ||
			takes > withinHearing && !s.busy(f.At, f.Until, func(soak.Do) bool { return true }) {
			line.text += ". Stay beside it until it is full" + s.waits(&f)
			taps = append(taps, tapLine{line: line, stays: f.Until})
			continue
		}
		line.until = time.Time{}
		how, near := "Carry on with the next line where you hear it", time.Time{}
		if takes <= withinHearing {
			how, near = "Carry on beside it", f.Until
		}
		line.text = fmt.Sprintf("Start to %s; it takes %s. %s, and set a timer for %s", s.fill(&f),
			show.Duration(minute(f.Until).Sub(minute(f.At))), how, s.at(f.Until))
		taps = append(taps, tapLine{line: line, near: near}, tapLine{line: sheetLine{at: f.Until, load: line.load,
			text: "Turn off the tap: " + f.Vessel + " is full" + s.waits(&f)}})
	}
	slices.SortStableFunc(taps, func(x, y tapLine) int { return x.line.at.Compare(y.line.at) })
	return taps
}

// cannotWait reports whether the hands are at a taking-out to the minute while a vessel fills:
// any other work waits that minute.
func (s *soakPaper) cannotWait(f *day.Step) bool {
	return slices.ContainsFunc(s.p.Steps, func(step day.Step) bool {
		return !step.Done && step.Do == soak.GetOut && step.Hands == 0 && step.At.Before(f.Until) && step.Until.After(f.At) &&
			isTight(&s.p.Loads[step.Load])
	})
}

// isPutOff reports whether work waits until a vessel is full that takes a minute: it is out
// of hearing of the tap, or in one piece.
func isPutOff(do soak.Do) bool { return isWalk(do) || do == soak.Empty }

// isWalk reports whether the hands are out of hearing of the tap.
func isWalk(do soak.Do) bool { return do == soak.Pull || do == soak.Hang }

// fills are the fillings to come. One that begins in a walk along the shelves, or for a short
// one that falls into it, is moved out of it: to after the walk, where its load does not go
// in before it is full, or else to when the walk begins.
func (s *soakPaper) fills() []day.Step {
	var fills []day.Step
	for _, step := range s.p.Steps {
		if !step.Done && step.Do == soak.Fill {
			fills = append(fills, step)
		}
	}
	for i := range fills {
		f := &fills[i]
		takes := f.Until.Sub(f.At)
		walksAt := func(at time.Time) bool {
			long := time.Nanosecond
			if takes <= withinHearing {
				long = takes
			}
			return s.busy(at, at.Add(long), isWalk)
		}
		tapIsFree := func(at time.Time) bool {
			for n := range fills {
				if n != i && fills[n].At.Before(at.Add(takes)) && fills[n].Until.After(at) {
					return false
				}
			}
			return true
		}
		if at, ok := s.beside(f, takes, tapIsFree); ok {
			f.At = at
		}
		if f.Until = f.At.Add(takes); !walksAt(f.At) {
			continue
		}
		later, before := time.Time{}, f.At
		for _, step := range s.p.Steps {
			if step.Done {
				continue
			}
			if at := step.Until; at.After(f.At) && later.IsZero() && tapIsFree(at) && !walksAt(at) {
				later = at
			}
			if isWalk(step.Do) && step.Hands == 0 && step.At.Before(f.At) && step.Until.After(f.At) && s.isFree(f, step.At) {
				before = step.At
			}
		}
		switch start := s.p.Loads[f.Load].Start; {
		case !later.IsZero() && !later.Add(takes).After(start):
			f.At = later
		case tapIsFree(before):
			f.At = before
		}
		f.Until = f.At.Add(takes)
	}
	slices.SortStableFunc(fills, func(x, y day.Step) int { return x.At.Compare(y.At) })
	return fills
}

// beside is a time near that of a short filling at which the hands have nothing else to do and
// the tap is free, so that they can stay beside it and nothing is cut to pieces for it; where
// there is none, the end of what it would cut, before an emptying or a walk, which can wait a
// minute. It returns false where the filling does best as it is.
func (s *soakPaper) beside(f *day.Step, takes time.Duration, tapIsFree func(time.Time) bool) (at time.Time, ok bool) {
	all := func(soak.Do) bool { return true }
	if takes > withinHearing || s.p.BeforeHours(f) || !s.busy(f.At, f.Until, all) {
		return at, false
	}
	for _, work := range []func(soak.Do) bool{all, func(do soak.Do) bool { return do == soak.PutIn || do == soak.GetOut }} {
		for _, step := range s.p.Steps {
			t := step.Until
			meanwhile := step.At.Before(f.Until) && t.After(f.At) && !isWalk(step.Do)
			if step.Done || step.Hands > 0 || !step.Do.Hands() || f.At.Sub(t) > longWait || t.Add(takes).After(s.p.Loads[f.Load].Start) ||
				s.busy(t, t.Add(takes), work) || !tapIsFree(t) || t.Before(f.At) && !s.isFree(f, t) || !work(soak.Empty) && !meanwhile {
				continue
			}
			if !ok || t.Sub(f.At).Abs() < at.Sub(f.At).Abs() {
				at, ok = t, true
			}
		}
		if ok {
			break
		}
	}
	return at, ok
}

// isFree reports whether a vessel that is filled later is free from a time on. One that a sick
// plant was in stands disinfected: it is filled when the plan says, and no sooner.
func (s *soakPaper) isFree(f *day.Step, at time.Time) bool {
	return !slices.ContainsFunc(s.p.Steps, func(other day.Step) bool {
		sick := other.Do == soak.Empty && other.Load >= 0 && s.p.Loads[other.Load].Company == soak.Sick
		return other.Vessel == f.Vessel && other.Do != soak.Pull && other.At.Before(f.At) && (sick || other.Until.After(at))
	})
}

// minute is a time as the sheet shows it.
func minute(t time.Time) time.Time { return t.Truncate(time.Minute) }

// busy reports whether the first pair of hands is at some kind of work in a time.
func (s *soakPaper) busy(from, until time.Time, at func(soak.Do) bool) bool {
	return slices.ContainsFunc(s.p.Steps, func(step day.Step) bool {
		return !step.Done && step.Do.Hands() && step.Hands == 0 && step.At.Before(until) && step.Until.After(from) &&
			at(step.Do)
	})
}

// fill says what is filled, and whether old water goes out first.
func (s *soakPaper) fill(f *day.Step) string {
	text := fmt.Sprintf("fill %s (%s)", f.Vessel, show.Volume(f.Litres, s.b.Rules()))
	if s.p.Loads[f.Load].Fed {
		text = "mix fed water in" + strings.TrimPrefix(text, "fill")
	}
	if show.StandsDisinfected(s.b, s.p, f) {
		return text + ", after you have poured the disinfectant out and rinsed it well"
	}
	emptied := func(step day.Step) bool {
		return step.Vessel == f.Vessel && step.Do == soak.Empty && !step.Done && !step.At.After(f.At)
	}
	if s.b.Water(f.Vessel) != nil && !slices.ContainsFunc(s.p.Steps, emptied) && s.firstFill(f) {
		text += ", after its old water is out and it is rinsed"
	}
	if s.p.BeforeHours(f) {
		text += " the evening before, so that it has stood"
	}
	return text
}

// firstFill reports whether a vessel is filled for the first time.
func (s *soakPaper) firstFill(f *day.Step) bool {
	for i := range s.p.Steps {
		if step := &s.p.Steps[i]; step.Do == soak.Fill && step.Vessel == f.Vessel && !step.Done {
			return step.Load == f.Load
		}
	}
	return false
}

// longWait is from how long on a full vessel, or plants that are pulled, are said to
// wait. A guess.
const longWait = 10 * time.Minute

// waits says until when a full vessel waits for its load, where that is long or the hands are
// out of its sight meanwhile.
func (s *soakPaper) waits(f *day.Step) string {
	l := &s.p.Loads[f.Load]
	if wait := l.Start.Sub(f.Until); wait <= withinHearing || wait <= longWait && !s.busy(f.Until, l.Start, isWalk) {
		return ""
	}
	return fmt.Sprintf(". It waits full until load %d goes in at %s", l.Number, s.at(l.Start))
}
