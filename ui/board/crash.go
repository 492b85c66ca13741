package board

import (
	"fmt"
	"runtime/debug"

	tea "github.com/charmbracelet/bubbletea"
)

// Crash is a mistake in the program itself that ended it: what went wrong, and the
// stack where it did. It is for whoever mends the program; the terminal shows none of
// it.
type Crash struct {
	What  any
	Stack []byte
}

// Error says that the board had to end.
func (c *Crash) Error() string {
	return fmt.Sprintf("a mistake in tubside itself ended it (%v)", c.What)
}

// Caught is a panic that was recovered from; nil for none.
func Caught(what any) *Crash {
	if what == nil {
		return nil
	}
	return &Crash{what, debug.Stack()}
}

// steady is the board, held so that a mistake anywhere in it ends the program as a
// key would: the terminal is given back as it was. Bubble Tea would print the stack
// over the screen.
type steady struct {
	board *board
	quit  func()
	crash *Crash
}

// Init implements [tea.Model].
func (s *steady) Init() (cmd tea.Cmd) {
	defer func() { s.caught(recover()) }()
	return held(s.board.Init())
}

// Update implements [tea.Model].
func (s *steady) Update(msg tea.Msg) (m tea.Model, cmd tea.Cmd) {
	m = s // also after a panic
	defer func() {
		if s.caught(recover()); s.crash != nil {
			cmd = tea.Quit
		}
	}()
	if c, ok := msg.(*Crash); ok {
		s.crash = c
	}
	if s.crash != nil {
		return s, tea.Quit
	}
	_, cmd = s.board.Update(msg)
	return m, held(cmd)
}

// View implements [tea.Model].
func (s *steady) View() (frame string) {
	defer func() { s.caught(recover()) }()
	if s.crash != nil {
		return ""
	}
	return s.board.View()
}

// caught notes a panic and leaves.
func (s *steady) caught(what any) {
	if what != nil && s.crash == nil {
		s.crash = Caught(what)
		go s.quit() // whoever is here is who would hear it
	}
}

// held is work away from the keys whose mistake is told to the board.
func held(cmd tea.Cmd) tea.Cmd {
	if cmd == nil {
		return nil
	}
	return func() (msg tea.Msg) {
		defer func() {
			if c := Caught(recover()); c != nil {
				msg = c
			}
		}()
		msg = cmd()
		if several, ok := msg.(tea.BatchMsg); ok {
			for i := range several {
				several[i] = held(several[i])
			}
		}
		return msg
	}
}
