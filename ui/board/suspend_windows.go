package board

import tea "github.com/charmbracelet/bubbletea"

// suspend says that Windows has no such thing.
func (m *board) suspend() tea.Cmd {
	m.desk.say("This system cannot suspend a program: open a second window instead")
	return nil
}
