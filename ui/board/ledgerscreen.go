package board

import (
	"fmt"
	"strings"
	"time"

	"tubside/model/accounts"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// ledgerScreen is what came and went and why, how long plants last, what
// followed a soak, and what it took, over a year.
type ledgerScreen struct {
	*desk
	text     scroll
	plain    []string // the same lines without their colours, for finding
	sections []int    // where each begins
	sought   string
	back     int // whole years back; 0 is the last twelve months
	built    int
	wide     int // the width it was built for
}

func newLedger(d *desk) *ledgerScreen { return &ledgerScreen{desk: d, built: -1} }

func (s *ledgerScreen) name() string   { return "Ledger" }
func (s *ledgerScreen) letter() string { return "l" }
func (s *ledgerScreen) badge() string  { return "" }
func (s *ledgerScreen) list() *list    { return nil }
func (s *ledgerScreen) lead() string   { return "" }

func (s *ledgerScreen) open() { s.build() }

// sync draws the ledger up anew only while it is in front.
func (s *ledgerScreen) sync() {
	if s.built != s.version || s.wide != s.width {
		s.build()
	}
}

func (s *ledgerScreen) groups() []group {
	return []group{{"Ledger", append(s.text.keys(),
		act("l →", "next part", func() { s.part(1) }).foot("next part"),
		act("h ←", "part before", func() { s.part(-1) }),
		remark("/ find"),
		act(".", "an earlier year", func() { s.back++; s.build() }).foot("earlier year"),
		act(",", "a later year, then the last twelve months", func() { s.back = max(0, s.back-1); s.build() }).foot("later"),
		remark("as a page: tubside ledger --html"),
	)}}
}

// period is the twelve months up to now, or a calendar year.
func (s *ledgerScreen) period() (from, until time.Time, name string) {
	now := s.now.In(s.book.Zone())
	if s.back == 0 {
		return now.AddDate(-1, 0, 0), now, "the last twelve months"
	}
	year := now.Year() - s.back + 1
	from = time.Date(year, 1, 1, 0, 0, 0, 0, s.book.Zone())
	until = from.AddDate(1, 0, 0)
	if until.After(now) {
		until = now
	}
	return from, until, fmt.Sprint(year)
}

func (s *ledgerScreen) build() {
	s.built, s.wide = s.version, s.width
	from, until, _ := s.period()
	l, err := accounts.Of(s.book, from, until)
	if err != nil {
		s.text.set([]string{"", "   " + show.Line(show.Safe(err.Error()))})
		return
	}
	top := s.text.top
	s.fill(paper.YearSheet(l, s.book))
	s.text.by(top)
}

// fill lays the sheet out for the window: each part under its heading, the heads
// of its tables dim.
func (s *ledgerScreen) fill(sheet *paper.Sheet) {
	var lines []string
	s.plain, s.sections = s.plain[:0], s.sections[:0]
	add := func(plain, shown string) {
		s.plain, lines = append(s.plain, plain), append(lines, shown)
	}
	for _, under := range sheet.Under {
		for _, line := range wrap(under, s.width-2) {
			add(line, s.theme.quiet.of(" "+line))
		}
	}
	for _, section := range sheet.Sections {
		s.sections = append(s.sections, len(lines))
		add(section.Title, s.heading(show.Safe(section.Title), ""))
		for _, line := range section.Lines(s.width - 6) {
			paint := s.theme.plain
			if line.Head {
				paint = s.theme.quiet
			}
			add(line.Text, "   "+paint.of(line.Text))
		}
		add("", "")
	}
	for _, line := range wrap(sheet.Foot, s.width-2) {
		add(line, s.theme.quiet.of(" "+line))
	}
	s.text.set(lines)
}

// part goes to the part n further on.
func (s *ledgerScreen) part(n int) {
	at := 0
	for i, line := range s.sections {
		if line <= s.text.top {
			at = i
		}
	}
	if len(s.sections) > 0 {
		s.text.by(s.sections[min(max(at+n, 0), len(s.sections)-1)] - s.text.top)
	}
}

// find goes to the first line with a text while it is typed.
func (s *ledgerScreen) find() {
	from := s.text.top
	p := newPrompt(s.desk, s, "Find:", "")
	p.change = func(text string) { s.sought = text; s.seekFrom(0, 1) }
	p.accept = func(text string) { s.said = ""; s.sought = text; s.seekFrom(0, 1) }
	p.cancel = func() { s.said = ""; s.text.by(from - s.text.top) }
	s.push(p)
}

// findAgain goes to the next line with the text sought, or the one before.
func (s *ledgerScreen) findAgain(dir int) { s.seekFrom(s.text.top+dir, dir) }

// seekFrom goes to the first line from one on that has the text sought, going
// round.
func (s *ledgerScreen) seekFrom(from, dir int) {
	text := strings.ToLower(strings.TrimSpace(s.sought))
	if text == "" {
		s.say("Nothing sought yet: / finds")
		return
	}
	n := len(s.plain)
	for i := range n {
		line := ((from+i*dir)%n + n) % n
		if strings.Contains(strings.ToLower(s.plain[line]), text) {
			s.text.by(line - s.text.top)
			return
		}
	}
	s.say("The ledger does not say %s", show.Safe(s.sought))
}

func (s *ledgerScreen) draw(p *page, height int) {
	_, _, name := s.period()
	p.line(s.heading("Ledger of "+name, ""))
	s.text.draw(p, s.width, height-1)
}
