package board

import (
	"fmt"
	"io"
	"sync"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/model/day"
	"tubside/ui/show"
)

// bell calls the grower when a load comes due: once when it is due and again
// each minute until somebody comes.
type bell struct {
	out  io.Writer
	rung map[model.LoadID]int // minutes late at the last ring
	taps map[day.Tap]bool     // that it has rung for
}

// mostRings is how often one load rings: after a quarter of an hour
// the grower is out, and the neighbours are not.
const mostRings = 15

func newBell(out io.Writer) *bell {
	return &bell{out: out, rung: map[model.LoadID]int{}, taps: map[day.Tap]bool{}}
}

// check rings for every load that is due, and once for a tap that is to be turned off, and says
// whether a load has just come due. What to send is decided here, the sending is a command.
func (b *bell) check(d *desk) (ring tea.Cmd, justDue bool) {
	how := d.book.Rules().Word(model.Notify)
	var cmds []tea.Cmd
	for _, l := range d.loads {
		out := d.outAt(l)
		if d.now.Before(out.From) {
			continue
		}
		late := int(out.Late(d.now).Minutes())
		last, rang := b.rung[l.ID]
		if rang && (late <= last || late >= mostRings) {
			continue
		}
		justDue = justDue || !rang
		b.rung[l.ID] = late
		if seq := call(how, fmt.Sprintf("%s is due: take out %s", show.Safe(l.Vessel),
			show.Count(l.Left, "plant"))); seq != "" {
			cmds = append(cmds, b.send(seq))
		}
	}
	for _, tap := range d.taps {
		if d.now.Before(tap.Until) || b.taps[tap] {
			continue
		}
		b.taps[tap] = true
		if seq := call(how, show.Safe(tap.Vessel)+" is full: turn off the tap"); seq != "" {
			cmds = append(cmds, b.send(seq))
		}
	}
	return tea.Batch(cmds...), justDue
}

// call is the bytes that call a person: the bell, and with it the terminal's
// notification where the house rule names one (OSC 9 of iTerm2, OSC 777 of
// rxvt-unicode). The text must be clean.
func call(how, text string) string {
	switch how {
	case "bell":
		return "\a"
	case "osc9":
		return "\a\x1b]9;" + text + "\x1b\\"
	case "osc777":
		return "\a\x1b]777;notify;tubside;" + text + "\x1b\\"
	}
	return ""
}

// send writes to the terminal in one write, between the frames.
func (b *bell) send(seq string) tea.Cmd {
	return func() tea.Msg {
		_, _ = io.WriteString(b.out, seq) // a bell that cannot ring is no reason to stop
		return nil
	}
}

// shared lets the frames and the bell write to one terminal by turns. It keeps
// the file's descriptor in sight, which Bubble Tea needs to find its size.
type shared struct {
	file
	mu sync.Mutex
}

// file is what Bubble Tea asks of a terminal.
type file interface {
	io.ReadWriteCloser
	Fd() uintptr
}

// Write writes one piece whole.
func (s *shared) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.file.Write(p)
}
