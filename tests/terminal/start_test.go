//go:build unix

package terminal_test

import (
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/creack/pty"

	"tubside/store"
)

var starts = flag.Int("starts", 10, "how often the board is started with keys typed from the first millisecond")

// kinds are five kinds of terminal by their TERM, and what each says when it is
// asked for its background: nothing, at once, or only when it is too late.
var kinds = []struct{ term, answer string }{
	{"xterm-256color", "\x1b]11;rgb:ffff/ffff/ffff\x1b\\"},
	{"xterm-256color", ""},
	{"tmux-256color", "\x1b]11;rgb:0b0b/0b0b/0b0b\a"},
	{"screen", ""},
	{"linux", ""},
	{"dumb", ""},
}

// Fifty keys typed from the first millisecond on are all taken, in their order,
// while the terminal answers among them, in pieces, late or not at all. Fifty
// times f marks the first fifty plants as fine; a key lost leaves one unmarked,
// and a stray "b" out of an answer puts one in bloom.
func TestKeysTypedFromTheFirstMillisecondAreTaken(t *testing.T) {
	template := filepath.Join(t.TempDir(), "book.db")
	list := filepath.Join(t.TempDir(), "plants.csv")
	var b strings.Builder
	b.WriteString("Label,Shelf,Spot\n")
	for i := range 60 {
		fmt.Fprintf(&b, "plant %d,A,%d\n", i+1, i+1)
	}
	if err := os.WriteFile(list, []byte(b.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	shell(t, "--book", template, "--now", someDay, "import", list)
	lost := 0
	for i := range *starts {
		kind := kinds[i%len(kinds)]
		book := filepath.Join(t.TempDir(), "book.db")
		copied(t, template, book)
		fine, blooms := startedTyping(t, book, kind.term, kind.answer, i)
		if fine != 50 || blooms != 0 {
			t.Errorf("start %d, TERM=%s answering %q: %d of 50 keys taken, %d plants in bloom", i+1, kind.term,
				kind.answer, fine, blooms)
			lost += 50 - fine
		}
	}
	t.Logf("%d starts, %d keys lost", *starts, lost)
}

// startedTyping starts the board, types at once, leaves, and counts in the book
// what came of it. The answer falls behind the key numbered turn.
func startedTyping(t *testing.T, book, term, answer string, turn int) (fine, blooms int) {
	t.Helper()
	cmd := exec.Command(os.Args[0], "--book", book, "--now", someDay)
	cmd.Env = append(os.Environ(), asProgram+"=1", "TERM="+term, "COLORTERM=", "COLORFGBG=", "CI=", "NO_COLOR=",
		"TZ=UTC", "TUBSIDE_NOW=", "TUBSIDE_BOOK=")
	tty, err := pty.StartWithSize(cmd, &pty.Winsize{Cols: 80, Rows: 24})
	if err != nil {
		t.Fatal(err)
	}
	defer tty.Close()
	asked := make(chan struct{})
	go func() {
		var seen strings.Builder
		buf := make([]byte, 4096)
		for told := false; ; {
			n, err := tty.Read(buf)
			seen.Write(buf[:n])
			if !told && (err != nil || strings.Contains(seen.String(), "]11;?")) {
				told = true
				close(asked)
			}
			if err != nil {
				return
			}
		}
	}()
	for range 50 {
		if _, err := io.WriteString(tty, "f"); err != nil {
			t.Fatal(err)
		}
	}
	if answer != "" {
		<-asked
		cut := turn % len(answer)
		for _, piece := range []string{answer[:cut], answer[cut:]} {
			if _, err := io.WriteString(tty, piece); err != nil {
				t.Fatal(err)
			}
		}
	}
	if _, err := io.WriteString(tty, "q"); err != nil {
		t.Fatal(err)
	}
	if err := cmd.Wait(); err != nil {
		t.Fatalf("the program: %v", err)
	}
	s, err := store.Open(book, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	for _, id := range s.Book().IDs() {
		r := s.Book().Row(id)
		if id <= 50 && !r.SignsAt.IsZero() {
			fine++
		}
		if !r.Bloom.IsZero() {
			blooms++
		}
	}
	return fine, blooms
}

func copied(t *testing.T, from, to string) {
	t.Helper()
	b, err := os.ReadFile(from)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(to, b, 0o600); err != nil {
		t.Fatal(err)
	}
}
