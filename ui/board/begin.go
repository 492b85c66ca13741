package board

import (
	"fmt"
	"slices"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/ui/show"
)

// copyMsg asks for the day's copy.
type copyMsg struct{}

// copyAfter is how long at most the day's copy waits for, once the needs are known: the
// first keys come at once. A choice.
const copyAfter = 5 * time.Second

// begin shows the board with what was worked out, and does the keys that came
// meanwhile.
func (m *board) begin(r workedOut) tea.Cmd {
	m.desk.know(r)
	m.ready = true
	ring, overdue := m.bell.check(m.desk)
	m.show(m.urgent())
	m.sync()
	if said := m.sinceYouLeft(); said != "" {
		m.desk.say("%s", said)
		m.desk.trouble = len(m.desk.loads) > 0 && m.desk.isDue(m.desk.loads[0]) // and still is
	} else if overdue {
		l := m.desk.loads[0]
		m.desk.say("%s is due since %s: take out %s", show.Line(show.Safe(l.Vessel)),
			m.desk.outClock(l), show.Count(l.Left, "plant"))
		m.desk.trouble = true
	}
	if m.desk.said == "" {
		m.sayRefused()
	}
	if m.demo != "" {
		m.desk.say("Only a demo: %s. Nothing here touches your own book", m.demo)
	}
	m.takeIn()
	copySoon := m.every(copyAfter, func(time.Time) tea.Msg { return copyMsg{} })
	cmds := []tea.Cmd{ring, m.tick(), m.listen(), m.askPaper(), copySoon}
	if m.first {
		m.desk.push(newFirstMinute(m.desk))
	}
	for _, msg := range m.early {
		cmds = append(cmds, m.keys(msg))
	}
	m.early = nil
	m.sync()
	return tea.Batch(cmds...)
}

// away is how long nothing must have been written for the grower to have been away.
const away = 20 * time.Minute

// sinceYouLeft says what has come due since the last entry; "" when nothing has, or
// when the grower has hardly been away.
func (m *board) sinceYouLeft() string {
	last, ok := m.desk.book.LastToStrike()
	if !ok || m.desk.now.Sub(last.At) < away {
		return ""
	}
	var parts []string
	for _, l := range m.desk.loads {
		if left := m.desk.left(l); left < 0 && m.desk.outAt(l).Until.After(last.At) {
			parts = append(parts, fmt.Sprintf("%s (load %d, %s) should have been out %s ago", show.Safe(l.Vessel), l.ID,
				show.Count(l.Left, "plant"), show.Duration(max(-left, time.Minute).Truncate(time.Minute))))
		}
	}
	dry := 0
	for i := range m.desk.outlook.Drying {
		d := &m.desk.outlook.Drying[i]
		if m.desk.book.Row(d.ID).State == model.Drying && d.Expected.After(last.At) && m.desk.toCheck(d) {
			dry++
		}
	}
	if dry > 0 {
		parts = append(parts, fmt.Sprintf("%s ready to check", show.Count(dry, "plant")))
	}
	if len(parts) == 0 {
		return ""
	}
	return "Since you left, " + show.Clock(last.At, m.desk.now, m.desk.book.Zone()) + ": " + strings.Join(parts, ", ")
}

// urgent is the screen where something is overdue: a load that is due, plants that
// dry for longer than they should. With nothing overdue it is the first.
func (m *board) urgent() int {
	letter := m.screens[0].letter()
	switch {
	case len(m.desk.loads) > 0 && m.desk.isDue(m.desk.loads[0]):
		letter = "s"
	case m.desk.overdue > 0:
		letter = "d"
	}
	return slices.IndexFunc(m.screens, func(s screen) bool { return s.letter() == letter })
}
