//go:build unix

package terminal_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"tubside/store"
)

const someDay = "2026-01-17T09:00:00Z"

// begun is a new book.
func begun(t *testing.T) string {
	t.Helper()
	book := filepath.Join(t.TempDir(), "book.db")
	shell(t, "--book", book, "--now", someDay, "book", "new")
	return book
}

// Where there is no book the board asks before it begins one, and what is typed
// after the answer is the board's.
func TestTheBoardAsksBeforeItBeginsABook(t *testing.T) {
	book := filepath.Join(t.TempDir(), "book.db")
	w := run(t, 80, 24, nil, "--book", book, "--now", someDay)
	if code := w.sees("Start one?").keys("n\r").ends(); code != 1 {
		t.Errorf("exit code %d, want 1", code)
	}
	if _, err := os.Stat(book); err == nil {
		t.Fatal("a book was begun all the same")
	}
	w = run(t, 80, 24, nil, "--book", book, "--now", someDay)
	w.sees("Start one?").keys("\r").sees("What do you soak in?").keys("\x03").ends()
	w = run(t, 80, 24, nil, "--book", book, "--now", someDay)
	w.sees("This book is empty").keys("q").ends()
}

// Missing beside its copies, the book comes back by one key.
func TestTheBoardOffersTheNewestCopyOfAMissingBook(t *testing.T) {
	book := begun(t)
	shell(t, "--book", book, "--now", someDay, "enter", "add", "--label", "first")
	if err := os.Remove(book); err != nil {
		t.Fatal(err)
	}
	w := run(t, 80, 24, nil, "--book", book, "--now", someDay)
	w.sees("Its newest good copy has 1 entry").keys("y\r").sees("first").keys("q").ends()
}

// A closed window, or a kill that can be answered, must leave the book closed
// and whole, with all that was entered.
func TestEndedFromOutsideKeepsWhatWasEntered(t *testing.T) {
	for name, signal := range map[string]syscall.Signal{"window closed": syscall.SIGHUP,
		"asked to end": syscall.SIGTERM, "killed": syscall.SIGKILL} {
		t.Run(name, func(t *testing.T) {
			book := begun(t)
			shell(t, "--book", book, "--now", someDay, "enter", "add", "--label", "first", "--shelf", "A", "--spot",
				"1")
			w := run(t, 80, 24, nil, "--book", book, "--now", someDay)
			w.sees("first").keys("210").sees("2 1 0")
			if err := w.cmd.Process.Signal(signal); err != nil {
				t.Fatal(err)
			}
			w.ends()
			s, err := store.Open(book, store.Options{})
			if err != nil {
				t.Fatal(err)
			}
			defer s.Close()
			if signs := s.Book().Row(1).Signs.String(); signs != "210" {
				t.Errorf("signs %s, want 210", signs)
			}
		})
	}
}

func TestASecondBoardSaysTheBookIsInUse(t *testing.T) {
	book := begun(t)
	w := run(t, 80, 24, nil, "--book", book, "--now", someDay)
	w.sees("This book is empty")
	second := run(t, 80, 24, nil, "--book", book, "--now", someDay)
	if code := second.sees("in use").ends(); code != 3 {
		t.Errorf("exit code %d, want 3", code)
	}
	w.keys("q").ends()
}

func TestAWindowTooSmallSaysSoAndComesBack(t *testing.T) {
	book := begun(t)
	w := run(t, 40, 10, nil, "--book", book, "--now", someDay)
	w.sees("too small")
	w.resize(80, 24).sees("This book is empty").keys("q").ends()
}

// Without colour every state must still be readable, and the cursor seen.
func TestWithoutColourNothingIsLost(t *testing.T) {
	book := begun(t)
	shell(t, "--book", book, "--now", someDay, "enter", "add", "--label", "only one", "--shelf", "A")
	w := run(t, 80, 24, []string{"NO_COLOR=1"}, "--book", book, "--now", someDay)
	w.sees("▸").sees("only one")
	for n := range 10 {
		for _, colour := range []string{"\x1b[3", "\x1b[4", "\x1b[9", "\x1b[10"} {
			if w.raw.contains(fmt.Sprint(colour, n)) {
				t.Errorf("a colour was sent in spite of NO_COLOR: %q", fmt.Sprint(colour, n))
			}
		}
	}
	if !w.raw.contains("\x1b[1m") || !w.raw.contains("\x1b[7m") {
		t.Error("bold or reverse is not kept")
	}
	w.keys("q").ends()
}

func TestASCIIModeSendsNothingElse(t *testing.T) {
	book := begun(t)
	shell(t, "--book", book, "--now", someDay, "enter", "add", "--label", "é über", "--shelf", "A")
	w := run(t, 80, 24, nil, "--ascii", "--book", book, "--now", someDay)
	w.sees("e uber")
	w.keys("?").sees("Keying in signs").keys(esc).gone("Keying in signs").keys("q").ends()
	w.raw.mu.Lock()
	defer w.raw.mu.Unlock()
	if i := strings.IndexFunc(w.raw.b.String(), func(r rune) bool { return r > '~' }); i >= 0 {
		t.Errorf("sent %q", w.raw.b.String()[i:min(i+12, w.raw.b.Len())])
	}
}

func TestSuspendWithoutAShellIsRefused(t *testing.T) {
	book := begun(t)
	w := run(t, 80, 24, nil, "--book", book, "--now", someDay) // leads its own session
	w.sees("This book is empty").keys("\x1a").sees("nothing to go back to").keys("q").ends()
}
