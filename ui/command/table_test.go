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

// A table fits the terminal it is shown on, and is whole in a pipe.
func TestATableFitsTheTerminal(t *testing.T) {
	book := demoBook(t, "soakday")
	master, terminal, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	defer master.Close()
	if err := pty.Setsize(terminal, &pty.Winsize{Rows: 24, Cols: 90}); err != nil {
		t.Fatal(err)
	}
	lines := make(chan string)
	go func() {
		defer close(lines)
		for scan := bufio.NewScanner(master); scan.Scan(); {
			lines <- strings.TrimRight(scan.Text(), "\r")
		}
	}()
	done := make(chan int, 1)
	go func() {
		done <- Main(Env{
			Args: []string{"--book", book, "--now", noon.Format(time.RFC3339), "triage", "--limit", "20"},
			Out:  terminal, Err: os.Stderr, Clock: func() time.Time { return noon }, Getenv: func(string) string { return "" },
		})
		terminal.Close()
	}()
	cut := false
	for line := range lines {
		if w := show.Width(line); w > 90 {
			t.Errorf("%d cells on a terminal of 90: %q", w, line)
		}
		cut = cut || strings.Contains(line, "…")
	}
	if code := <-done; code != 0 || !cut {
		t.Errorf("exit %d, something was cut: %v", code, cut)
	}
	if strings.Contains(must(t, book, "", "triage"), "…") {
		t.Error("something was cut in a pipe")
	}
}
