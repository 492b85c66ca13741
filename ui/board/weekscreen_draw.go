package board

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/ui/show"
)

// draw shows the days as bars, then the shelves, and below them the plants that no rhythm
// holds; in a wide window the day and the shelf under the cursor stand beside.
func (s *weekScreen) draw(p *page, height int) {
	until := p.lines + height
	left := []string{s.desk.headingIn("Hours at the tub", "what the plants need, of what you have ", s.desk.listWidth())}
	most := 0.5
	for _, d := range s.week.Days {
		most = max(most, d.Needs, d.Has)
	}
	for i, d := range s.week.Days {
		was := d
		if s.was != nil {
			was = s.was.Days[i]
		}
		left = append(left, s.dayLine(d, was, max(most, was.Needs)))
	}
	left = append(left, s.shelfLines(height-len(left))...)
	if s.desk.room() {
		s.desk.drawTwo(p, until, s.padded(left), s.besideLines(height))
		return
	}
	for _, line := range left {
		p.line(line)
	}
}

// padded fills lines to the width of the list.
func (s *weekScreen) padded(lines []string) []string {
	for i, line := range lines {
		lines[i] = line + strings.Repeat(" ", max(0, s.desk.listWidth()-show.Width(line)))
	}
	return lines
}

// dayWords is the room for what stands before a day's bar: "4 h 12 min of 5 h, was 4 h 58 min".
const dayWords = 34

// dayLine is one day: what it needs against what there is and, where a shelf is moved,
// what it needed before.
func (s *weekScreen) dayLine(d, was day.WeekDay, most float64) string {
	width := max(10, s.desk.listWidth()-dayWords-8)
	cells := func(hours float64) int { return min(int(hours/most*float64(width)+0.5), width) }
	need, before, has := cells(d.Needs), cells(was.Needs), cells(d.Has)
	bar := strings.Repeat("━", need) + strings.Repeat("╌", max(0, before-need))
	bar += strings.Repeat("·", max(0, has-max(need, before)))
	paint := s.desk.theme.good
	if d.Needs > d.Has+0.05 || d.Bench > 1 {
		paint = s.desk.theme.alarm
	}
	words := hoursWords(d.Has) + " free"
	switch {
	case was.Needs != d.Needs:
		words = fmt.Sprintf("%s of %s, was %s", hoursWords(d.Needs), hoursWords(d.Has), hoursWords(was.Needs))
	case d.Plants < 0.5 && d.Has < 0.05:
		words = "none"
	case d.Plants >= 0.5:
		words = fmt.Sprintf("%s of %s, %s", hoursWords(d.Needs), hoursWords(d.Has),
			show.Count(int(d.Plants+0.5), "plant"))
	}
	return " " + show.Pad(show.Line(string(d.Day)), 4) + " " + show.Pad(words, s.desk.listWidth()-width-8) + " " + paint.of(bar)
}

func hoursWords(h float64) string { return show.Duration(time.Duration(h * float64(time.Hour))) }

// Widths of the columns of shelves.
const (
	shelfColumn = 16 // 12 in a narrow window
	dayColumn   = 10
	howColumn   = 8
	hoursBar    = 20 // of hands, in a window with room for it
)

// shelfLines are the shelves in so many lines, and below them, where lines are left, the
// plants that dry out faster than any rhythm here allows.
func (s *weekScreen) shelfLines(room int) []string {
	width := s.desk.listWidth()
	head := "  " + show.Pad("shelf", s.shelfColumn()) + " " + show.Pad("day", dayColumn) + " " + show.Pad("", howColumn)
	if s.drawsHours() {
		head += "  " + show.PadLeft("plants", 6) + "  hours at each soak"
	} else {
		head += "  at each soak"
	}
	lines := []string{
		s.desk.headingIn("Shelves", s.shortWords(), width), s.desk.theme.quiet.of(show.Fit(head, width)),
	}
	s.rows.fit(len(s.week.Shelves), room-len(lines))
	for from, until := s.rows.inView(); from < until; from++ {
		lines = append(lines, s.shelfLine(from))
	}
	if short := s.shortLines(room - len(lines) - 2); len(short) > 0 {
		lines = append(lines, "", s.desk.headingIn("Dry out faster than your soak days", show.Count(len(s.week.Short), "plant"), width))
		lines = append(lines, short...)
	}
	return lines
}

func (s *weekScreen) shortWords() string {
	if n := len(s.week.Short); n > 0 {
		return fmt.Sprintf("%s dry out faster than your soak days ", show.Count(n, "plant"))
	}
	return ""
}

// shortLines name the plants that no rhythm holds, in so many lines, the fastest first.
func (s *weekScreen) shortLines(room int) []string {
	short := slices.Clone(s.week.Short)
	if len(short) == 0 || room < 1 {
		return nil
	}
	slices.SortStableFunc(short, func(a, b day.ShortOf) int { return cmp.Compare(a.Days, b.Days) })
	more := 0
	if len(short) > room {
		more, short = len(short)-room+1, short[:room-1]
	}
	var lines []string
	for _, of := range short {
		row := s.desk.book.Row(of.ID)
		lines = append(lines, show.Fit("  "+show.Pad(hangs(row), shelfColumn)+" "+show.Pad(show.Title(row.Plant), 20)+" "+
			show.WantsOften(of), s.desk.listWidth()))
	}
	if more > 0 {
		lines = append(lines, s.desk.theme.quiet.of(fmt.Sprintf("  and %d more", more)))
	}
	return lines
}

