package command

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// sheetLine is one line of the day: one thing to do, from top to bottom.
type sheetLine struct {
	at, until  time.Time // until is zero for what takes no time
	load, text string
	hands      int // which pair
}

// day is the day's lines as a table, and what is left out of it.
func (s *soakPaper) day() []paper.Block {
	steps := &paper.Table{Tick: true, Wrap: true, Columns: []paper.Column{{Head: "at"}, {Head: "done by"},
		{Head: "load", Right: true}, {Head: "what to do", Least: 24}}}
	for _, l := range s.lines() {
		until := ""
		if l.until.After(l.at) && s.at(l.until) != s.at(l.at) { // else it takes no time to speak of
			until = s.at(l.until)
		}
		if l.hands > 0 {
			l.text = secondHands + ": " + l.text
		}
		steps.Add(s.at(l.at), until, l.load, l.text)
	}
	done := 0
	for i := range s.p.Steps {
		if s.p.Steps[i].Done {
			done++
		}
	}
	if done == 0 {
		return []paper.Block{steps}
	}
	return []paper.Block{paper.Words(fmt.Sprintf("%s done already and left out "+
		"here.", show.Count(done, "step"))), steps}
}

// secondHands begins a line of whoever helps.
const secondHands = "Your help"

// lines are the day in the order in which one pair of hands does it: a tap that runs
// while the hands go on is a line where it is turned on and one where it is turned off,
// and what the hands are at then is cut in two.
func (s *soakPaper) lines() []sheetLine {
	taps := s.taps()
	var lines []sheetLine
	for _, t := range taps {
		lines = append(lines, t.line)
	}
	if back := show.PutBack(s.b, s.p); back != "" {
		lines = append(lines, sheetLine{at: model.Later(s.p.DayFree, s.now), text: show.Line(back) + ": under Not today"})
	}
	round := 0
	pulled := map[int]time.Time{} // until when the hands pull for a load
	for _, step := range s.toTheMinuteFirst() {
		switch step.Do {
		case soak.Hang:
			round++
		case soak.PutIn: // not before the last is pulled, if the tap kept the hands from it
			step.At = model.Later(step.At, pulled[step.Load])
			step.Until = model.Later(step.Until, step.At)
		}
		for _, piece := range s.pieces(step, taps) {
			if step.Do == soak.Pull {
				pulled[step.Load] = model.Later(piece.at, piece.until)
			}
			piece.text = s.words(step, piece, round)
			lines = append(lines, piece.sheetLine)
		}
	}
	for n, r := range s.rounds {
		if r.free {
			lines = append(lines, sheetLine{at: r.at, until: r.until, load: s.loadsOf(r.ids), text: fmt.Sprintf(
				"If you like: look into the hearts of %s, and hang up those that are dry: round %d. Else they are "+
					"for tomorrow morning", show.Count(len(r.ids), "plant"), n+1)})
		}
	}
	slices.SortStableFunc(lines, func(x, y sheetLine) int { return x.at.Compare(y.at) })
	return withWaits(lines, s.p.DayFree)
}

// toTheMinuteFirst is what the hands do that is not done, in clock order, but for pulling
// that a load would wait for that comes out in the same minute, and to the minute: that is
// pulled after it.
func (s *soakPaper) toTheMinuteFirst() []*day.Step {
	var steps []*day.Step
	for i := range s.p.Steps {
		step := &s.p.Steps[i]
		if step.Done || step.Do == soak.Fill {
			continue
		}
		at := len(steps)
		for step.Do == soak.GetOut && isTight(&s.p.Loads[step.Load]) && at > 0 && s.canFollow(steps[at-1], step) {
			at--
		}
		for _, late := range steps[at:] {
			late.At, late.Until = step.Until, step.Until
		}
		copied := *step
		steps = slices.Insert(steps, at, &copied)
	}
	return steps
}

// canFollow reports whether the pulling of a few plants can come after a step of the same
// minute.
func (s *soakPaper) canFollow(pull, step *day.Step) bool {
	return pull.Do == soak.Pull && pull.Hands == step.Hands && minute(pull.At).Equal(minute(step.At)) &&
		!s.p.Loads[pull.Load].Start.Before(step.Until.Add(step.At.Sub(pull.At)))
}

