package board

import (
	"slices"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
)

// tickMsg is the clock's beat; it only asks for a look at the time.
type tickMsg struct{}

// counts reports whether a clock runs that rings.
func (d *desk) counts() bool { return len(d.loads) > 0 || len(d.taps) > 0 }

// tick beats each second while something is in the water or water runs, else each minute.
func (m *board) tick() tea.Cmd {
	pause := time.Minute
	if m.desk.counts() {
		pause = time.Second
	}
	return m.every(pause, func(time.Time) tea.Msg { return tickMsg{} })
}

// Update takes one message. Every message sees one time.
func (m *board) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	m.desk.now = m.desk.clock()
	if !m.ready {
		return m, tea.Batch(m.updateEarly(msg), m.desk.startLater())
	}
	defer func() {
		if m.desk.redress() {
			m.sync() // what is painted and kept is painted anew
		}
	}()
	before := m.desk.counts()
	var cmd tea.Cmd
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		m.desk.width, m.desk.height = msg.Width, msg.Height
		m.sync()
	case tea.KeyMsg:
		cmd = m.keys(msg)
		m.sync()
	case silentMsg:
		cmd = m.silent()
	case planBeatMsg:
		m.beating = false
	case planBegun, planMade:
		for _, s := range m.screens {
			if s, ok := s.(*planScreen); ok {
				cmd = s.arrive(msg)
			}
		}
		m.sync()
	case scaleShown:
		msg.of.page = &msg.page
	case chartMsg:
		msg.of.chart(msg)
	case readAgain:
		m.desk.catchUp(msg)
		m.sync()
	case tickMsg:
		cmd = tea.Batch(m.beat(), m.tick())
	case copyMsg:
		m.desk.store.CopyBeside()
	case inboxMsg:
		m.takeIn()
		cmd = m.listen()
	case tea.ResumeMsg:
		cmd = m.beat()
	case paperMsg:
		m.desk.learn(msg)
	}
	cmd = tea.Batch(cmd, m.desk.startLater(), m.planBeat())
	if !before && m.desk.counts() {
		cmd = tea.Batch(cmd, m.tick()) // the slow beat would miss the first due time
	}
	return m, cmd
}

// beat looks at the time: loads that have come due ring, and once a minute the
// whole outlook is worked out again.
func (m *board) beat() tea.Cmd {
	if m.desk.now.Sub(m.desk.outlook.At) >= time.Minute || m.desk.now.Before(m.desk.outlook.At) {
		m.desk.look()
		m.sync()
	}
	ring, justDue := m.bell.check(m.desk)
	if justDue && len(m.desk.over) == 0 {
		m.desk.push(m.newClock()) // to be seen from wherever the grower is
	}
	return ring
}

// sync makes what is shown keep up with the book. A card whose plant is no longer
// in the book, because the entry that brought it was struck, closes.
func (m *board) sync() {
	m.desk.over = slices.DeleteFunc(m.desk.over, func(o overlay) bool {
		about, ok := o.(interface{ about() model.IDs })
		return ok && slices.ContainsFunc(about.about(), func(id model.ID) bool { return m.desk.book.Row(id) == nil })
	})
	m.front().sync()
}

// keys splits what came in one read into single keys: held-down keys and slow
// links join them, and a joined key would match nothing.
func (m *board) keys(msg tea.KeyMsg) tea.Cmd {
	if m.desk.width < minWidth || m.desk.height < minHeight {
		if msg.String() == "q" || msg.String() == "ctrl+c" {
			return tea.Quit
		}
		return nil // nobody should act on what cannot be seen
	}
	if msg.Type != tea.KeyRunes || len(msg.Runes) < 2 || msg.Paste {
		return m.key(msg)
	}
	var cmds []tea.Cmd
	for i, r := range msg.Runes {
		if i > 0 {
			m.sync() // each key finds what the one before left
		}
		cmds = append(cmds, m.key(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}, Alt: msg.Alt}))
	}
	return tea.Batch(cmds...)
}

// key gives one key to whatever is in front.
func (m *board) key(msg tea.KeyMsg) tea.Cmd {
	m.leaving = m.leaving && (msg.String() == "q" || msg.String() == "ctrl+c")
	if m.desk.asksOut.key != msg.String() {
		m.desk.asksOut = askedOut{}
	}
	if msg.String() == "ctrl+c" {
		return m.leave("Ctrl-C")
	}
	if n := len(m.desk.over); n > 0 && m.scans(msg) {
		m.scan()
		return nil
	} else if n > 0 {
		cmd, _ := m.desk.press(m.desk.over[n-1].groups(), msg)
		return cmd
	}
	if msg.Paste {
		m.desk.say("Pasted text is only taken in forms")
		return nil
	}
	m.desk.said = ""
	if m.desk.onPad() && offPad(msg) {
		m.desk.say("The number pad is on and letters are off: # turns them on")
		return nil
	}
	return m.pass(msg)
}

// pass gives a key to the screen in front, and to what works everywhere.
func (m *board) pass(msg tea.KeyMsg) tea.Cmd {
	cmd, _ := m.desk.press(append(m.front().groups(), m.global), msg)
	return cmd
}
