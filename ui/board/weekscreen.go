package board

import (
	"fmt"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/ui/show"
)

// weekScreen is the collection spread over the week: the hours of each day, and
// which shelf has its turn when.
type weekScreen struct {
	desk  *desk
	week  *day.Week     // as it is, or as it would be with the shelf moved
	moved string        // the shelf being moved; "" is that of plants without one
	to    model.Weekday // the day it is moved to; empty: none is
	rows  window        // the shelves
	built int
}

func newWeek(d *desk) *weekScreen { return &weekScreen{desk: d, built: -1} }

func (s *weekScreen) name() string   { return "Week" }
func (s *weekScreen) letter() string { return "w" }
func (s *weekScreen) badge() string  { return "" }
func (s *weekScreen) list() *list    { return nil }

func (s *weekScreen) open() {
	if s.built != s.desk.version {
		s.build()
	}
}

func (s *weekScreen) sync() {
	if s.built != s.desk.version {
		s.build()
	}
}

func (s *weekScreen) build() {
	s.built, s.moved, s.to = s.desk.version, "", ""
	s.week = day.NewWeek(s.desk.keeper, s.desk.now)
	s.rows.fit(len(s.week.Shelves), s.rows.height)
}

func (s *weekScreen) groups() []group {
	none := func() string {
		if len(s.week.Shelves) == 0 {
			return "No shelves yet"
		}
		return ""
	}
	return []group{
		{"The week", []binding{
			act("enter", "keep the shelf on this day", s.keep).unless(none).footWhen("keep", s.moving),
			act("h ←", "the shelf to an earlier day",
				func() { s.move(-1) }).unless(none).foot("move the shelf to another day"),
			act("l →", "the shelf to a later day: see what it does",
				func() { s.move(1) }).unless(none).foot("move the shelf to another day"),
			act("K", "keep all days as proposed", s.keepAll).footWhen("keep all as proposed",
				func() bool { return !s.moving() }),
			act("esc", "drop the move", s.build).footWhen("drop", s.moving),
		}},
		{"The shelves", s.rows.keys()},
	}
}

// moving reports whether the week is shown with a shelf on another day.
func (s *weekScreen) moving() bool { return s.to != "" }

// turn is the shelf under the cursor.
func (s *weekScreen) turn() day.ShelfTurn { return s.week.Shelves[s.rows.cursor] }

// move shows the week with the shelf on another day; nothing is written yet.
func (s *weekScreen) move(n int) {
	turn := s.turn()
	to := turn.Day
	for i, d := range model.Weekdays {
		if d == to {
			to = model.Weekdays[(i+n+len(model.Weekdays))%len(model.Weekdays)]
			break
		}
	}
	week, changes, err := day.NewWeek(s.desk.keeper, s.desk.now).Move(turn.Shelf, to)
	if err != nil {
		s.desk.complain(err)
		return
	}
	s.week, s.moved, s.to = week, turn.Shelf, to
	text := strings.Join(show.Moved(changes), "; ")
	if turn.Shelf == "" {
		text = shelfWords("") + text // begins with the colon after the name
	}
	s.desk.say("%s", text)
}

// keep writes the day of the shelf under the cursor. With a shelf moved it writes
// the whole week as it is shown, so that no other shelf is proposed anew.
func (s *weekScreen) keep() {
	days := map[string]model.Weekday{s.turn().Shelf: s.turn().Day}
	if s.moving() {
		for _, t := range s.week.Shelves {
			if !t.Kept {
				days[t.Shelf] = t.Day
			}
		}
		days[s.moved] = s.to
	}
	s.desk.enter(&model.ShelfDays{Days: days})
}

func (s *weekScreen) keepAll() {
	fact := day.NewWeek(s.desk.keeper, s.desk.now).Keep()
	if fact == nil {
		s.desk.say("Every shelf's day is in the book already")
		return
	}
	s.desk.enter(fact)
}

