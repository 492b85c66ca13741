package board

import (
	"fmt"
	"strings"

	"tubside/model"
	"tubside/ui/show"
)

// historyScreen is the book's entries, the last one first. Any of them can be
// undone, as long as no later one builds on it, and done again.
type historyScreen struct {
	desk  *desk
	rows  window
	seqs  []int // places in the book's entries, the newest first; strikes are left out
	built int

	sought string // what was looked for last
}

func newHistory(d *desk) *historyScreen { return &historyScreen{desk: d, built: -1} }

func (s *historyScreen) name() string   { return "History" }
func (s *historyScreen) letter() string { return "y" }
func (s *historyScreen) badge() string  { return "" }
func (s *historyScreen) list() *list    { return nil }
func (s *historyScreen) lead() string   { return "" }

func (s *historyScreen) open() {
	s.rows.put(0)
	s.sync()
}

// sync lists the entries anew when one was made; a new one goes on top, and the
// cursor stays on its entry.
func (s *historyScreen) sync() {
	if s.built != s.desk.version {
		s.built = s.desk.version
		was := len(s.seqs)
		s.seqs = s.seqs[:0]
		entries := s.desk.book.Entries()
		for i := len(entries) - 1; i >= 0; i-- {
			if _, strike := entries[i].Fact.(*model.Strike); !strike {
				s.seqs = append(s.seqs, i)
			}
		}
		if more := len(s.seqs) - was; was > 0 && more > 0 && s.rows.cursor > 0 {
			s.rows.cursor += more
		}
	}
	s.rows.fit(len(s.seqs), s.desk.body()-1-s.foot())
}

// foot is how many lines under the list hold the whole of an entry, a rule among them; in a
// wide window it stands beside the list.
func (s *historyScreen) foot() int {
	if s.desk.room() {
		return 0
	}
	return max(4, s.desk.body()/4)
}

func (s *historyScreen) groups() []group {
	none := func() string {
		if len(s.seqs) == 0 {
			return "Nothing is written yet"
		}
		return ""
	}
	word := func() string {
		if len(s.seqs) > 0 && s.desk.book.Struck(s.entry(s.rows.cursor).Seq) {
			return "redo this one"
		}
		return "undo this one"
	}
	undo := []binding{act("x", "undo the entry under the cursor, or redo it", s.turn).pad("*").unless(none).foot(word())}
	if !s.desk.onPad() { // there enter opens what has no key of its own
		undo = append(undo, act("enter", "", func() {
			s.desk.say("x undoes the entry under the cursor; all of it is shown with the list")
		}))
	}
	return []group{
		{"History", undo},
		{"The list", s.rows.keys()},
	}
}

func (s *historyScreen) entry(row int) model.Entry { return s.desk.book.Entries()[s.seqs[row]] }

// turn undoes the entry under the cursor; one that is undone counts again.
func (s *historyScreen) turn() {
	e := s.entry(s.rows.cursor)
	if !s.desk.book.Struck(e.Seq) {
		s.desk.undo(e)
		return
	}
	entries := s.desk.book.Entries()
	for i := len(entries) - 1; i >= 0; i-- {
		if f, ok := entries[i].Fact.(*model.Strike); ok && f.Seq == e.Seq && !s.desk.book.Struck(entries[i].Seq) {
			if s.desk.enter(&model.Strike{Seq: entries[i].Seq}) {
				s.desk.say("Redone: %s", show.Fit(show.Sentence(e, s.desk.book), s.desk.width-10))
			} else {
				s.desk.refuse("It cannot be redone: something written after it was undone builds on that")
			}
			return
		}
	}
}

func (s *historyScreen) draw(p *page, height int) {
	until := p.lines + height
	p.line(s.desk.heading("History", show.Count(len(s.seqs), "entry", "entries")+" "))
	from, end := s.rows.inView()
	when := whenWidth
	if s.desk.width < narrow { // no wider than what is in view needs
		when = 0
		for i := from; i < end; i++ {
			when = max(when, show.Width(s.desk.entryTime(s.entry(i))))
		}
	}
	var lines []string
	for i := from; i < end; i++ {
		lines = append(lines, s.line(i, when))
	}
	if s.desk.room() && len(s.seqs) > 0 {
		s.desk.drawTwo(p, until, lines, s.besideLines(until-p.lines))
		return
	}
	for _, line := range lines {
		p.line(line)
	}
	if len(s.seqs) == 0 {
		return
	}
	p.fill(until - s.foot())
	p.line(s.desk.theme.quiet.of(" " + strings.Repeat("─", s.desk.width-2)))
	e := s.entry(s.rows.cursor)
	written := fmt.Sprintf("Entry %d, %s  ", e.Seq, show.Clock(e.At, s.desk.now, s.desk.book.Zone()))
	whole := written + show.Line(show.Sentence(e, s.desk.book)) + "."
	if strings.HasSuffix(show.Plants(e.Plants, s.desk.book), " more") {
		fit := min(len(e.Plants), s.foot()*s.desk.width/3) // no more names than could find room
		whole += " All of them: " + show.Line(show.Everyone(e.Plants[:fit], s.desk.book)) + "."
	}
	room, lines := s.foot()-1, wrap(whole, s.desk.width-2)
	for i, line := range lines[:min(len(lines), room)] {
		if i == room-1 && len(lines) > room {
			line = show.Fit(line+" "+lines[i+1], s.desk.width-2)
		}
		p.line(" " + line)
	}
}

