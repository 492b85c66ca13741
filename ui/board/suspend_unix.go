//go:build unix

package board

import (
	tea "github.com/charmbracelet/bubbletea"
	"golang.org/x/sys/unix"
)

// suspend hands the terminal back to the shell. A program that leads its own
// session has no shell to go back to: the kernel ignores the stop and Bubble
// Tea would wait for ever.
func (m *board) suspend() tea.Cmd {
	if sid, err := unix.Getsid(0); err == nil && sid == unix.Getpgrp() {
		m.say("Not started from a shell: nothing to go back to")
		return nil
	}
	return tea.Suspend
}
