//go:build unix

package terminal_test

import (
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/charmbracelet/x/term"

	"tubside/store"
	"tubside/ui/board"
)

const (
	// stateFolder is where the program under test writes down a mistake in itself.
	stateFolder = "TUBSIDE_TEST_STATE"
	// broken in the clock's file is a clock that panics, once.
	broken = "the clock is broken"
	// spoilt in place of asProgram is a board on a book that its workers stumble over.
	spoilt = "spoilt"
)

// spoiltBoard shows a book with a plant such as no book has, which the board draws and
// which breaks what is worked out beside it.
func spoiltBoard(path string) int {
	s, err := store.Open(path, store.Options{})
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 2
	}
	s.Book().Row(1).Form = "none"
	if err := board.Run(s, testClock, board.Options{}); err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	return 0
}

// A mistake in the program, at a key or in what works beside the keys, gives the terminal
// back as it was, and the stack goes into a file and not over the screen.
func TestAMistakeInTheProgramGivesTheTerminalBack(t *testing.T) {
	book := begun(t)
	shell(t, "--book", book, "--now", someDay, "enter", "add", "--label", "first", "--shelf", "A", "--spot", "1")
	for _, where := range []string{"at a key", "beside the keys"} {
		t.Run(where, func(t *testing.T) {
			state, clock := filepath.Join(t.TempDir(), "state"), filepath.Join(t.TempDir(), "clock")
			env := []string{stateFolder + "=" + state, clockFile + "=" + clock}
			args := []string{"--book", book}
			if where == "beside the keys" {
				env, args = append(env, asProgram+"="+spoilt), []string{book}
			}
			if err := os.WriteFile(clock, []byte(someDay), 0o600); err != nil {
				t.Fatal(err)
			}
			before := cooked(t)
			w := run(t, 80, 24, env, args...)
			if where == "at a key" {
				w.sees("first")
				if err := os.WriteFile(clock, []byte(broken), 0o600); err != nil {
					t.Fatal(err)
				}
				w.keys("?")
			}
			if code := w.ends(); code != 1 {
				t.Errorf("exit code %d, want 1", code)
			}
			if now, err := term.GetState(w.tty.Fd()); err != nil || !reflect.DeepEqual(now, before) {
				t.Errorf("the terminal is left as %+v, it was %+v, %v", now, before, err)
			}
			for text, want := range map[string]bool{
				"\x1b[?1049l": true, "\x1b[?25h": true, "a mistake in tubside itself": true,
				"goroutine ": false, ".go:": false, "Caught": false,
			} {
				if w.raw.contains(text) != want {
					t.Errorf("on the terminal, %q: %v", text, !want)
				}
			}
			if where == "at a key" {
				writtenDown(t, state, w)
			}
			shell(t, "--book", book, "--now", someDay, "book", "check")
		})
	}
}

// cooked is how a terminal is set before a program runs in it.
func cooked(t *testing.T) *term.State {
	t.Helper()
	w := run(t, 80, 24, nil, "--help")
	set, err := term.GetState(w.tty.Fd())
	if err != nil {
		t.Fatal(err)
	}
	w.ends()
	return set
}

// writtenDown fails unless the mistake is in the file that the screen names.
func writtenDown(t *testing.T, state string, w *terminal) {
	t.Helper()
	path := filepath.Join(state, "crashes.log")
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{broken, "testClock", "soakday_test.go:"} {
		if !strings.Contains(string(text), want) {
			t.Errorf("no %q in the file:\n%s", want, text)
		}
	}
	if !w.raw.contains("crashes.log") {
		t.Errorf("the terminal does not name the file:\n%s", w.text())
	}
}
