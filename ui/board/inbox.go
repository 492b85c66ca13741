package board

import (
	"slices"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model/day"
	"tubside/store"
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
	if all, err := store.Inbox(m.desk.store.Path()); err == nil {
		for _, w := range all {
			for _, e := range w.Entries {
				if !w.Refused && day.Follows(e, m.desk.now) {
					_ = m.desk.settle(m.desk.now, e.Fact) // what is wrong with the book the entry itself will say
				}
			}
		}
	}
	refused, err := m.desk.store.TakeIn(func(w store.Waiting) {
		m.desk.followAll(w.Entries)
		m.desk.say("Came in: %s", show.Line(show.Entries(w.Entries, w.From, m.desk.book)))
	})
	if m.desk.version != before {
		m.sync()
	}
	for _, w := range refused {
		m.desk.refuse("What was left for the book could not be taken: %s (tubside book inbox)",
			show.Safe(w.Why.Error()))
	}
	if err != nil {
		m.desk.complain(err)
	}
}

// sayRefused says at the start that something lies refused in the inbox.
func (m *board) sayRefused() {
	all, err := store.Inbox(m.desk.store.Path())
	if n := len(slices.DeleteFunc(all, func(w store.Waiting) bool { return !w.Refused })); err == nil && n > 0 {
		m.desk.refuse("%s left for the book could not be taken: tubside book inbox", show.Count(n, "entry", "entries"))
	}
}
