//go:build unix

package terminal_test

import (
	"errors"
	"os"
	"os/exec"
	"syscall"
	"testing"

	"github.com/creack/pty"

	"tubside/store"
)

// Suspended, then the window closed, its shell killed, or the program asked to
// end: it has no terminal to come back to and must let the book go.
func TestSuspendedAndThenEndedLetsTheBookGo(t *testing.T) {
	bash, err := exec.LookPath("bash")
	if err != nil {
		t.Skip("it takes a shell with job control: there is no bash here")
	}
	for name, leave := range map[string]func(w *terminal){
		"window closed": func(w *terminal) { _ = w.tty.Close() },
		"shell killed":  func(w *terminal) { _ = w.cmd.Process.Kill() },
		"asked to end":  func(w *terminal) { w.keys("kill %1\r") },
	} {
		t.Run(name, func(t *testing.T) {
			book := begun(t)
			w := inShell(t, bash)
			w.keys(os.Args[0] + " --book " + book + " --now " + someDay + "\r").sees("This book is empty")
			if _, err := store.Open(book, store.Options{}); err == nil {
				t.Fatal("the board does not hold the book")
			}
			w.keys("\x1a").sees("Stopped")
			leave(w)
			s, err := store.Open(book, store.Options{Wait: patience})
			if err != nil {
				t.Fatalf("the book is still held: %v", err)
			}
			if err := s.Close(); err != nil {
				t.Error(err)
			}
		})
	}
}

func TestSuspendedAndBroughtBack(t *testing.T) {
	bash, err := exec.LookPath("bash")
	if err != nil {
		t.Skip("it takes a shell with job control: there is no bash here")
	}
	w := inShell(t, bash)
	w.keys(os.Args[0] + " --book " + begun(t) + " --now " + someDay + "\r").sees("This book is empty")
	w.keys("\x1a").sees("Stopped").keys("fg\r").sees("This book is empty").keys("q").sees("$ ")
}

// inShell is a terminal with an interactive shell in it.
func inShell(t *testing.T, shell string) *terminal {
	t.Helper()
	cmd := exec.Command(shell, "--norc", "--noprofile", "-i")
	cmd.Env = append(os.Environ(), asProgram+"=1", "TERM=xterm-256color", "TZ=UTC", "PS1=$ ", "TUBSIDE_NOW=",
		"TUBSIDE_BOOK=")
	tty, err := pty.StartWithSize(cmd, &pty.Winsize{Cols: 80, Rows: 24})
	if err != nil {
		t.Fatal(err)
	}
	// Not blocking, so that closing it ends a read that waits: the window is gone.
	fd, err := syscall.Dup(int(tty.Fd()))
	if err == nil {
		err = errors.Join(tty.Close(), syscall.SetNonblock(fd, true))
	}
	if err != nil {
		t.Fatal(err)
	}
	return watch(t, cmd, os.NewFile(uintptr(fd), "window"), 80, 24)
}
