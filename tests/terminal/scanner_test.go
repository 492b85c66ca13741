//go:build unix

package terminal_test

import (
	"path/filepath"
	"strings"
	"testing"
)

// A scanner types a code and Enter faster than any hand: all of it in one write, or
// a byte a write. Either way a code goes to its plant and grades nothing, on Soak it
// fills the load, and a plant of other company stays out.
func TestAScannerAtItsOwnSpeed(t *testing.T) {
	burst := func(w *terminal, code string) { w.keys("%" + code + enter) }
	slowly := func(w *terminal, code string) {
		for _, c := range "%" + code + enter {
			w.keys(string(c))
		}
	}
	for name, scan := range map[string]func(*terminal, string){"one write": burst, "a byte a write": slowly} {
		t.Run(name, func(t *testing.T) {
			book := filepath.Join(t.TempDir(), "book.db")
			shell(t, "--book", book, "book", "new")
			for _, label := range []string{"Fuego", "Lena", "Rita", "Nova"} {
				shell(t, "--book", book, "enter", "add", "--label", label, "--name", "T. ionantha", "--shelf", "Arch")
			}
			shell(t, "--book", book, "enter", "quarantine", "3")
			shell(t, "--book", book, "enter", "trouble", "4", "--what", "scale")
			w := run(t, 100, 30, nil, "--book", book).sees("Nova")
			scan(w, "2")
			w.sees("#2 Lena: at home on Arch")
			w.keys("Ts").sees("▸Soak")
			scan(w, "1")
			w.sees("#1 Fuego goes into tub next, 1 so far")
			scan(w, "3")
			w.sees("#3 Rita stays out, it is kept apart: newcomer")
			scan(w, "4")
			w.sees("#4 Nova stays out, it is kept apart: sick")
			scan(w, "2")
			w.sees("#2 Lena goes into tub next, 2 so far")
			// Codes that come while the last is still being drawn are none of them lost.
			scan(w, "1")
			scan(w, "99")
			scan(w, "1")
			w.sees("#1 Fuego was scanned before").keys("q")
			if code := w.ends(); code != 0 {
				t.Fatalf("exit %d", code)
			}
			if log := shell(t, "--book", book, "log", "--last", "2"); !strings.Contains(log, "pull 1") ||
				!strings.Contains(log, "pull 2") || strings.Contains(log, "signs") {
				t.Errorf("the book ends with\n%s", log)
			}
		})
	}
}