// worthSaying is from how long on it is said that there is nothing to do. A guess.
const worthSaying = 10 * time.Minute

// nothingToDo begins a line for a while in which the hands wait.
const nothingToDo = "Nothing to do"

// withWaits says between the lines of the first pair of hands when it has nothing to do,
// until the day is done.
func withWaits(lines []sheetLine, done time.Time) []sheetLine {
	var all []sheetLine
	var free time.Time
	for _, l := range lines {
		if l.hands == 0 {
			if wait := l.at.Sub(free); !free.IsZero() && free.Before(done) && wait >= worthSaying {
				all = append(all, sheetLine{at: free, until: l.at, text: nothingToDo + " for " + show.Duration(wait)})
			}
			free = model.Later(free, model.Later(l.at, l.until))
		}
		all = append(all, l)
	}
	return all
}

// piece is a step, or what of it is done in one go between two lines of the tap.
type piece struct {
	sheetLine
	ids     model.IDs
	of      int // plants of the whole step
	goes    bool
	stopped bool // there is more of it after the tap
}

// pieces cut a step where a tap is to be seen to.
func (s *soakPaper) pieces(step *day.Step, taps []tapLine) []piece {
	whole := piece{sheetLine: sheetLine{at: step.At, until: step.Until, load: s.loadOf(step), hands: step.Hands},
		ids: step.Plants, of: len(step.Plants)}
	if step.Hands > 0 {
		return []piece{whole}
	}
	ends := make([]time.Time, len(step.Plants)) // of the work at each plant
	at := step.At
	for i, id := range step.Plants {
		at = at.Add(s.takes(step.Do, id))
		ends[i] = at
	}
	var pieces []piece
	rest := whole
	for _, tap := range taps {
		when, stays := tap.line.at, tap.stays
		if isPutOff(step.Do) {
			stays = model.Later(stays, tap.near)
		}
		switch {
		case stays.After(rest.at) && !when.After(rest.at): // begins when the tap is off
			end := model.Later(rest.until, stays)
			if isPutOff(step.Do) { // it takes its time, if the hands have it
				end = model.Later(end, model.Earlier(rest.until.Add(stays.Sub(rest.at)), s.next(step)))
			}
			rest.at, rest.until = stays, end
		case !when.After(rest.at) || !when.Before(rest.until):
		case len(rest.ids) < 2: // not to be cut: the tap first
			rest.at = model.Later(when, stays)
		default:
			n := 0
			for n < len(rest.ids)-1 && !ends[whole.of-len(rest.ids)+n].After(when) {
				n++
			}
			if n == 0 { // in the middle of its first: the tap first
				rest.at = model.Later(when, stays)
				continue
			}
			first := rest
			first.ids, first.until, first.stopped = rest.ids[:n], when, true
			pieces = append(pieces, first)
			rest.ids, rest.at, rest.goes = rest.ids[n:], model.Later(when, stays), true
			rest.until = model.Later(rest.until, rest.at)
		}
	}
	return append(pieces, rest)
}

// next is when the hands that do a step have the next one to do; its own end where they
// have none.
func (s *soakPaper) next(step *day.Step) time.Time {
	for i := range s.p.Steps {
		if n := &s.p.Steps[i]; !n.Done && n.Do.Hands() && n.Hands == step.Hands && !n.At.Before(step.Until) {
			return n.At
		}
	}
	return step.Until
}

// takes is how long the hands are at one plant.
func (s *soakPaper) takes(do soak.Do, id model.ID) time.Duration {
	h, seconds := estimate.HandsFor(s.b.Row(id).Plant, s.b.Rules()), 0
	switch do {
	case soak.Pull:
		seconds = h.Pull
	case soak.PutIn:
		seconds = h.In
	case soak.GetOut:
		seconds = h.Out + h.Lay
	case soak.Hang:
		seconds = h.Hang
	}
	return time.Duration(seconds) * time.Second
}

