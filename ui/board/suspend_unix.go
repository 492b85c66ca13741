//go:build unix

package board

import (
	"io"
	"os"
	"os/signal"
	"syscall"

	tea "github.com/charmbracelet/bubbletea"
	"golang.org/x/sys/unix"

	"tubside/store"
)

// suspend hands the terminal back to the shell. A program that leads its own
// session has no shell to go back to: the kernel ignores the stop and it would
// wait for ever.
func (m *board) suspend() tea.Cmd {
	if sid, err := unix.Getsid(0); err == nil && sid == unix.Getpgrp() {
		m.desk.say("Not started from a shell: nothing to go back to")
		return nil
	}
	return tea.Exec(&suspended{m.desk.store}, func(error) tea.Msg { return tea.ResumeMsg{} })
}

// suspended is the program while it is stopped. Bubble Tea's own suspending
// reaches for the terminal as soon as the program runs again; one that was asked
// to end meanwhile has it no longer, and would be stopped by that for ever, with
// the book held.
type suspended struct{ book *store.Store }

// Run implements [tea.ExecCommand]: it returns when the shell brings the program
// back.
func (s *suspended) Run() error {
	again, end := make(chan os.Signal, 1), make(chan os.Signal, 1)
	signal.Notify(again, syscall.SIGCONT)
	defer signal.Stop(again)
	signal.Notify(end, syscall.SIGHUP, syscall.SIGTERM)
	defer signal.Stop(end)
	if err := unix.Kill(0, unix.SIGTSTP); err != nil {
		return err
	}
	<-again
	select { // what ends a program has a lower number than what wakes it, and comes first
	case <-end:
		_ = s.book.Close() // every entry is on the disk already
		os.Exit(0)
	default:
	}
	return nil
}

// SetStdin does nothing: the stopped program reads nothing.
func (*suspended) SetStdin(io.Reader) {}

// SetStdout does nothing: the stopped program writes nothing.
func (*suspended) SetStdout(io.Writer) {}

// SetStderr does nothing, as SetStdout does.
func (*suspended) SetStderr(io.Writer) {}
