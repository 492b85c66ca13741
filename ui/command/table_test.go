//go:build !windows

package command

import (
	"bufio"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/creack/pty"

	"tubside/ui/show"
)

// onTerminal is what a command writes to a terminal of so many columns.
func onTerminal(t *testing.T, book string, cols int, args ...string) (lines []string) {
	t.Helper()
	master, terminal, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	defer master.Close()
	if err := pty.Setsize(terminal, &pty.Winsize{Rows: 24, Cols: uint16(cols)}); err != nil {
		t.Fatal(err)
	}
	done := make(chan int, 1)
	go func() {
		done <- Main(Env{
			Args: append([]string{"--book", book, "--now", noon.Format(time.RFC3339)}, args...),
			Out:  terminal, Err: os.Stderr, Clock: func() time.Time { return noon }, Getenv: func(string) string { return "" },
		})
		terminal.Close()
	}()
	for scan := bufio.NewScanner(master); scan.Scan(); {
		lines = append(lines, strings.TrimRight(scan.Text(), "\r"))
	}
	if code := <-done; code != 0 {
		t.Errorf("%v: exit %d", args, code)
	}
	return lines
}

// What a command answers fits the terminal it is shown on, and is whole in a pipe.
// The log is left out: it is made to be read back, an entry a line.
func TestAnAnswerFitsTheTerminal(t *testing.T) {
	book := demoBook(t, "soakday")
	cut := 0
	for _, args := range [][]string{
		{"triage"}, {"drying"}, {"rounds", "look"}, {"water"}, {"water", "--sources"}, {"week"}, {"plan", "--shelf", "Arch"},
		{"forecast", "--away", "12d"}, {"rules"}, {"room"}, {"ledger"}, {"book"}, {"book", "--entries", "30"}, {"book", "check"},
		{"guide"}, {"air", "--temp", "21", "--rh", "35"}, {"dose", "--ppm", "50", "--n", "20", "--volume", "5 L"},
	} {
		for _, cols := range []int{80, 100} {
			lines := onTerminal(t, book, cols, args...)
			for _, line := range lines {
				if w := show.Width(line); w > cols {
					t.Errorf("%v: %d cells on a terminal of %d: %q", args, w, cols, line)
				}
				cut += strings.Count(line, "…")
			}
			if len(lines) == 0 {
				t.Errorf("%v says nothing", args)
			}
		}
		if strings.Contains(must(t, book, "", args...), "…") {
			t.Errorf("%v: something is cut in a pipe", args)
		}
	}
	if cut == 0 {
		t.Error("nothing had to be cut: the terminals are too wide to tell")
	}
}

// Words break where the terminal ends, also on a narrow one.
func TestWordsFitANarrowTerminal(t *testing.T) {
	const narrow = 60
	book := demoBook(t, "soakday")
	for _, args := range [][]string{
		{"guide"}, {"rounds"}, {"water"}, {"weighing"}, {"drying"}, {"rules"}, {"forecast", "--away", "12d"},
		{"dose", "--ppm", "50", "--n", "20", "--volume", "5 L"},
	} {
		lines := onTerminal(t, book, narrow, args...)
		for _, line := range lines {
			if w := show.Width(line); w > narrow {
				t.Errorf("%v: %d cells on a terminal of %d: %q", args, w, narrow, line)
			}
		}
		if len(lines) == 0 {
			t.Errorf("%v says nothing", args)
		}
	}
}
