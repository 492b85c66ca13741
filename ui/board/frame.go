package board

import (
	"fmt"
	"strings"

	"tubside/model"
	"tubside/model/trip"
	"tubside/ui/show"
)

// drawFrame draws the head, a screen or what lies over it, what just happened, and
// the keys.
func (m *board) drawFrame(p *page) {
	m.drawHead(p)
	body, end := m.desk.body(), m.desk.height-2-m.desk.saidMore()
	p.limit = end
	if n := len(m.desk.over); n > 0 {
		m.desk.over[n-1].draw(p, body)
	} else {
		m.front().draw(p, body)
	}
	p.fill(end)
	p.limit = m.desk.height
	if m.desk.saidMore() > 0 {
		p.line(m.desk.saidPaint().of(" " + m.desk.saidLines()[0]))
	}
	p.line(m.status())
	p.line(m.footer())
}

// footer is the keys that matter now; the way to all of them never falls off.
func (m *board) footer() string {
	more := "  ? help "
	if m.desk.onPad() {
		more = "  enter all " // as wide as leaves room for the pull at 80 columns
		if m.desk.width >= wideScreen {
			more = "  enter all else "
		}
	}
	if n := len(m.desk.over); n > 0 {
		top := m.desk.over[n-1]
		return m.desk.theme.quiet.of(" " + hints(top.lead(), top.groups(), m.desk.width-1, m.desk.onPad()))
	}
	text := hints(m.front().lead(), m.front().groups(), m.desk.width-show.Width(more)-1, m.desk.onPad())
	return m.desk.theme.quiet.of(show.Pad(" "+text, m.desk.width-show.Width(more)) + more)
}

// header names the screens, the room and the time. The soak day's screens are
// always named; of the others only the one in front.
func (m *board) header() string {
	var b strings.Builder
	b.WriteByte(' ')
	used, always := 1, dayScreens
	if m.desk.width < narrowHeader {
		always--
	}
	for i, s := range m.screens {
		if i >= always && i != m.at {
			continue
		}
		name := s.name()
		if badge := s.badge(); badge != "" {
			name += " " + badge
		}
		if i == m.at {
			b.WriteString(m.desk.theme.title.of("▸" + name))
		} else {
			b.WriteString(m.desk.theme.quiet.of(" " + name))
		}
		b.WriteString("   ")
		used += show.Width(name) + 4
	}
	return b.String() + m.roomAndTime(m.desk.width-used)
}

// roomAndTime is the right end of the header: as much as fits.
func (m *board) roomAndTime(width int) string {
	clock := m.desk.now.In(m.desk.book.Zone()).Format("Mon 15:04") + " "
	air := m.desk.outlook.Air
	room := fmt.Sprintf("%s %s  fan %s   ", show.Temp(air.TempC, m.desk.book.Rules()), show.Humidity(air.RH), air.Fan)
	if air.ReadAt.IsZero() {
		room = "no air reading   "
	}
	switch {
	case show.Width(room+clock) <= width:
		return show.PadLeft(room+clock, width)
	case show.Width(clock) <= width:
		return show.PadLeft(clock, width)
	}
	return ""
}

// homeWords says that a trip is over, and which looks are due.
func homeWords(h *trip.Homecoming) string {
	text := "Home today"
	if h.Day > 0 {
		text = "Home for " + show.Count(h.Day, "day")
	}
	text += " after " + show.Count(int(h.Trip.Home().Sub(h.Trip.From).Hours()/24+0.5), "day") + " away"
	if n := len(h.Looks); n > 0 {
		return text + fmt.Sprintf(": look at %d for rot", n)
	}
	return text + ": see which it hit harder than expected"
}

// status is the line that says what just happened and, where there is room, that
// the needs are being worked out again.
func (m *board) status() string {
	lines := m.desk.saidLines()
	text := " " + lines[len(lines)-1]
	if len(lines) > mostSaid {
		text = " " + show.Fit(lines[mostSaid-1]+" …", m.desk.width-1)
	}
	quiet := ""
	if left := m.desk.lineWidth(); left < m.desk.width && show.Width(text)+1 <= left {
		quiet = strings.Repeat(" ", left-show.Width(text)) + m.desk.theme.quiet.of(readingWords)
	}
	return m.desk.saidPaint().of(text) + quiet
}

func (d *desk) saidPaint() paint {
	if d.trouble {
		return d.theme.alarm
	}
	return d.theme.plain
}

// mostSaid is how many lines at most say what just happened.
const mostSaid = 2

// saidLines are what just happened, broken for the window.
func (d *desk) saidLines() []string {
	text := show.Safe(d.said)
	if show.Width(text) < d.width {
		return []string{text}
	}
	return wrap(text, d.width-2)
}

// saidMore is how many lines more than one what just happened takes.
func (d *desk) saidMore() int { return min(len(d.saidLines()), mostSaid) - 1 }

// drawTooSmall asks for more room.
func (m *board) drawTooSmall(p *page) {
	p.line(show.Fit(" This window is too small for the board.", m.desk.width))
	if m.desk.height > 1 {
		p.line(show.Fit(fmt.Sprintf(" It needs %dx%d and has %dx%d. q leaves.", minWidth, minHeight, m.desk.width,
			m.desk.height), m.desk.width))
	}
}

// heading draws a heading line: the words, then a rule to the edge with a
// remark at its right end.
func (d *desk) heading(words, remark string) string { return d.headingIn(words, remark, d.width) }

func (d *desk) headingIn(words, remark string, width int) string {
	words, remark = show.Fit(words, width-2), strings.TrimSpace(remark)
	rest := width - show.Width(words) - 3
	if remark != "" && show.Width(remark)+3 <= rest {
		line := strings.Repeat("─", rest-show.Width(remark)-1)
		return " " + d.theme.title.of(words) + " " + d.theme.quiet.of(line+" "+remark) + " "
	}
	return " " + d.theme.title.of(words) + " " + d.theme.quiet.of(strings.Repeat("─", max(0, rest)))
}

// sign is what stands before a row: the cursor, a mark, or both.
func (d *desk) sign(l *list, id model.ID, i int) string {
	here, mark := " ", " "
	if i == l.cursor {
		here = d.theme.cursor.of("▸")
	}
	if l.isMarked(id, i) {
		mark = d.theme.marked.of("•")
	}
	return here + mark
}
