package board

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/soak"
	"tubside/ui/show"
)

// laneLabel is the column of names before the lanes.
const laneLabel = 9

// lane is one line of the day along the clock: the sign and the ink of each column.
type lane struct {
	signs []rune
	inks  []paint
}

// The signs of a lane: something lies in the water, hands are at work, the tap runs.
const (
	laneEmpty = '·'
	laneWater = '━'
	laneHands = '╍'
	laneTap   = '~'
)

// laneLines is the day along the clock: a lane a vessel that is used, one for the
// hands, one for the tap, and the hours below; none where the screen is too low.
func (s *planScreen) laneLines(height int) []string {
	if len(s.plan.Loads) == 0 {
		return nil
	}
	var names []string
	lanes := map[string]*lane{}
	from, until := s.plan.Ask.From, s.plan.DayFree.Add(15*time.Minute)
	for _, l := range s.plan.Loads {
		if !l.Night {
			from, until = model.Earlier(from, l.Start), model.Later(until, l.End)
		}
	}
	scale := timescale{from.Truncate(time.Hour), until, s.desk.width - laneLabel - 3}
	named := func(name string) *lane {
		if lanes[name] == nil {
			names = append(names, name)
			lanes[name] = s.emptyLane(scale.width)
		}
		return lanes[name]
	}
	for _, v := range s.plan.Vessels {
		for i := range s.plan.Loads {
			if l := &s.plan.Loads[i]; l.Vessel == v.Name && !l.Night {
				s.paintLoad(scale, named(v.Name), i)
			}
		}
	}
	for _, step := range s.plan.Steps {
		if step.Do == soak.Fill {
			scale.fill(named("tap"), step.At, step.Until, laneTap, s.desk.theme.accent)
		}
	}
	for _, step := range s.plan.Steps {
		if step.Do.Hands() && !step.Done {
			scale.fill(named("you"), step.At, step.Until, laneHands, s.desk.theme.plain)
		}
	}
	without := 0
	for most := max(1, height/3); len(names)+1 > most && len(names) > 0; without++ {
		names = slices.Delete(names, s.leastUsed(names), s.leastUsed(names)+1)
	}
	var lines []string
	for _, name := range names {
		s.markNow(scale, lanes[name])
		lines = append(lines, " "+show.Pad(show.Fit(show.Safe(name), laneLabel), laneLabel)+" "+lanes[name].String())
	}
	if len(lines) == 0 {
		return nil
	}
	label := ""
	if without > 0 {
		label = fmt.Sprintf("+%d more", without)
	}
	return append(lines, " "+s.desk.theme.quiet.of(show.Pad(label, laneLabel))+" "+s.desk.theme.quiet.of(scale.hours(s.desk.book.Zone(), time.Time{})))
}

// leastUsed is the lane to go without first: of the vessels the one that soaks fewest
// plants, then the tap; never that of what is to be done next.
func (s *planScreen) leastUsed(names []string) int {
	plants := map[string]int{"you": math.MaxInt, "tap": math.MaxInt - 1}
	for i := range s.plan.Loads {
		plants[s.plan.Loads[i].Vessel] += len(s.plan.Loads[i].Plants)
	}
	if next := s.nextStep(); next != nil && next.Vessel != "" {
		plants[next.Vessel] = math.MaxInt
	}
	least := 0
	for i, name := range names {
		if plants[name] < plants[names[least]] {
			least = i
		}
	}
	return least
}

// paintLoad shows a load in its vessel, in the colour of its length and with its
// number where there is room; the load under the cursor in bold.
func (s *planScreen) paintLoad(t timescale, to *lane, i int) {
	l := &s.plan.Loads[i]
	colour := s.desk.theme.bands[advice.BandOf(l.Out.Sub(l.Start).Minutes(), s.desk.book.Rules())]
	if i == s.rows.cursor {
		colour = paint{s.desk.theme.title.open + colour.open, colour.close + s.desk.theme.title.close}
	}
	t.fill(to, l.Start, l.End, laneHands, colour)
	if in := inUntil(l); in.Before(l.Out) {
		t.fill(to, in, l.Out, laneWater, colour)
	}
	from, until := t.column(l.Start), t.column(l.End)
	number := fmt.Sprintf(" %d ", l.Number)
	if until-from < len(number)+2 {
		number = strings.TrimSpace(number)
	}
	if at := (from + until - len(number)) / 2; at > from && at+len(number) < until {
		copy(to.signs[at:], []rune(number))
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
func (t timescale) fill(to *lane, from, until time.Time, sign rune, colour paint) {
	a, b := t.column(from), t.column(until)
	for i := max(0, a); i < min(max(b, a+1), len(to.signs)); i++ {
		to.signs[i], to.inks[i] = sign, colour
	}
}

func (s *planScreen) emptyLane(width int) *lane {
	l := &lane{make([]rune, width), make([]paint, width)}
	for i := range l.signs {
		l.signs[i], l.inks[i] = laneEmpty, s.desk.theme.quiet
	}
	return l
}

// String is the lane, each stretch of one ink painted at once.
func (l *lane) String() string {
	var b strings.Builder
	for i := 0; i < len(l.signs); {
		end := i
		for end < len(l.signs) && l.inks[end] == l.inks[i] {
			end++
		}
		b.WriteString(l.inks[i].of(string(l.signs[i:end])))
		i = end
	}
	return b.String()
}

// hours writes the full hours where they stand: "08", and "08:00" where there is
// room; and where it is now, if that is not zero.
func (t timescale) hours(zone *time.Location, now time.Time) string {
	line := []rune(strings.Repeat(" ", t.width))
	mark := []rune("╵now")
	at := t.column(now)
	marked := !now.IsZero() && at >= 0 && at+len(mark) <= t.width
	if marked {
		copy(line[at:], mark)
	}
	layout := "15"
	if t.column(t.from.Add(time.Hour)) >= 8 {
		layout = "15:04"
	}
	free := 0
	for hour := t.from.In(zone).Truncate(time.Hour); hour.Before(t.until); hour = hour.Add(time.Hour) {
		label, i := []rune(hour.Format(layout)), t.column(hour)
		if i < free || i < 0 || i+len(label) > t.width || marked && i <= at+len(mark) && i+len(label) >= at {
			continue
		}
		copy(line[i:], label)
		free = i + len(label) + 1
	}
	return string(line)
}

// markNow draws the line of now through a lane.
func (s *planScreen) markNow(t timescale, l *lane) {
	if i := t.column(s.desk.now); i >= 0 && i < len(l.signs) {
		l.signs[i], l.inks[i] = '│', s.desk.theme.alarm
	}
}
