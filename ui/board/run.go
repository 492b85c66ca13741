package board

import (
	"errors"
	"fmt"
	"os"
	"os/signal"
	"syscall"

	tea "github.com/charmbracelet/bubbletea"
)

// beats is how often a second Bubble Tea sends what has changed to the terminal;
// a frame waits for the next beat, the first one for a whole beat. 120 is the
// most it takes; a board left alone uses 1.1 % of a core with it, 0.7 % with the
// usual 60.
const beats = 120

// run starts the program and waits for it to end.
func run(d *desk, opt Options) error {
	d.ascii = opt.ASCII
	out := opt.Output
	if out == nil {
		out = &shared{file: os.Stdout}
	}
	programOptions := []tea.ProgramOption{tea.WithAltScreen(), tea.WithOutput(out), tea.WithFPS(beats)}
	if opt.Input != nil {
		programOptions = append(programOptions, tea.WithInput(opt.Input))
	}
	p := tea.NewProgram(newBoard(d, newBell(out)), programOptions...)
	stop := quitOnHangup(p)
	defer stop()
	if _, err := p.Run(); err != nil && !errors.Is(err, tea.ErrInterrupted) {
		return fmt.Errorf("the board stopped: %w; every entry made is in the book", err)
	}
	return nil
}

// quitOnHangup leaves in good order when the window is closed. Bubble Tea does
// not handle SIGHUP, and the process would be killed with the store open.
func quitOnHangup(p *tea.Program) (stop func()) {
	hangup := make(chan os.Signal, 1)
	done := make(chan struct{})
	signal.Notify(hangup, syscall.SIGHUP)
	go func() {
		select {
		case <-hangup:
			p.Quit()
		case <-done:
		}
	}()
	return func() { signal.Stop(hangup); close(done) }
}