func (s *weekScreen) lead() string { return "" }

// draw shows the days as bars, then the shelves.
func (s *weekScreen) draw(p *page, height int) {
	before := p.lines
	p.line(s.desk.heading("Hours at the tub", "what the plants need, of what you have"))
	most := 0.5
	for _, d := range s.week.Days {
		most = max(most, d.Needs, d.Has)
	}
	for _, d := range s.week.Days {
		p.line(s.dayLine(d, most))
	}
	p.line(s.desk.heading("Shelves", s.shortWords()))
	p.line(s.desk.theme.quiet.of(show.Fit("  "+show.Pad("shelf", 16)+" "+show.Pad("day", 10)+" "+show.Pad("", 8)+"  at each soak", s.desk.width)))
	s.rows.fit(len(s.week.Shelves), height-(p.lines-before))
	for from, until := s.rows.inView(); from < until; from++ {
		p.line(s.shelfLine(from))
	}
}

func (s *weekScreen) shortWords() string {
	if n := len(s.week.Short); n > 0 {
		return fmt.Sprintf("%s dry faster than any rhythm here ", show.Count(n, "plant"))
	}
	return ""
}

// dayLine is one day: what it needs against what there is.
func (s *weekScreen) dayLine(d day.WeekDay, most float64) string {
	width := max(10, s.desk.width-52)
	need := int(d.Needs/most*float64(width) + 0.5)
	has := min(int(d.Has/most*float64(width)+0.5), width)
	bar := strings.Repeat("━", need) + strings.Repeat("·", max(0, has-need)) +
		strings.Repeat(" ", max(0, width-max(need, has)))
	paint := s.desk.theme.good
	if d.Needs > d.Has+0.05 {
		paint = s.desk.theme.alarm
	}
	words := hoursWords(d.Has) + " free"
	switch {
	case d.Plants < 0.5 && d.Has < 0.05:
		words = "none"
	case d.Plants >= 0.5:
		words = fmt.Sprintf("%s of %s, %s", hoursWords(d.Needs), hoursWords(d.Has),
			show.Count(int(d.Plants+0.5), "plant"))
	}
	return " " + show.Pad(show.Line(string(d.Day)), 4) + paint.of(bar) + "  " + show.Fit(words, s.desk.width-width-8)
}

func hoursWords(h float64) string { return show.Duration(time.Duration(h * float64(time.Hour))) }

func (s *weekScreen) shelfLine(i int) string {
	t := s.week.Shelves[i]
	sign, name := "  ", show.Pad(show.Safe(shelfWords(t.Shelf)), 16)
	if i == s.rows.cursor {
		sign, name = s.desk.theme.cursor.of("▸")+" ", s.desk.theme.cursor.of(name)
	}
	day := show.Line(string(t.Day))
	if t.Second != "" {
		day += " + " + show.Line(string(t.Second))
	}
	how := s.desk.theme.quiet.of("proposed")
	switch {
	case s.to != "" && s.moved == t.Shelf && i == s.rows.cursor:
		how = s.desk.theme.input.of("moved   ")
	case t.Kept:
		how = "kept    "
	}
	words, more := show.Count(t.Plants, "plant"), []string{hoursWords(t.Hands)}
	if t.Twice > 0 {
		more = append(more, fmt.Sprintf("%d twice a week", t.Twice))
	}
	if t.Rare > 0 {
		more = append(more, fmt.Sprintf("%d every 2nd week", t.Rare))
	}
	room := s.desk.width - 2 - 16 - 1 - 10 - 1 - 8 - 3
	for _, part := range more { // whole or not at all
		if show.Width(words+", "+part) > room {
			break
		}
		words += ", " + part
	}
	line := sign + name + " " + show.Pad(day, 10) + " " + how + "  " + show.Fit(words, room)
	if i == s.rows.cursor {
		return s.desk.barred(line)
	}
	return line
}