// besideLines are the entry under the cursor in full, in so many lines: what it says, and
// each of its plants.
func (s *historyScreen) besideLines(room int) []string {
	e := s.entry(s.rows.cursor)
	lines := []string{s.desk.headingIn(fmt.Sprintf("Entry %d", e.Seq), show.Clock(e.At, s.desk.now, s.desk.book.Zone()), cardWidth)}
	for _, line := range wrap(show.Line(show.Sentence(e, s.desk.book))+".", cardWidth-3) {
		lines = append(lines, "  "+line)
	}
	if len(e.Plants) > 0 {
		lines = append(lines, "", s.desk.headingIn("Plants", fmt.Sprint(len(e.Plants)), cardWidth))
	}
	for i, id := range e.Plants {
		if len(lines) == room-1 && i < len(e.Plants)-1 {
			return append(lines, s.desk.theme.quiet.of(fmt.Sprintf("  and %d more", len(e.Plants)-i)))
		}
		name, home := "", "no longer in the book"
		if row := s.desk.book.Row(id); row != nil {
			name, home = show.Title(row.Plant), show.Safe(row.Home.String())
		}
		lines = append(lines, show.Fit("  "+show.Pad("#"+id.String(), 6)+" "+show.PadName(name, 26)+" "+home, cardWidth))
	}
	return lines
}

// whenWidth is the column of the times: "27 Dec 12:09".
const whenWidth = 12

// monthsWithoutYear is how far back a day is plain without its year.
const monthsWithoutYear = 10

// entryTime is the time of an entry in one narrow column: the hour of today, with the
// weekday within a week, then the day with its hour, and at last with its year.
func (d *desk) entryTime(e model.Entry) string {
	zone := d.book.Zone()
	at, now := e.At.In(zone), d.now.In(zone)
	words := show.Clock(at, now, zone)
	switch {
	case show.Width(words) <= whenWidth:
		return words
	case at.After(now.AddDate(0, -monthsWithoutYear, 0)) && !at.After(now):
		return at.Format("2 Jan 15:04")
	}
	return at.Format("2 Jan 2006")
}

func (s *historyScreen) line(i, when int) string {
	e := s.entry(i)
	sign, paint := "  ", s.desk.theme.plain
	text := show.Line(show.Sentence(e, s.desk.book))
	if s.desk.book.Struck(e.Seq) {
		text, paint = "undone: "+text, s.desk.theme.quiet
	}
	if i == s.rows.cursor {
		sign = s.desk.theme.cursor.of("▸") + " "
	}
	line := sign + s.desk.theme.quiet.of(show.PadLeft(s.desk.entryTime(e), when)) + "  " +
		paint.of(show.Clause(text, s.desk.listWidth()-2-when-3))
	if i == s.rows.cursor {
		return s.desk.barredIn(line, s.desk.listWidth())
	}
	if s.desk.room() {
		line += strings.Repeat(" ", max(0, s.desk.listWidth()-show.Width(line)))
	}
	return line
}

// find asks what to look for in the entries.
func (s *historyScreen) find() {
	p := newPrompt(s.desk, s, "Find:", "")
	p.accept = func(text string) {
		s.sought, s.desk.said = strings.ToLower(strings.TrimSpace(text)), ""
		if s.sought != "" && !s.goTo(0) {
			s.desk.say("No entry says %s", show.Safe(text))
		}
	}
	p.cancel = func() { s.desk.said = "" }
	s.desk.push(p)
}

// findAgain goes to the next entry that says it, or the one before.
func (s *historyScreen) findAgain(dir int) {
	switch {
	case s.sought == "":
		s.desk.say("Nothing looked for yet: / finds")
	case !s.goTo(dir):
		s.desk.say("No other entry says %s", show.Safe(s.sought))
	}
}

// goTo puts the cursor on an entry that says what is sought: its own when dir is 0, else
// the next or the one before, going round.
func (s *historyScreen) goTo(dir int) bool {
	step, n := dir, len(s.seqs)
	if dir == 0 {
		step = 1
	}
	for k := range n {
		i := ((s.rows.cursor+dir+k*step)%n + n) % n
		if strings.Contains(strings.ToLower(show.Sentence(s.entry(i), s.desk.book)), s.sought) {
			s.rows.put(i)
			return true
		}
	}
	return false
}
