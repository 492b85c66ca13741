package board

import (
	"fmt"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/ui/show"
)

// draw writes one line about the whole rack, what would help, then the list.
func (s *dryScreen) draw(p *page, height int) {
	until := p.lines + height
	if len(s.rows.rows) == 0 {
		p.line("")
		p.line("   Nothing is out to dry.")
		s.drawNext(p)
		return
	}
	for _, line := range s.rackLines() {
		p.line(line)
	}
	if !s.desk.room() {
		p.line(s.columnHeads())
		s.rows.draw(p.line, s.row, s.head)
		return
	}
	lines := []string{s.columnHeads()}
	s.rows.draw(func(line string) { lines = append(lines, line) }, s.row, s.head)
	s.desk.drawTwo(p, until, lines, s.side.lines())
}

// drawNext says what comes out of the water next, while nothing is out.
func (s *dryScreen) drawNext(p *page) {
	for i, l := range s.desk.loads {
		if i == 0 {
			p.line("")
			p.line(s.desk.theme.quiet.of("   Next out of the water"))
		}
		when := "at " + s.desk.outClock(l)
		if s.desk.isDue(l) {
			when = s.desk.remaining(l)
		}
		p.line("   " + show.Pad(show.Safe(l.Vessel), nameColumn) + " " +
			show.PadLeft(show.Count(len(s.desk.book.StillIn(l)), "plant"), len("1000 plants")) + "  " + when)
	}
}

// rackLines stand over the list: when all should be dry, what would help, the hours
// to come.
func (s *dryScreen) rackLines() []string {
	lines := []string{s.benchLine()}
	if s.help != "" {
		lines = append(lines, s.desk.theme.warn.of(show.Fit(" To help: "+s.help, s.desk.width)))
	}
	return append(lines, s.aheadLines()...)
}

// benchLine says when all should be dry, and what that means for the night.
func (s *dryScreen) benchLine() string {
	zone := s.desk.book.Zone()
	if s.last.IsZero() {
		return s.desk.theme.good.of(show.Fit(" All dry: hang them back in walking order", s.desk.width))
	}
	by := s.desk.book.Rules().DryBy(s.desk.now.In(zone))
	if !s.last.After(s.desk.now) {
		return s.desk.theme.warn.of(show.Fit(" All should have been dry by "+show.Clock(s.last, s.desk.now,
			zone)+": look into the hearts, then "+s.desk.key("d", "1")+" dry or "+s.desk.key("w", "2")+" still damp",
			s.desk.width))
	}
	text := " All surely dry by " + show.Clock(s.last, s.desk.now, zone)
	if s.into > 0 {
		text += fmt.Sprintf("; %d may still be damp at %s", s.into, show.Clock(by, s.desk.now, zone))
		return s.desk.theme.warn.of(show.Fit(text, s.desk.width))
	}
	return show.Fit(text+", before the day ends at "+show.Clock(by, s.desk.now, zone), s.desk.width)
}

func (s *dryScreen) head(g int) string {
	group := s.groupsOf[g]
	remark := show.Count(group.plants, "plant")
	if !group.likely.IsZero() {
		remark += ", likely by " + show.Clock(group.likely, s.desk.now, s.desk.book.Zone())
	}
	return s.desk.headingIn(s.rows.heads[g], remark+" ", s.desk.listWidth())
}

// dryColumns are the widths of the list's columns; 0 leaves one out.
type dryColumns struct{ name, home, out, likely, surely, look int }

// lookWidth is where to feel whether a plant is dry: "heart, 30 min too long", or in a
// narrow window "leaves, damp 05:40".
const lookWidth, shortLook = 24, 18

const likelyHead, surelyHead = "likely", "surely by"