// words say a piece of a step, with what a list alone cannot tell: until when plants
// that are pulled wait and where, how late a load may come out, where the names are.
func (s *soakPaper) words(step *day.Step, is piece, round int) string {
	part := *step
	part.Plants = is.ids
	text := show.Step(s.b, s.p, &part)
	if step.Do == soak.Hang {
		text = fmt.Sprintf("look into the hearts of %s, and hang up those that are dry: round "+
			"%d", show.Count(len(is.ids), "plant"), round)
	}
	if is.goes {
		text = "go on: " + text
	}
	notAfter := ""
	switch step.Do {
	case soak.Pull:
		text += s.keep(step, is.goes)
	case soak.PutIn:
		l := &s.p.Loads[step.Load]
		if n := stands(l); n > 0 && l.Load == 0 && !is.goes && !is.stopped && n < len(l.Plants) {
			text += fmt.Sprintf(" (%d pulled, %d that stood by it)", len(l.Plants)-n, n)
		}
		if last := s.lastIn(l); l.Load == 0 && !is.goes && !last.IsZero() {
			if at, next := s.without(l); !at.IsZero() {
				notAfter = fmt.Sprintf(" (after %s without load %d)", s.at(at), s.p.Loads[next].Number)
			}
			notAfter += ". " + show.Line(fmt.Sprintf(beginBy, s.at(last)))
		}
	case soak.GetOut:
		l := &s.p.Loads[step.Load]
		if since, over := s.overdue(l); over {
			text = "OVERDUE since " + s.at(since) + ": " + text
		} else if isTight(l) && !is.goes {
			text += ". To the minute"
		}
	}
	switch {
	case is.stopped && is.goes:
		text += fmt.Sprintf(" (of %d; then the tap)", is.of)
	case is.stopped:
		text += fmt.Sprintf(" (the first of %d; then the tap)", is.of)
	case is.goes:
		text += fmt.Sprintf(" (the last of %d)", is.of)
	}
	if step.Load >= 0 && s.p.Loads[step.Load].Company == soak.Sick && (step.Do == soak.Pull || step.Do == soak.PutIn || step.Do == soak.GetOut) {
		text += ". Then wash your hands"
	}
	return show.Line(text + notAfter)
}

// keep says where plants that are pulled wait, and until when.
func (s *soakPaper) keep(step *day.Step, goes bool) string {
	l, text := &s.p.Loads[step.Load], ""
	if n := len(walksOf(s.b, l)); n > 1 && n <= mostWalks && len(step.Plants) > 1 && !goes {
		text = fmt.Sprintf(" (%d walks)", n)
	}
	them, their := "them", "their"
	if len(step.Plants) == 1 {
		them, their = "it", "its"
	}
	switch waits := l.Start.Sub(step.Until) >= longWait; {
	case l.Company != soak.Healthy:
		text += fmt.Sprintf(". Keep %s on a tray of %s own, away from all others", them, their)
		if waits {
			text += ", until " + s.at(l.Start)
		}
	case waits:
		text += fmt.Sprintf(". Keep %s by %s until %s", them, theVessel(l.Vessel), s.at(l.Start))
	}
	return text
}

// theVessel is a vessel in a sentence: "the tub", "bucket 1".
func theVessel(name string) string {
	if strings.ContainsAny(name, "0123456789") {
		return name
	}
	return "the " + name
}

// loadOf names the loads that a step is about.
func (s *soakPaper) loadOf(step *day.Step) string {
	if step.Load >= 0 {
		return fmt.Sprint(s.p.Loads[step.Load].Number)
	}
	return s.loadsOf(step.Plants)
}

// mostLoads is how many loads a line names. A guess.
const mostLoads = 3

// loadsOf names the loads that plants are of; "" when there are many.
func (s *soakPaper) loadsOf(ids model.IDs) string {
	var loads []int
	for _, id := range ids {
		if l, _, ok := s.p.Placed(id); ok && !slices.Contains(loads, s.p.Loads[l].Number) {
			loads = append(loads, s.p.Loads[l].Number)
		}
	}
	if len(loads) > mostLoads {
		return ""
	}
	slices.SortFunc(loads, cmp.Compare[int])
	return strings.Trim(strings.ReplaceAll(fmt.Sprint(loads), " ", ", "), "[]")
}