func (s *weekScreen) shelfColumn() int {
	if s.desk.width < narrow {
		return shelfColumn - 4
	}
	return shelfColumn
}

// drawsHours reports whether there is room for a bar of each shelf's hours.
func (s *weekScreen) drawsHours() bool { return s.desk.listWidth() >= wideScreen-2 && !s.desk.lines }

func (s *weekScreen) shelfLine(i int) string {
	t := s.week.Shelves[i]
	sign, name := "  ", show.Pad(show.Safe(shelfWords(t.Shelf)), s.shelfColumn())
	if i == s.rows.cursor {
		sign, name = s.desk.theme.cursor.of("▸")+" ", s.desk.theme.cursor.of(name)
	}
	days := show.Line(string(t.Day))
	if t.Second != "" {
		days += " + " + show.Line(string(t.Second))
	}
	how := s.desk.theme.quiet.of("proposed")
	switch {
	case s.to != "" && s.moved == t.Shelf && i == s.rows.cursor:
		how = s.desk.theme.input.of("moved   ")
	case t.Kept:
		how = "kept    "
	}
	line := sign + name + " " + show.Pad(days, dayColumn) + " " + how + "  "
	room := s.desk.listWidth() - 2 - s.shelfColumn() - 1 - dayColumn - 1 - howColumn - 3
	words, more := show.Count(t.Plants, "plant"), []string{hoursWords(t.Hands)}
	if s.drawsHours() {
		most := 0.25
		for _, other := range s.week.Shelves {
			most = max(most, other.Hands)
		}
		bar := strings.Repeat("━", int(t.Hands/most*hoursBar+0.5))
		line += show.PadLeft(fmt.Sprint(t.Plants), 6) + "  " + s.desk.theme.accent.of(show.Pad(bar, hoursBar)) + " "
		words, more, room = hoursWords(t.Hands), nil, room-6-2-hoursBar-1
	}
	if t.Twice > 0 {
		more = append(more, fmt.Sprintf("%d twice a week", t.Twice))
	}
	if t.Rare > 0 {
		more = append(more, fmt.Sprintf("%d every 2nd week", t.Rare))
	}
	for _, part := range more { // whole or not at all
		if show.Width(words+", "+part) > room {
			break
		}
		words += ", " + part
	}
	line += show.Fit(words, room)
	if i == s.rows.cursor {
		return s.desk.barredIn(line, s.desk.listWidth())
	}
	return line
}

// besideLines are what fills the day of the shelf under the cursor, and the shelf's
// plants, the thirstiest first: whom it would suit to wait, and whom it would not.
func (s *weekScreen) besideLines(room int) []string {
	if len(s.week.Shelves) == 0 {
		return nil
	}
	t := s.turn()
	var lines []string
	if i := slices.IndexFunc(s.week.Days, func(d day.WeekDay) bool { return d.Day == t.Day }); i >= 0 {
		lines = append(s.fillsDay(s.week.Days[i]), "")
	}
	ids := s.hung[model.ShelfKey(t.Shelf)]
	lines = append(lines, s.desk.headingIn(show.Safe(shelfWords(t.Shelf)), "days since the soak, thirst, soak", cardWidth))
	for i, id := range ids {
		if len(lines) == room-1 && i < len(ids)-1 {
			return append(lines, s.desk.theme.quiet.of(fmt.Sprintf("  and %d more", len(ids)-i)))
		}
		row, need := s.desk.book.Row(id), s.desk.need(id)
		band := s.desk.theme.bands[need.Band]
		lines = append(lines, "  "+show.Pad(show.Safe(cmp.Or(row.Home.Spot, "#"+id.String())), 6)+" "+show.Pad(show.Title(row.Plant), 18)+" "+
			show.PadLeft(daysShort(need.DaysSince), 4)+"  "+s.desk.thirst(need.Stand, band, barWidth)+" "+
			show.PadLeft(fmt.Sprintf("%.0f %%", 100*need.Stand.Thirst()), 5)+"  "+band.of(need.Band.String()))
	}
	return lines
}

// fillsDay says what fills a day: hands, vessels and racks, the longest first to run out.
func (s *weekScreen) fillsDay(d day.WeekDay) []string {
	const width = 20
	lines := []string{s.desk.headingIn("What fills "+d.Next.Format("Monday"), "", cardWidth)}
	if d.Plants < 0.5 {
		return append(lines, s.desk.theme.quiet.of("  nothing yet"))
	}
	has := max(d.Has, 0.01)
	for _, part := range []struct {
		name, words string
		share       float64
	}{
		{"your hands", hoursWords(d.Hands) + " of " + hoursWords(d.Has), d.Hands / has},
		{"the vessels", hoursWords(d.Vessel) + " of " + hoursWords(d.Has), d.Vessel / has},
		{"the racks", fmt.Sprintf("%.0f %% of their room", 100*min(d.Bench, 9.99)), d.Bench},
	} {
		full, paint := int(min(part.share, 1)*width+0.5), s.desk.theme.good
		if part.share > 1.01 {
			paint = s.desk.theme.alarm
		}
		lines = append(lines, "  "+show.Pad(part.name, 13)+paint.of(strings.Repeat("━", full)+strings.Repeat("·", width-full))+"  "+part.words)
	}
	return lines
}
