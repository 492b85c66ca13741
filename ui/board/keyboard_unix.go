//go:build unix

package board

import (
	"os"
	"time"

	"github.com/charmbracelet/x/term"
	"golang.org/x/sys/unix"
)

const (
	// escWait is how long a lone Esc waits for the rest of an answer that begins
	// with one: longer than a terminal takes between two bytes, shorter than a
	// person notices.
	escWait = 25 * time.Millisecond

	// lastWait is how long the program waits on leaving for an answer that has not
	// come, so that the shell does not get it for a command.
	lastWait = 100 * time.Millisecond
)

// keyboard reads what is typed from a terminal, without what the terminal answers.
type keyboard struct {
	*os.File
	sieve
	buf [256]byte // as much as Bubble Tea reads at once
}

func newKeyboard(f *os.File) *keyboard { return &keyboard{File: f} }

// Read reads what was typed; it may come back with nothing. It fills p as long as
// there is more, for a reader that takes a short read for the end of a key.
func (k *keyboard) Read(p []byte) (typed int, err error) {
	defer func() {
		if c := Caught(recover()); c != nil {
			err = c
		}
	}()
	for room := len(p); room > 0; room = len(p) - typed - len(k.held) {
		buf := k.buf[:min(room, len(k.buf))]
		n, err := k.File.Read(buf)
		if err != nil {
			return typed, err
		}
		typed += copy(p[typed:], k.pass(buf[:n]))
		switch {
		case len(k.held) > 0:
			if !k.more(escWait) {
				return typed + copy(p[typed:], k.settle()), nil
			}
		case n < len(buf) || !k.more(0):
			return typed, nil
		}
	}
	return typed, nil
}

// more waits so long for another byte.
func (k *keyboard) more(wait time.Duration) bool {
	ready := []unix.PollFd{{Fd: int32(k.Fd()), Events: unix.POLLIN}}
	n, err := unix.Poll(ready, int(wait.Milliseconds()))
	return err == nil && n > 0 && ready[0].Revents&unix.POLLIN != 0
}

// swallow reads what the terminal still answers.
func (k *keyboard) swallow() {
	was, err := term.MakeRaw(k.Fd())
	if err != nil {
		return // the terminal is gone
	}
	defer term.Restore(k.Fd(), was)
	for !k.answers() && k.more(lastWait) {
		n, err := k.File.Read(k.buf[:])
		if err != nil {
			return
		}
		k.pass(k.buf[:n])
	}
}
