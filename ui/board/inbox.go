package board

import (
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/ui/show"
)

// inboxPause is how often the board looks for entries that were left for it while
// it has the book: soon enough not to be waited for.
const inboxPause = 2 * time.Second

// inboxMsg asks for a look into the inbox.
type inboxMsg struct{}

func (m *board) listen() tea.Cmd {
	return m.every(inboxPause, func(time.Time) tea.Msg { return inboxMsg{} })
}

// takeIn writes what was left in the inbox and shows it.
func (m *board) takeIn() {
	before := m.desk.version
	refused, err := m.desk.store.TakeIn(func(e model.Entry) {
		m.desk.follow(e)
		m.desk.say("Came in: %s", show.Line(show.Sentence(e, m.desk.book)))
	})
	if m.desk.version != before {
		m.sync()
	}
	for _, w := range refused {
		m.desk.say("An entry left for the book could not be taken: %s (tubside book inbox)",
			show.Line(show.Safe(w.Why.Error())))
		m.desk.trouble = true
	}
	if err != nil {
		m.desk.complain(err)
	}
}
