package board

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/trip"
	"tubside/ui/show"
)

// tripScreen is a trip to come: what each plant will be like on return, whom to
// soak on the last day, and what to move.
type tripScreen struct {
	desk        *desk
	from, until time.Time // as asked; zero from is now
	trip        *trip.Forecast
	rows        *list
	left        map[model.ID]*trip.Left
	named       naming
	built       int
}

// usualTrip is how long the screen is away at first, in days: a week.
const usualTrip = 7

func newTrip(d *desk) *tripScreen { return &tripScreen{desk: d, rows: newList(), built: -1} }

func (s *tripScreen) name() string   { return "Trip" }
func (s *tripScreen) letter() string { return "v" }
func (s *tripScreen) badge() string  { return "" }
func (s *tripScreen) list() *list    { return s.rows }

func (s *tripScreen) open() {
	if s.trip == nil || s.built != s.desk.version {
		s.build()
	}
}

func (s *tripScreen) sync() {
	if s.built != s.desk.version {
		s.build()
	}
	s.rows.resize(s.desk.body() - len(s.numbers()) - len(s.words()) - 1)
}

// build forecasts the trip: first those to soak on the last day, in walking
// order, then the rest, the driest on return first.
func (s *tripScreen) build() {
	s.built = s.desk.version
	from, until := s.from, s.until
	if from.IsZero() || from.Before(s.desk.now) {
		from = s.desk.now
	}
	if !until.After(from) {
		until = from.AddDate(0, 0, usualTrip)
	}
	s.trip = trip.NewForecast(s.desk.keeper, s.desk.now, from, until, s.desk.keeper.ExpectAir(s.desk.now, from, until))
	s.left = make(map[model.ID]*trip.Left, len(s.trip.Plants))
	var soak, rest model.IDs
	for i := range s.trip.Plants {
		l := &s.trip.Plants[i]
		s.left[l.ID] = l
		if l.Last != nil {
			soak = append(soak, l.ID)
		} else {
			rest = append(rest, l.ID)
		}
	}
	slices.SortStableFunc(rest, func(a, b model.ID) int { return cmp.Compare(s.left[a].Return.RWC, s.left[b].Return.RWC) })
	var sections []section
	if len(soak) > 0 {
		sections = append(sections, section{"Soak on the last day", s.desk.book.Walk(soak)})
	}
	if len(rest) > 0 {
		sections = append(sections, section{"The rest, driest on return first", rest})
	}
	s.named = s.desk.namingOf(append(slices.Clone(soak), rest...))
	s.rows.fill(sections)
}

func (s *tripScreen) groups() []group {
	longer := func(days int) func() {
		return func() {
			s.until = s.trip.Until.AddDate(0, 0, days)
			if !s.until.After(s.trip.From) {
				s.until = s.trip.From.AddDate(0, 0, 1)
			}
			s.build()
		}
	}
	return []group{
		{"The trip", []binding{
			act(".", "a day longer", longer(1)).foot("longer"),
			act(",", "a day shorter", longer(-1)).foot("shorter"),
			act("H", "the days: from and until", func() { s.desk.push(tripForm(s)) }).foot("days"),
			act("K", "write the trip in the book",
				func() { s.desk.enter(&model.Trip{From: s.trip.From, Until: s.trip.Until}) }).foot("write it"),
			act("R", "home again", func() { s.desk.enter(&model.Back{}) }).foot("home again"),
			remark("(on paper: tubside forecast --sitter)"),
		}},
		{"The list", append(s.rows.keys(), act("esc", "drop marks", s.rows.unmark).footWhen("unmark", s.rows.several))},
	}
}

// tripForm asks for the days of the trip.
func tripForm(s *tripScreen) *form {
	zone := s.desk.book.Zone()
	return newForm(s.desk, "The trip", func(f *form) error {
		var days [2]time.Time
		for i := range days {
			day, err := model.ParseDay(f.text(i), model.ISO)
			if err != nil {
				return wrong(i, err)
			}
			days[i] = model.NoonOf(day, zone)
		}
		if !days[1].After(days[0]) {
			return wrong(1, fmt.Errorf("come home after you leave"))
		}
		s.from, s.until = days[0], days[1]
		s.build()
		return nil
	},
		newField("from", show.Date(s.trip.From, zone), "the day you leave, 7 May 2026"),
		newField("until", show.Date(s.trip.Until, zone), "the day you are back"))
}

func (s *tripScreen) lead() string { return s.rows.lead() }

// leastListed is how many lines of the list the words leave room for.
const leastListed = 7

// roomForNumbers is the height from which the three numbers stand large.
const roomForNumbers = 18

// numbers draws the trip as three numbers: how many plants left alone will want a
// soak, how many will have lost half their water, and how many may come to harm.
func (s *tripScreen) numbers() []string {
	if s.trip == nil || len(s.trip.Plants) == 0 || s.desk.body() < roomForNumbers {
		return nil
	}
	n := s.trip.Count(s.desk.book)
	orGood := func(count int, otherwise paint) paint {
		if count == 0 {
			return s.desk.theme.good
		}
		return otherwise
	}
	numbers := []struct {
		value int
		words string
		paint paint
	}{
		{n.Crossing, "will want a soak", orGood(n.Crossing, s.desk.theme.accent)},
		{n.Half, "will be down to half", orGood(n.Half, s.desk.theme.warn)},
		{n.Injured, "may come to harm", orGood(n.Injured, s.desk.theme.alarm)},
	}
	var lines []string
	if s.desk.lines {
		for _, number := range numbers {
			lines = append(lines, fmt.Sprintf(" %d %s", number.value, number.words))
		}
		return lines
	}
	width := (s.desk.width - 2) / len(numbers)
	for line := range len(fineDigits("", false)) {
		row := " "
		for _, number := range numbers {
			digits := fineDigits(strconv.Itoa(number.value), s.desk.ascii)
			words := wrap(number.words, max(width-show.Width(digits[0])-4, 1))
			text := ""
			if first := 1; line >= first && line-first < len(words) {
				text = words[line-first]
			}
			row += number.paint.of(digits[line]) + "  " + show.Pad(text, max(0, width-show.Width(digits[0])-2))
		}
		lines = append(lines, row)
	}
	return lines
}

