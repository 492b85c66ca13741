package board

import (
	"fmt"
	"math"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/ui/show"
)

// roomScreen is the air of the room: now, day by day, and against other months.
type roomScreen struct {
	desk  *desk
	span  int // index in roomSpans
	days  []estimate.AirSpell
	built int

	suggested []estimate.Shelf // shelves whose climate is worth setting
}

// roomSpans are how many days the charts show.
var roomSpans = []int{30, 90, 365}

func newRoom(d *desk) *roomScreen { return &roomScreen{desk: d, built: -1} }

func (s *roomScreen) name() string   { return "Room" }
func (s *roomScreen) letter() string { return "a" }
func (s *roomScreen) badge() string  { return "" }
func (s *roomScreen) list() *list    { return nil }
func (s *roomScreen) lead() string   { return "" }

func (s *roomScreen) open() { s.build() }

func (s *roomScreen) sync() {
	if s.built != s.desk.version {
		s.build()
	}
}

func (s *roomScreen) build() {
	s.built = s.desk.version
	s.days = estimate.AirDays(s.desk.book, s.desk.now.AddDate(0, 0, -roomSpans[s.span]), s.desk.now)
	s.suggested = s.suggested[:0]
	for _, sh := range s.desk.keeper.Shelves() {
		if sh.Suggest {
			s.suggested = append(s.suggested, sh)
		}
	}
}

func (s *roomScreen) groups() []group {
	step := func(n int) func() {
		return func() { s.span = (s.span + n + len(roomSpans)) % len(roomSpans); s.build() }
	}
	return []group{{"The room", []binding{
		act(".", "a longer time", step(1)).foot("longer"),
		act(",", "a shorter time", step(-1)).foot("shorter"),
		act("f", "fan: off, low, on, near", s.desk.nextFan).foot("fan"),
		act("i", "window: shut, door, open, extractor", s.desk.nextWindow).foot("window"),
		remark("(from a logger: tubside room import)"),
		act("S", "enter how fast a shelf dries plants out", s.setShelf).unless(func() string {
			if len(s.suggested) == 0 {
				return "No shelf stands out yet"
			}
			return ""
		}),
	}}}
}

// nextFan turns the fan's setting on by one.
func (d *desk) nextFan() {
	for i, f := range model.Fans {
		if f == d.outlook.Air.Fan {
			d.enter(&model.FanSet{Fan: model.Fans[(i+1)%len(model.Fans)]})
			return
		}
	}
}

func (s *roomScreen) draw(p *page, height int) {
	words := s.words()
	for _, line := range words {
		p.line(" " + line)
	}
	if len(s.days) == 0 {
		p.line("")
		p.line("   No readings yet. a enters one;")
		p.line("   a logger's file comes in with tubside room import FILE")
		return
	}
	charts, room := show.AirCharts(s.desk.book.Rules()), height-len(words)
	if n := room / (show.LeastAirChart + 1); n < len(charts) {
		charts = charts[:max(n, 1)] // fewer that can be read
	}
	from, until := s.desk.now.AddDate(0, 0, -roomSpans[s.span]), s.desk.now
	for _, c := range charts {
		p.line(s.desk.heading(c.Name, fmt.Sprintf("the last %d days ", roomSpans[s.span])))
		for _, line := range c.Lines(s.days, from, until, s.desk.book.Zone(), s.desk.width-1, room/len(charts)-1,
			s.desk.theme.accent.of, s.desk.theme.quiet.of, s.desk.theme.quiet.of) {
			p.line(line)
		}
	}
}

// words say how the air is now, and how it compares.
func (s *roomScreen) words() []string {
	air := s.desk.outlook.Air
	now := fmt.Sprintf("Now %s, %s, %s air, %s", show.Temp(air.TempC, s.desk.book.Rules()), show.Humidity(air.RH),
		show.AirZone(air.DeficitKPa), show.Fan(air.Fan))
	switch {
	case air.ReadAt.IsZero():
		now += " (assumed: no reading)"
	default:
		now += ", read " + show.Clock(air.ReadAt, s.desk.now, s.desk.book.Zone())
	}
	lines := []string{now}
	if c, ok := estimate.CompareAir(s.desk.book, s.desk.now); ok {
		lines = append(lines, show.Line(show.AirCompared(c)))
		if math.Round(7/c.Ratio) != 7 {
			lines = append(lines, show.Line(show.AirInterval(c)))
		}
	}
	lines = append(lines, s.shelfWords()...)
	var broken []string
	for _, line := range lines {
		broken = append(broken, wrap(line, s.desk.width-2)...)
	}
	return broken
}

// shelfWords names a shelf that dries plants out unlike the rest, and offers to
// write that down; the next comes when it is written.
func (s *roomScreen) shelfWords() []string {
	if len(s.suggested) == 0 {
		return nil
	}
	first := s.suggested[0]
	return []string{fmt.Sprintf("Plants on %s dry out %.1f times as fast as elsewhere: S enters that",
		show.Safe(first.Name), first.Factor)}
}

// setShelf writes the first suggested climate of a shelf.
func (s *roomScreen) setShelf() {
	sh := s.suggested[0]
	s.desk.enter(&model.ShelfSet{Name: sh.Name, Factor: math.Round(10*sh.Set*sh.Factor) / 10})
}
