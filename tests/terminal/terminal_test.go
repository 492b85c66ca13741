//go:build unix

// Package terminal_test drives the real program through a real pseudo-terminal
// and reads its screen as a terminal emulator shows it.
package terminal_test

import (
	"bytes"
	"errors"
	"io"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/charmbracelet/x/vt"
	"github.com/creack/pty"

	"tubside/ui/command"
)

// asProgram makes this test binary behave as tubside.
const asProgram = "TUBSIDE_TEST_AS_PROGRAM"

func TestMain(m *testing.M) {
	switch os.Getenv(asProgram) {
	case "":
	case spoilt:
		os.Exit(spoiltBoard(os.Args[1]))
	default:
		os.Exit(command.Main(command.Env{Args: os.Args[1:], In: os.Stdin, Out: os.Stdout, Err: os.Stderr,
			Clock: testClock, Getenv: os.Getenv, State: os.Getenv(stateFolder)}))
	}
	os.Exit(m.Run())
}

// patience is how long a screen may take to show what it should. It is only
// waited for in full by a test that fails.
const patience = 20 * time.Second

// terminal is a program running in a terminal window.
type terminal struct {
	t       *testing.T
	cmd     *exec.Cmd
	tty     *os.File
	mu      sync.Mutex // guards what is drawn on screen
	screen  *vt.Emulator
	changed chan struct{}
	ended   chan error
	raw     *record
}

// record keeps what the program wrote.
type record struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (r *record) Write(p []byte) (int, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.b.Write(p)
}

func (r *record) contains(s string) bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	return bytes.Contains(r.b.Bytes(), []byte(s))
}

// run starts the program in a window of the given size.
func run(t *testing.T, cols, rows int, env []string, args ...string) *terminal {
	t.Helper()
	cmd := exec.Command(os.Args[0], args...)
	cmd.Env = append(os.Environ(), asProgram+"=1", "TERM=xterm-256color", "COLORTERM=", "CI=", "NO_COLOR=", "TZ=UTC",
		"TUBSIDE_NOW=", "TUBSIDE_BOOK=")
	cmd.Env = append(cmd.Env, env...)
	tty, err := pty.StartWithSize(cmd, &pty.Winsize{Cols: uint16(cols), Rows: uint16(rows)})
	if err != nil {
		t.Fatal(err)
	}
	return watch(t, cmd, tty, cols, rows)
}

// watch shows what a program that was started writes to its terminal.
func watch(t *testing.T, cmd *exec.Cmd, tty *os.File, cols, rows int) *terminal {
	t.Helper()
	w := &terminal{t: t, cmd: cmd, tty: tty, screen: vt.NewEmulator(cols, rows), changed: make(chan struct{}, 1),
		ended: make(chan error, 1), raw: &record{}}
	go w.show()
	go func() { _, _ = io.Copy(tty, w.screen) }() // what the terminal answers when asked
	t.Cleanup(func() {
		_ = cmd.Process.Kill()
		_ = tty.Close()
	})
	return w
}

// show copies what the program writes to the screen until it ends.
func (w *terminal) show() {
	buf := make([]byte, 32<<10)
	for {
		n, err := w.tty.Read(buf)
		if n > 0 {
			_, _ = w.raw.Write(buf[:n])
			w.draw(buf[:n])
			w.wake()
		}
		if err != nil {
			w.ended <- w.cmd.Wait()
			w.wake()
			return
		}
	}
}

func (w *terminal) wake() {
	select {
	case w.changed <- struct{}{}:
	default:
	}
}

func (w *terminal) draw(b []byte) {
	w.mu.Lock()
	defer w.mu.Unlock()
	_, _ = w.screen.Write(b)
}

// text is the screen without its colours.
func (w *terminal) text() string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.screen.String()
}

// resize makes the window another size, and tells the program.
func (w *terminal) resize(cols, rows int) *terminal {
	w.t.Helper()
	w.mu.Lock()
	w.screen.Resize(cols, rows)
	w.mu.Unlock()
	if err := pty.Setsize(w.tty, &pty.Winsize{Cols: uint16(cols), Rows: uint16(rows)}); err != nil {
		w.t.Fatal(err)
	}
	return w
}

// until waits for the screen to satisfy a condition.
func (w *terminal) until(what string, ok func(screen string) bool) *terminal {
	w.t.Helper()
	limit := time.After(patience)
	for !ok(w.text()) {
		select {
		case <-w.changed:
		case <-limit:
			w.t.Fatalf("waited in vain for %s; the screen:\n%s", what, w.text())
		}
	}
	return w
}

// sees waits for a text on the screen.
func (w *terminal) sees(text string) *terminal {
	w.t.Helper()
	return w.until(text, func(s string) bool { return strings.Contains(s, text) })
}

// gone waits for a text to leave the screen.
func (w *terminal) gone(text string) *terminal {
	w.t.Helper()
	return w.until("no more "+text, func(s string) bool { return !strings.Contains(s, text) })
}

// keys types; the program may see several keys in one read.
func (w *terminal) keys(keys string) *terminal {
	w.t.Helper()
	if _, err := io.WriteString(w.tty, keys); err != nil {
		w.t.Fatal(err)
	}
	return w
}

// Keys that are not characters.
const (
	tab   = "\t"
	enter = "\r"
	esc   = "\x1b"
)

// ends waits for the program to end and gives its exit code.
func (w *terminal) ends() int {
	w.t.Helper()
	select {
	case err := <-w.ended:
		if exit, ok := errors.AsType[*exec.ExitError](err); ok {
			return exit.ExitCode()
		}
		if err != nil {
			w.t.Fatal(err)
		}
		return 0
	case <-time.After(patience):
		w.t.Fatalf("the program does not end; the screen:\n%s", w.text())
		return -1
	}
}

// shell runs one command to its end without a terminal.
func shell(t *testing.T, args ...string) string {
	t.Helper()
	cmd := exec.Command(os.Args[0], args...)
	cmd.Env = append(os.Environ(), asProgram+"=1", "TERM=dumb", "TZ=UTC", "TUBSIDE_NOW=", "TUBSIDE_BOOK=")
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %v\n%s", args, err, out)
	}
	return string(out)
}