func (s *dryScreen) columns() dryColumns {
	c := dryColumns{out: s.clock, likely: s.clock, surely: max(s.clock, show.Width(surelyHead)), look: lookWidth}
	if s.desk.width < wideScreen {
		c.out = 0
	}
	if s.desk.width < narrow {
		c.surely, c.look = 0, shortLook
	}
	room := s.desk.listWidth() - 2 - 1 - 2 - c.look
	for _, column := range []int{c.out, c.likely, c.surely} {
		if column > 0 {
			room -= column + 2
		}
	}
	c.name, c.home = s.named.columns(room)
	c.look += room - c.name - c.home
	return c
}

func (s *dryScreen) columnHeads() string {
	c := s.columns()
	text := "  " + show.Pad("plant", c.name) + " " + show.Pad("home", c.home) + "  "
	if c.out > 0 {
		text += show.PadLeft("out", c.out) + "  "
	}
	text += show.PadLeft(likelyHead, c.likely) + "  "
	if c.surely > 0 {
		text += show.PadLeft(surelyHead, c.surely) + "  "
	}
	return s.desk.theme.quiet.of(show.Pad(text+"look at", s.desk.listWidth()))
}

// row draws one plant: when it came out, when it is likely and when it is surely
// dry, and where to look.
func (s *dryScreen) row(id model.ID, i int) string {
	r, d := s.desk.book.Row(id), s.out(id)
	if d == nil {
		return ""
	}
	c, zone := s.columns(), s.desk.book.Zone()
	name := show.PadName(s.named.of(r), c.name)
	if i == s.rows.cursor {
		name = s.desk.theme.cursor.of(name)
	}
	text := s.desk.sign(s.rows, id, i) + name + " " + show.PadName(hangs(r), c.home) + "  "
	if c.out > 0 {
		text += show.PadLeft(show.Clock(r.Out, s.desk.now, zone), c.out) + "  "
	}
	if r.State == model.Dry {
		rest := s.desk.listWidth() - show.Width(text)
		return text + s.desk.theme.good.of(s.desk.last("dry since "+show.Clock(r.DryAt, s.desk.now, zone), rest))
	}
	text += show.PadLeft(show.Clock(d.Expected, s.desk.now, zone), c.likely) + "  "
	if c.surely > 0 {
		text += s.desk.theme.quiet.of(show.PadLeft(show.Clock(d.High, s.desk.now, zone), c.surely)) + "  "
	}
	look := s.desk.last(s.lookAt(r, d), c.look)
	return text + s.paintOf(d).of(look)
}

// paintOf is red for what is past the house rule and not likely dry yet; what is likely
// dry and past it asks to be felt, no more.
func (s *dryScreen) paintOf(d *advice.Drying) paint {
	switch {
	case !s.past(d):
		return s.desk.theme.plain
	case s.desk.toCheck(d):
		return s.desk.theme.warn
	}
	return s.desk.theme.alarm
}

// tooLong is how long a plant has been past the house rule, for a column: "30 min",
// "4 h 30".
func tooLong(d time.Duration) string {
	if d < time.Hour {
		return show.Duration(max(d.Truncate(time.Minute), time.Minute))
	}
	return strings.TrimSuffix(show.Duration(d), " min")
}

// lookAt is where to feel whether a plant is dry, and what was felt last.
func (s *dryScreen) lookAt(r *model.Row, d *advice.Drying) string {
	place := "leaves"
	switch {
	case d.HoldUp == estimate.HeldByPocket:
		place = "heart"
	case r.Count > 1:
		place = "middle"
	}
	switch {
	case s.past(d):
		if place += ", "; s.desk.width >= narrow {
			place += tooLong(s.desk.now.Sub(d.Limit)) + " "
		}
		place += "too long"
	case r.DampAt.After(r.Out):
		place += ", damp " + show.Clock(r.DampAt, s.desk.now, s.desk.book.Zone())
	}
	return place
}

// adviceOf is the first thing to do.
func (d *desk) adviceOf(rs []advice.Reason) string {
	for _, r := range rs {
		if r.Kind() == advice.Hint {
			return d.subject(0).Reason(r)
		}
	}
	return "look into the heart"
}
