//go:build unix

package terminal_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// While the board is open in a terminal a batch and a list come in at the shell:
// the board takes each in whole and shows it. Ended and begun again, it still has
// them.
func TestABatchAndAListBesideTheBoard(t *testing.T) {
	dir := t.TempDir()
	book, file := filepath.Join(dir, "book.db"), func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	shell(t, "--book", book, "book", "new")
	shell(t, "--book", book, "enter", "add", "--label", "Fuego", "--shelf", "Arch")
	w := run(t, 100, 30, nil, "--book", book).sees("Fuego")
	out := shell(t, "--book", book, "enter", "--from",
		file("saturday.txt", "add --label Lena --shelf Arch\nsigns 1-2 2 1 -\nnote 2 --text new\n"))
	if !strings.Contains(out, "the book is in use: left for it to take in: 3 entries from ") {
		t.Fatal(out)
	}
	w.sees("Came in: 3 entries from saturday.txt")
	shell(t, "--book", book, "import", file("new.csv", "label,species,shelf\nCapitata,capitata,Arch\n"))
	w.sees("Came in: Imported new.csv: 1 plant added").keys("T").keys("t").sees("Capitata").sees("Lena")
	shell(t, "--book", book, "enter", "--from", file("late.txt", "mist 1\n\nrot 3\n"))
	w.sees("Came in: 2 entries from late.txt").keys("q")
	if code := w.ends(); code != 0 {
		t.Fatalf("exit %d", code)
	}
	w = run(t, 100, 30, nil, "--book", book).sees("Capitata").sees("Lena")
	w.keys("q")
	if code := w.ends(); code != 0 {
		t.Fatalf("exit %d", code)
	}
	if out := shell(t, "--book", book, "book", "inbox"); !strings.Contains(out, "nothing is left") {
		t.Error(out)
	}
}
