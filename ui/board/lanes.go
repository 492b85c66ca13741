package board

import (
	"math"
	"slices"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/ui/show"
)

// laneLabel is the column of names before the lanes.
const laneLabel = 9

// laneLines is the day along the clock: a lane a vessel that is used, one for the
// hands, one for the tap, and the hours below; none where the screen is too low.
func (s *planScreen) laneLines(height int) []string {
	if len(s.plan.Loads) == 0 {
		return nil
	}
	var names []string
	lanes := map[string][]rune{}
	from, until := s.plan.Ask.From, s.plan.DayFree.Add(15*time.Minute)
	for _, l := range s.plan.Loads {
		if !l.Night {
			from, until = model.Earlier(from, l.Start), model.Later(until, l.End)
		}
	}
	scale := timescale{from.Truncate(time.Hour), until, s.desk.width - laneLabel - 3}
	lane := func(name string) []rune {
		if lanes[name] == nil {
			names = append(names, name)
			lanes[name] = scale.empty()
		}
		return lanes[name]
	}
	for _, v := range s.plan.Vessels {
		for i := range s.plan.Loads {
			if l := &s.plan.Loads[i]; l.Vessel == v.Name && !l.Night {
				s.paintLoad(scale, lane(v.Name), l)
			}
		}
	}
	for _, step := range s.plan.Steps {
		if step.Do == soak.Fill {
			scale.fill(lane("tap"), step.At, step.Until, '~')
		}
	}
	for _, step := range s.plan.Steps {
		if step.Do.Hands() && !step.Done {
			scale.fill(lane("you"), step.At, step.Until, '▒')
		}
	}
	for most := max(1, height/3); len(names)+1 > most && len(names) > 0; {
		names = slices.Delete(names, s.leastUsed(names), s.leastUsed(names)+1)
	}
	var lines []string
	for _, name := range names {
		lines = append(lines, " "+show.Pad(show.Fit(show.Safe(name), laneLabel), laneLabel)+" "+s.mark(scale,
			lanes[name]))
	}
	if len(lines) == 0 {
		return nil
	}
	return append(lines, " "+strings.Repeat(" ", laneLabel)+" "+s.desk.theme.quiet.of(scale.hours(s.desk.book.Zone())))
}

// leastUsed is the lane to go without first: of the vessels the one that soaks fewest
// plants, then the tap.
func (s *planScreen) leastUsed(names []string) int {
	plants := map[string]int{"you": math.MaxInt, "tap": math.MaxInt - 1}
	for i := range s.plan.Loads {
		plants[s.plan.Loads[i].Vessel] += len(s.plan.Loads[i].Plants)
	}
	least := 0
	for i, name := range names {
		if plants[name] < plants[names[least]] {
			least = i
		}
	}
	return least
}

// paintLoad shows a load in its vessel: shaded while hands lay in or take out,
// solid in between.
func (s *planScreen) paintLoad(t timescale, lane []rune, l *day.Load) {
	t.fill(lane, l.Start, l.End, '▒')
	if in := inUntil(l); in.Before(l.Out) {
		t.fill(lane, in, l.Out, '█')
	}
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

// hours writes the full hours where they stand: "08", and "08:00" where there is
// room.
func (t timescale) hours(zone *time.Location) string {
	line := []rune(strings.Repeat(" ", t.width))
	layout := "15"
	if t.column(t.from.Add(time.Hour)) >= 8 {
		layout = "15:04"
	}
	free := 0
	for at := t.from.In(zone).Truncate(time.Hour); at.Before(t.until); at = at.Add(time.Hour) {
		label, i := []rune(at.Format(layout)), t.column(at)
		if i < free || i < 0 || i+len(label) > t.width {
			continue
		}
		copy(line[i:], label)
		free = i + len(label) + 1
	}
	return string(line)
}

// mark draws the line of now through a lane.
func (s *planScreen) mark(t timescale, lane []rune) string {
	i := t.column(s.desk.now)
	if i < 0 || i >= len(lane) {
		return string(lane)
	}
	return string(lane[:i]) + s.desk.theme.alarm.of("│") + string(lane[i+1:])
}
