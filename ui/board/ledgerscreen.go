package board

import (
	"fmt"
	"time"

	"tubside/model/accounts"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// ledgerScreen is what came and went and why, how long plants last, what
// followed a soak, and what it took, over a year.
type ledgerScreen struct {
	reader
	back  int // whole years back; 0 is the last twelve months
	built int
}

func newLedger(d *desk) *ledgerScreen {
	s := &ledgerScreen{built: -1}
	s.reader = reader{desk: d, behind: s}
	return s
}

func (s *ledgerScreen) name() string   { return "Ledger" }
func (s *ledgerScreen) letter() string { return "l" }
func (s *ledgerScreen) badge() string  { return "" }
func (s *ledgerScreen) list() *list    { return nil }
func (s *ledgerScreen) lead() string   { return "" }

func (s *ledgerScreen) open() { s.build() }

// sync draws the ledger up anew only while it is in front.
func (s *ledgerScreen) sync() {
	if s.built != s.desk.version || s.wide != s.desk.laid() {
		s.build()
	}
}

func (s *ledgerScreen) groups() []group {
	return []group{{"Ledger", append(s.keys(),
		act(".", "an earlier year", func() { s.back++; s.build() }).foot("earlier year"),
		act(",", "a later year, then the last twelve months",
			func() { s.back = max(0, s.back-1); s.build() }).foot("later"),
		remark("(on paper: tubside ledger --html)"),
	)}}
}

// period is the twelve months up to now, or a calendar year.
func (s *ledgerScreen) period() (from, until time.Time, name string) {
	now := s.desk.now.In(s.desk.book.Zone())
	if s.back == 0 {
		return now.AddDate(-1, 0, 0), now, "the last twelve months"
	}
	year := now.Year() - s.back + 1
	from = time.Date(year, 1, 1, 0, 0, 0, 0, s.desk.book.Zone())
	until = from.AddDate(1, 0, 0)
	if until.After(now) {
		until = now
	}
	return from, until, fmt.Sprint(year)
}

func (s *ledgerScreen) build() {
	s.built = s.desk.version
	from, until, _ := s.period()
	l, err := accounts.Of(s.desk.book, from, until)
	if err != nil {
		s.text.set([]string{"", "   " + show.Line(show.Safe(err.Error()))})
		return
	}
	top := s.text.top
	s.fill(paper.YearSheet(l, s.desk.book))
	s.text.by(top)
}

func (s *ledgerScreen) draw(p *page, height int) {
	_, _, name := s.period()
	p.line(s.desk.heading("Ledger of "+name, ""))
	s.reader.draw(p, height-1)
}
