package board

import (
	"slices"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/ui/show"
)

// laneLabel is the column of names before the lanes.
const laneLabel = 11

// laneKey tells what the signs of the lanes stand for.
const laneKey = "~ fills  ▒ hands in  █ soaks"

// drawLanes draws the day along the clock: a lane a vessel, one for the hands,
// and the hours below. It takes at most so many lines.
func (s *planScreen) drawLanes(p *page, most int) {
	from, until := s.plan.Ask.From, s.plan.HandsFree.Add(30*time.Minute)
	if s.now.Before(from) && from.Sub(s.now) < time.Hour {
		from = s.now
	}
	width := s.width - laneLabel - 3
	scale := timescale{from, until, width}
	vessels := s.plan.Vessels
	if room := max(1, most-2); len(vessels) > room {
		vessels = append(s.usedVessels(true), s.usedVessels(false)...)[:room]
	}
	for _, v := range vessels {
		p.line(" " + show.Pad(show.Safe(v.Name), laneLabel) + " " + s.mark(scale, s.vesselLane(scale, v)))
	}
	p.line(" " + show.Pad("hands", laneLabel) + " " + s.mark(scale, s.handsLane(scale)))
	p.line(" " + strings.Repeat(" ", laneLabel) + " " + s.theme.quiet.of(scale.hours(s.book.Zone())))
}

// usedVessels are the vessels that a load of the plan goes into, or those that
// none goes into.
func (s *planScreen) usedVessels(used bool) []model.Vessel {
	var some []model.Vessel
	for _, v := range s.plan.Vessels {
		if used == slices.ContainsFunc(s.plan.Loads, func(l day.Load) bool { return l.Vessel == v.Name }) {
			some = append(some, v)
		}
	}
	return some
}

// timescale maps a stretch of time to columns.
type timescale struct {
	from, until time.Time
	width       int
}

// column is where a time stands; it may lie outside.
func (t timescale) column(at time.Time) int {
	return int(float64(at.Sub(t.from)) / float64(t.until.Sub(t.from)) * float64(t.width))
}

// fill paints a stretch of time, at least one column of it.
func (t timescale) fill(lane []rune, from, until time.Time, r rune) {
	a, b := t.column(from), t.column(until)
	for i := max(0, a); i < min(max(b, a+1), len(lane)); i++ {
		lane[i] = r
	}
}

func (t timescale) empty() []rune {
	lane := make([]rune, t.width)
	for i := range lane {
		lane[i] = '·'
	}
	return lane
}

// hours writes the full hours where they stand.
func (t timescale) hours(zone *time.Location) string {
	line := []rune(strings.Repeat(" ", t.width))
	step := time.Hour
	for t.until.Sub(t.from)/step > time.Duration(max(1, t.width/7)) {
		step *= 2
	}
	free := 0
	for at := t.from.In(zone).Truncate(time.Hour); at.Before(t.until); at = at.Add(step) {
		label, i := []rune(at.Format("15:04")), t.column(at)
		if i < free || i+len(label) > t.width {
			continue
		}
		copy(line[i:], label)
		free = i + len(label) + 1
	}
	return string(line)
}

// vesselLane shows a vessel's loads: shaded while hands put in or take out,
// solid in between, a wave while it fills.
func (s *planScreen) vesselLane(t timescale, v model.Vessel) []rune {
	lane := t.empty()
	for _, step := range s.plan.Steps {
		if step.Vessel == v.Name && step.Do == soak.Fill {
			t.fill(lane, step.At, step.Until, '~')
		}
	}
	for _, l := range s.plan.Loads {
		if l.Vessel != v.Name {
			continue
		}
		t.fill(lane, l.Start, l.End, '▒')
		if n := len(l.Plants); n > 0 {
			t.fill(lane, l.Plants[n-1].In, l.Out, '█')
		}
	}
	return lane
}

// handsLane shows when the hands are busy.
func (s *planScreen) handsLane(t timescale) []rune {
	lane := t.empty()
	for _, step := range s.plan.Steps {
		if step.Do.Hands() {
			t.fill(lane, step.At, step.Until, '█')
		}
	}
	return lane
}

// mark draws the line of now through a lane.
func (s *planScreen) mark(t timescale, lane []rune) string {
	i := t.column(s.now)
	if i < 0 || i >= len(lane) {
		return s.theme.plain.of(string(lane))
	}
	return string(lane[:i]) + s.theme.alarm.of("│") + string(lane[i+1:])
}
