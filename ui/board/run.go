package board

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"sync/atomic"
	"syscall"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/ui/hush"
	"tubside/ui/ink"
)

// beats is how often a second Bubble Tea sends what has changed to the terminal;
// a frame waits for the next beat, the first one for a whole beat. 120 is the
// most it takes; a board left alone uses 1.1 % of a core with it, 0.7 % with the
// usual 60.
const beats = 120

// Bubble Tea is loaded and has asked the terminal nothing.
func init() { hush.Over() }

// run starts the program and waits for it to end.
func run(d *desk, opt Options) error {
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP) // before the terminal is touched
	defer signal.Stop(signals)

	d.ascii = opt.ASCII
	d.dress(os.Environ())
	var out io.Writer = &shared{file: os.Stdout}
	var in io.Reader
	var keys *keyboard
	if opt.Output != nil {
		out = opt.Output
	}
	if in = opt.Input; in == nil {
		keys = newKeyboard(os.Stdin)
		in = keys
	}
	m := newBoard(d, newBell(out))
	m.first, m.demo = opt.First, opt.Demo
	held := &steady{board: m}
	p := tea.NewProgram(held, tea.WithAltScreen(), tea.WithInput(in), tea.WithOutput(out), tea.WithFPS(beats),
		tea.WithoutSignalHandler())
	held.quit = p.Quit
	var asked atomic.Bool
	if keys != nil && answers(os.Getenv("TERM"), os.Getenv("TMUX") != "") {
		keys.paper = func(paper ink.Paper) { p.Send(paperMsg(paper)) }
		m.ask = func() {
			asked.Store(true)
			_, _ = io.WriteString(out, paperQuestion) // unasked, the board stays as it is
		}
	} else {
		d.nobodyAsks(os.Getenv("TERM"))
	}
	defer endOn(signals, p)()
	_, err := p.Run()
	if asked.Load() && !keys.answers() {
		keys.swallow()
	}
	if held.crash != nil {
		return held.crash
	}
	if err != nil && !errors.Is(err, tea.ErrInterrupted) {
		return fmt.Errorf("the board stopped: %w; every entry made is in the book", err)
	}
	return nil
}

// endOn leaves in good order when the program is asked to end or its window is
// closed.
func endOn(signals <-chan os.Signal, p *tea.Program) (stop func()) {
	done := make(chan struct{})
	go func() {
		select {
		case <-signals:
			p.Quit()
		case <-done:
		}
	}()
	return func() { close(done) }
}
