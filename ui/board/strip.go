package board

import (
	"fmt"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/soak"
	"tubside/ui/show"
)

// lastMinutes is how long before a load is due its seconds are counted: before
// that a minute is near enough, and an idle board writes next to nothing.
const lastMinutes = 5 * time.Minute

// piece is one thing the strip says; of those that do not fit, the idle ones go
// first.
type piece struct {
	text  string
	paint paint
	idle  bool
	more  int // it counts so many idle vessels left out
}

// strip says what goes on, on every screen: each vessel with its own countdown,
// what lies on the rack, and the next step of the plan.
func (m *board) strip(width int) string {
	pieces := m.vesselPieces()
	if n := m.desk.tally.Drying + m.desk.tally.Dry; n > 0 {
		pieces = append(pieces, m.rackPiece())
	}
	if m.desk.toWeigh != "" {
		pieces = append(pieces, piece{m.desk.toWeigh, m.desk.theme.accent, false, 0})
	}
	next := m.nextStep()
	for fitted := false; !fitted; {
		used := 1
		for _, p := range pieces {
			used += show.Width(p.text) + 3
		}
		if fitted = used+show.Width(next) <= width; !fitted {
			pieces, next, fitted = fewer(pieces, next)
		}
	}
	var b strings.Builder
	used := 1
	b.WriteByte(' ')
	for i, p := range pieces {
		if i > 0 {
			between := " · "
			if m.desk.ascii { // where a dot is a dash, as the sign of an empty vessel is
				between = " | "
			}
			b.WriteString(m.desk.theme.quiet.of(between))
			used += 3
		}
		text := p.text
		if show.Width(text) > width-used { // a time with its end missing is a wrong time
			text = "…"
			if name, _, late := strings.Cut(p.text, " OUT "); late && show.Width(name+" OUT") <= width-used {
				text = name + " OUT"
			}
		}
		text = show.Fit(text, width-used)
		b.WriteString(p.paint.of(text))
		used += show.Width(text)
		if used >= width-4 {
			return b.String()
		}
	}
	if next != "" {
		b.WriteString(strings.Repeat(" ", max(1, width-used-show.Width(next)-1)) + m.desk.theme.plain.of(next))
	}
	return b.String()
}

// fewer leaves out an idle vessel, and counts it, then the next step, then the count; what
// is left is cut.
func fewer(pieces []piece, next string) ([]piece, string, bool) {
	for i := len(pieces) - 1; i >= 0; i-- {
		p := pieces[i]
		if !p.idle || p.more > 0 {
			continue
		}
		more := 1
		if last := len(pieces) - 1; pieces[last].more > 0 {
			more, pieces = pieces[last].more+1, pieces[:last]
		}
		left := append(pieces[:i:i], pieces[i+1:]...)
		return append(left, piece{fmt.Sprintf("+%d more –", more), p.paint, true, more}), next, false
	}
	if last := len(pieces) - 1; next == "" && last >= 0 && pieces[last].more > 0 {
		return pieces[:last], "", false
	}
	return pieces, "", next == ""
}

// vesselPieces are the vessels with the time left of the load that is due first.
func (m *board) vesselPieces() []piece {
	var pieces []piece
	for _, v := range m.desk.book.Vessels() {
		name := show.Safe(v.Name)
		loads := m.desk.book.InVessel(v.Name)
		if tap, runs := m.desk.tapOn(v.Name); runs {
			text, paint := m.desk.tapWords(tap)
			pieces = append(pieces, piece{name + " " + text, paint, false, 0})
			continue
		}
		if len(loads) == 0 {
			pieces = append(pieces, piece{name + " –", m.desk.theme.quiet, true, 0})
			continue
		}
		text, paint := m.countdown(loads[0])
		if m.desk.now.Before(loads[0].In) {
			text, paint = "clock set back?", m.desk.theme.warn
		}
		if n := len(loads) - 1; n > 0 {
			text += fmt.Sprintf(" +%d", n)
		}
		pieces = append(pieces, piece{name + " " + text, paint, false, 0})
	}
	return pieces
}

// countdown is the time left until a load is due, until when the hands are at it, or how long
// it should have been out.
func (m *board) countdown(l *model.Load) (string, paint) {
	out, left := m.desk.outAt(l), inSteps(m.desk.left(l))
	switch {
	case out.ByNow(m.desk.now):
		return "coming out, until " + show.Clock(out.Until, m.desk.now, m.desk.book.Zone()), m.desk.theme.warn
	case left <= -time.Minute:
		return "OUT " + show.Duration(-left) + " late", m.desk.theme.alarm
	case left <= 0:
		return "OUT now", m.desk.theme.alarm
	case left <= lastMinutes:
		return show.Timer(left), m.desk.theme.warn
	}
	return show.Duration(left), m.desk.theme.plain
}

// clockStep is how often a countdown moves in its last minutes, the big clock apart:
// a line that moves each second is half of what an idle board writes.
const clockStep = 5 * time.Second

// inSteps is the time left as a countdown shows it: never less than there is.
func inSteps(left time.Duration) time.Duration {
	if left > lastMinutes || left < -lastMinutes {
		return left
	}
	if rest := left % clockStep; rest > 0 {
		return left - rest + clockStep
	} else {
		return left - rest
	}
}

