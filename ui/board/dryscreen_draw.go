package board

import (
	"fmt"
	"strings"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/ui/show"
)

// draw writes one line about the whole rack, what would help, then the list.
func (s *dryScreen) draw(p *page, height int) {
	if len(s.rows.rows) == 0 {
		p.line("")
		p.line("   Nothing is out to dry.")
		return
	}
	for _, line := range s.rackLines() {
		p.line(line)
	}
	p.line(s.columnHeads())
	s.rows.draw(p.line, s.row, s.head)
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
		text += fmt.Sprintf("; %d perhaps not before %s", s.into, show.Clock(by, s.desk.now, zone))
		return s.desk.theme.warn.of(show.Fit(text, s.desk.width))
	}
	return show.Fit(text+", before the day ends at "+show.Clock(by, s.desk.now, zone), s.desk.width)
}

func (s *dryScreen) head(g int) string {
	remark := show.Count(s.counts[g], "plant") + " "
	if s.rows.heads[g] == "Later" {
		remark = show.Count(s.counts[g], "plant") + ", the first dry first "
	}
	return s.desk.heading(s.rows.heads[g], remark)
}

// clockWidth is the width of a time with its day.
const clockWidth = 9

// dryColumns are the widths of the list's columns; 0 leaves one out.
type dryColumns struct{ name, home, out, surely, look int }

func (s *dryScreen) columns() dryColumns {
	c := dryColumns{home: 11, out: clockWidth, surely: clockWidth, look: 20}
	if s.desk.width < wideScreen {
		c.out = 0
	}
	if s.desk.width < narrow {
		c.home, c.surely, c.look = 10, 0, 19
	}
	c.name = s.desk.width - 2 - c.home - 1 - clockWidth - 2 - c.look - 2
	for _, column := range []int{c.out, c.surely} {
		if column > 0 {
			c.name -= column + 2
		}
	}
	if spare := c.name - 30; spare > 0 {
		c.name, c.look = 30, c.look+spare
	}
	return c
}

func (s *dryScreen) columnHeads() string {
	c := s.columns()
	text := "  " + show.Pad("plant", c.name) + " " + show.Pad("home", c.home) + " "
	if c.out > 0 {
		text += show.PadLeft("out", c.out) + "  "
	}
	text += show.PadLeft("likely", clockWidth) + "  "
	if c.surely > 0 {
		text += show.PadLeft("surely by", c.surely) + "  "
	}
	return s.desk.theme.quiet.of(show.Pad(text+"look at", s.desk.width))
}

// row draws one plant: when it came out, when it is likely and when it is surely
// dry, and where to look. Only what is past the house rule is in red.
func (s *dryScreen) row(id model.ID, i int) string {
	r, d := s.desk.book.Row(id), s.out(id)
	if d == nil {
		return ""
	}
	c, zone := s.columns(), s.desk.book.Zone()
	name := show.Pad(show.Title(r.Plant), c.name)
	if i == s.rows.cursor {
		name = s.desk.theme.cursor.of(name)
	}
	text := s.desk.sign(s.rows, id, i) + name + " " + show.Pad(hangs(r), c.home) + " "
	if c.out > 0 {
		text += show.PadLeft(show.Clock(r.Out, s.desk.now, zone), c.out) + "  "
	}
	if r.State == model.Dry {
		return text + s.desk.theme.good.of("dry since "+show.Clock(r.DryAt, s.desk.now, zone))
	}
	text += show.PadLeft(show.Clock(d.Expected, s.desk.now, zone), clockWidth) + "  "
	if c.surely > 0 {
		text += s.desk.theme.quiet.of(show.PadLeft(show.Clock(d.High, s.desk.now, zone), c.surely)) + "  "
	}
	look := show.Fit(s.lookAt(r, d), c.look)
	if s.past(d) {
		return text + s.desk.theme.alarm.of(look)
	}
	return text + look
}

// hangs is where a plant hangs, or its number: two of one name are told apart.
func hangs(r *model.Row) string {
	if home := show.Safe(r.Home.String()); home != "" {
		return home
	}
	return "#" + r.ID.String()
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
		place += ", out " + strings.TrimSuffix(show.Duration(s.desk.now.Sub(r.Out)), " min")
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