// words are the trip in a few lines, each whole or cut where a clause ends.
func (s *tripScreen) words() []string {
	if s.trip == nil || len(s.trip.Plants) == 0 {
		return nil
	}
	var lines []string
	if len(s.numbers()) == 0 {
		lines = append(lines, show.TripNumbers(s.trip.Count(s.desk.book)))
	}
	lines = append(lines, show.TripInShort(s.desk.book, s.trip)...)
	lines = lines[:min(len(lines), max(1, s.desk.body()-len(s.numbers())-leastListed))]
	for i, line := range lines {
		lines[i] = show.Clause(show.Line(line), s.desk.width-2)
	}
	return lines
}

func (s *tripScreen) draw(p *page, height int) {
	for _, line := range s.numbers() {
		p.line(line)
	}
	for _, line := range s.words() {
		p.line(" " + show.Fit(line, s.desk.width-1))
	}
	if len(s.rows.rows) == 0 {
		p.line("")
		p.line("   No plants yet: there is nobody to leave alone.")
		return
	}
	c := s.columns()
	thirst, share := "thirst by then", c.bar+1+shareWidth
	if c.bar == 0 {
		thirst, share = "thirst", shareWidth
	}
	p.line(s.desk.theme.quiet.of(show.Fit("  "+show.Pad("home", c.home)+" "+show.Pad("plant", c.plant)+" "+
		show.PadLeft(thirst, share)+"  "+show.Pad("soak", c.soak)+"  in by", s.desk.width)))
	s.rows.draw(p.line, s.row, func(g int) string { return s.desk.heading(s.rows.heads[g], "") })
}

// tripColumns are the widths of the list's columns; a bar of 0 is none.
type tripColumns struct{ home, plant, bar, soak int }

const (
	shareWidth  = 6  // its head: "thirst"
	lengthWidth = 7  // "2 h 30"
	windowWidth = 17 // "1 h 40, up to 3 h"
	hourWidth   = 9  // "Sun 13:45"
	moveWidth   = 14 // "13:45  move it"
)

// columns are what the window has room for: the hour to be in the water by is never
// what gets cut.
func (s *tripScreen) columns() tripColumns {
	c := tripColumns{bar: barWidth, soak: windowWidth}
	if s.desk.width < 76 {
		c = tripColumns{soak: lengthWidth}
	}
	hour := hourWidth
	if slices.ContainsFunc(s.trip.Plants, func(l trip.Left) bool { return l.Last != nil && l.Move != trip.Stay }) {
		hour = moveWidth
	}
	c.plant, c.home = s.named.columns(s.desk.width - c.used() - c.soak - 2 - hour - 1)
	return c
}

// used is the room that all before the soak takes.
func (c tripColumns) used() int {
	used := 2 + c.home + 1 + c.plant + 1 + shareWidth + 2
	if c.bar > 0 {
		used += c.bar + 1
	}
	return used
}

func (s *tripScreen) row(id model.ID, i int) string {
	r, l := s.desk.book.Row(id), s.left[id]
	if l == nil {
		return ""
	}
	c := s.columns()
	title := show.PadName(s.named.of(r), c.plant)
	if i == s.rows.cursor {
		title = s.desk.theme.cursor.of(title)
	}
	stand, _ := l.AtReturn()
	bar := ""
	if c.bar > 0 {
		bar = s.desk.thirst(stand, s.desk.theme.accent, c.bar) + " "
	}
	line := s.desk.sign(s.rows, id, i) + show.PadName(hangs(r), c.home) + " " + title + " " + bar +
		show.PadLeft(fmt.Sprintf("%.0f %%", 100*stand.Thirst()), shareWidth) + "  "
	room := s.desk.width - c.used() - 1
	return line + show.Fit(s.note(l, c, room), room)
}

// roomForWhy is the least room in which a reason says anything.
const roomForWhy = 24

// note is the soak before leaving and the hour for it, then what else is to know as
// far as there is room.
func (s *tripScreen) note(l *trip.Left, c tripColumns, room int) string {
	_, do := show.LeftAlone(s.desk.book, l)
	if l.Last == nil {
		return show.Safe(show.Clause(strings.Join(do, "; "), room))
	}
	length := show.Soak(l.Last.From, l.Last.To)
	if c.soak < windowWidth {
		length = show.Soak(l.Last.From, l.Last.From)
	}
	text := show.Pad(length, c.soak) + "  " + show.Clock(l.Last.InBy, s.desk.now, s.desk.book.Zone())
	switch left := room - show.Width(text) - 2; {
	case left >= roomForWhy:
		text += "  " + show.Clause(strings.Join(do, "; "), left)
	case l.Move != trip.Stay:
		text += "  move it"
	}
	return show.Safe(text)
}