// rackPiece says how many lie on the rack and how many of them to look at.
func (m *board) rackPiece() piece {
	switch {
	case m.desk.likely > 0:
		return piece{fmt.Sprintf("drying %d to check", m.desk.likely), m.desk.theme.warn, false, 0}
	case m.desk.overdue > 0:
		return piece{fmt.Sprintf("%d drying for too long", m.desk.overdue), m.desk.theme.alarm, false, 0}
	case m.desk.tally.Drying > 0:
		return piece{fmt.Sprintf("%d drying", m.desk.tally.Drying), m.desk.theme.plain, false, 0}
	}
	return piece{fmt.Sprintf("%d dry, to hang", m.desk.tally.Dry), m.desk.theme.good, false, 0}
}

// nextStep is the next thing to do of the plan that has been made, "" when there
// is none.
func (m *board) nextStep() string {
	for _, s := range m.screens {
		if p, ok := s.(interface{ next() (time.Time, string) }); ok {
			if at, text := p.next(); text != "" {
				return show.Clock(at, m.desk.now, m.desk.book.Zone()) + " " + text + " "
			}
		}
	}
	return ""
}

// sum is the session's count, which must always add up.
func (m *board) sum(width int) string {
	t := m.desk.tally
	line := fmt.Sprintf(" pulled %d = waiting %d + soaking %d + drying %d + dry %d + hung %d", t.Pulled, t.Waiting,
		t.Soaking, t.Drying, t.Dry, t.Hung)
	if width < 80 { // every count must be seen
		line = fmt.Sprintf(" %d = %d wait + %d soak + %d drying + %d dry + %d hung", t.Pulled, t.Waiting, t.Soaking,
			t.Drying, t.Dry, t.Hung)
	}
	if t.Gone > 0 {
		line += fmt.Sprintf(" + gone %d", t.Gone)
	}
	if !t.Adds() {
		return m.desk.theme.alarm.of(show.Fit(line+"  does not add up: look for a plant", width))
	}
	return m.desk.theme.quiet.of(show.Fit(line, width))
}

// between is what stands in the strip's place between sessions: water that stands,
// a trip that is over, or how many plants there are.
func (m *board) between() string {
	quiet := func(vessels []string) string { return show.Safe(strings.Join(vessels, ", ")) }
	switch {
	case len(m.desk.standing) > 0 && m.desk.tally.Pulled > 0:
		text := " Session over. Water still stands in " + quiet(m.desk.standing) + ": empty it now (Soak, e)"
		return m.desk.theme.alarm.of(show.Fit(text, m.desk.width))
	case len(m.desk.taps) > 0:
		text, paint := m.desk.tapLine(m.desk.taps[0])
		return paint.of(show.Fit(" "+text, m.desk.width))
	case len(m.desk.filled) > 0:
		text := " Water stands in " + quiet(m.desk.filled) + ": no child or pet alone with it, not for seconds"
		return m.desk.theme.warn.of(show.Fit(text, m.desk.width))
	case m.desk.home != nil:
		return show.Fit(" "+homeWords(m.desk.home), m.desk.width)
	}
	text := " " + show.Count(len(m.desk.outlook.Needs), "plant") + ", nothing in the water"
	if n := m.desk.toMist(); n > 0 && m.desk.tally.Pulled > 0 && m.desk.now.Sub(m.desk.hungAt) < restOfTheDay {
		text = fmt.Sprintf(" Session over, %d hung back; still to mist: %d (T r)", m.desk.tally.Hung, n)
	} else if m.desk.toWeigh != "" {
		text = " " + show.Count(len(m.desk.outlook.Needs), "plant") + " · " + m.desk.toWeigh + ": Rounds, ."
	}
	next := m.nextStep()
	if gap := m.desk.width - show.Width(text) - show.Width(next) - 1; gap > 1 && next != "" {
		return m.desk.theme.quiet.of(text) + strings.Repeat(" ", gap) + next
	}
	return m.desk.theme.quiet.of(show.Fit(text, m.desk.width))
}

// restOfTheDay is how long after a session the mist that is left is spoken of.
const restOfTheDay = 12 * time.Hour

// toMist counts the plants that are to be misted, once after each entry.
func (d *desk) toMist() int {
	if d.mistedAt != d.version {
		d.mistedAt, d.mists, d.hungAt = d.version, 0, time.Time{}
		for i := range d.outlook.Needs {
			if d.outlook.Needs[i].Band == soak.Mist {
				d.mists++
			}
			if r := d.book.Row(d.outlook.Needs[i].ID); r != nil && r.InSession {
				d.hungAt = model.Later(d.hungAt, r.HungAt)
			}
		}
	}
	return d.mists
}

// oneLine is the width from which the strip and the sum share a line.
const oneLine = 150

// headLines is how many lines stand above a screen.
func (d *desk) headLines() int {
	if d.tally.Open() && d.width < oneLine {
		return 3
	}
	return 2
}

// body is how many lines a screen has: what is left between the head and the lines of
// the foot.
func (d *desk) body() int { return d.height - d.headLines() - 2 - d.saidMore() }

// drawHead writes the lines above a screen.
func (m *board) drawHead(p *page) {
	p.line(m.header())
	switch {
	case !m.desk.tally.Open():
		p.line(m.between())
	case m.desk.width < oneLine:
		p.line(m.strip(m.desk.width))
		p.line(m.sum(m.desk.width))
	default:
		sum := m.sum(m.desk.width / 2)
		line := m.strip(m.desk.width - show.Width(sum) - 2)
		p.line(line + strings.Repeat(" ", max(1, m.desk.width-show.Width(line)-show.Width(sum)-1)) + sum)
	}
}
