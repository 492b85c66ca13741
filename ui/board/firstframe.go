package board

import (
	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/ui/show"
)

// updateEarly takes messages while what the plants need is still being
// worked out. Keys are kept for the moment it is known, except those that leave:
// a q behind other keys waits for them.
func (m *board) updateEarly(msg tea.Msg) tea.Cmd {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		m.desk.width, m.desk.height = msg.Width, msg.Height
		return m.work()
	case paperMsg:
		m.desk.learn(msg)
		m.desk.redress()
	case workedOut:
		return m.begin(msg)
	case tea.KeyMsg:
		if msg.String() == "q" && len(m.early) == 0 || msg.String() == "ctrl+c" {
			return tea.Quit
		}
		m.early = append(m.early, msg)
	}
	return nil
}

// work begins to work out what the plants need, which on a large book takes longer than
// a first frame may. It begins once the window's size is known: Go takes up to 10 ms to
// see that the thread that waits for keys has left its core, and until then, of two
// cores, the size would stand behind the needs.
func (m *board) work() tea.Cmd {
	if m.working || m.desk.width == 0 {
		return nil
	}
	m.working = true
	believed, book, now := m.desk.beliefs, m.desk.book, m.desk.now
	return func() tea.Msg { return workOut(believed, book, now) }
}

// drawEarly is the first frame: the plants where they hang, before anything is
// worked out.
func (m *board) drawEarly(p *page) {
	p.line(" " + m.desk.theme.title.of("▸Triage"))
	p.line(m.desk.theme.quiet.of(show.Fit(" working out what each plant needs …", m.desk.width)))
	p.line("")
	shelf := ""
	for _, id := range m.desk.book.Walk(m.present()) {
		if p.lines >= m.desk.height-2 {
			break
		}
		r := m.desk.book.Row(id)
		if name := shelfWords(r.Home.Shelf); name != shelf {
			shelf = name
			p.line(m.desk.heading(show.Safe(name), ""))
		}
		p.line("   " + show.Pad(show.Safe(r.Home.Spot), spotWidth) + show.Fit(show.Title(r.Plant), m.desk.width-spotWidth-4))
	}
}

// present lists the plants that are not gone.
func (m *board) present() model.IDs {
	var ids model.IDs
	for _, id := range m.desk.book.IDs() {
		if m.desk.book.Row(id).State != model.Gone {
			ids = append(ids, id)
		}
	}
	return ids
}
