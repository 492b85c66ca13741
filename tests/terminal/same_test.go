//go:build unix

package terminal_test

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"tubside/model"
	"tubside/store"
)

// What is decided for the grower is decided once: the same act at the board and in
// the shell writes the same entry.
func TestTheBoardAndTheShellWriteTheSame(t *testing.T) {
	morning := time.Date(2026, time.January, 17, 9, 0, 0, 0, time.UTC)
	at := func(after time.Duration) string { return morning.Add(after).Format(time.RFC3339) }
	list := spreadsheet(t)
	books := map[string]string{}
	for _, way := range []string{"board", "shell"} {
		books[way] = filepath.Join(t.TempDir(), way)
		shell(t, "--book", books[way], "--now", at(-time.Hour), "import", list)
		shell(t, "--book", books[way], "--now", at(-time.Hour), "enter", "reading", "--temp", "21", "--rh", "38",
			"--fan", "on")
	}

	// Four plants of four forms, one of them a bulb: pulled, put in for as long as
	// they need, taken out, and one weighed in a room measured in °F.
	w := run(t, 80, 24, nil, "--book", books["board"], "--now", at(0)).sees("alcove 01")
	w.keys("vjjj" + "p").sees("waiting 4").keys(tab).sees("▸Soak").keys("A" + "s").sees("Load 1").keys("qq").ends()
	w = run(t, 80, 24, nil, "--book", books["board"], "--now", at(13*time.Hour)).sees("soaking 2")
	w.sees("▸Soak").keys("o").sees("upside down").keys("a").sees("humidity").keys("70F" + tab + "45" + enter +
		enter).sees("21.1").keys("q").ends()

	words := []string{"1", "2", "3", "4"}
	enters := func(after time.Duration, args ...string) {
		shell(t, append([]string{"--book", books["shell"], "--now", at(after), "enter"}, args...)...)
	}
	enters(0, append([]string{"pull"}, words...)...)
	enters(0, append([]string{"soak", "--vessel", "tub"}, soakedTogether(t, books["board"])...)...)
	// The board shows where it lays them, and lets another place be chosen; the shell is told.
	enters(13*time.Hour, "out", "load:1", "--bench", "rack")
	enters(13*time.Hour, "reading", "--temp", "70F", "--rh", "45", "--fan", "on")

	if diff := cmp.Diff(written(t, books["board"]), written(t, books["shell"])); diff != "" {
		t.Errorf("board (-) and shell (+) differ:\n%s", diff)
	}
}

// The thirstiest come first, in one order on the board and in the shell.
func TestTheThirstiestComeFirstInOneOrder(t *testing.T) {
	book, now := filepath.Join(t.TempDir(), "book.db"), "2026-01-17T09:00:00Z"
	shell(t, "--book", book, "--now", now, "import", spreadsheet(t))
	shell(t, "--book", book, "--now", now, "enter", "signs", "43", "2", "1", "0")
	answer := shell(t, "--book", book, "--now", now, "triage", "--json", "--limit", "12")
	var thirstiest []struct{ Label string }
	if err := json.Unmarshal([]byte(answer), &thirstiest); err != nil {
		t.Fatal(err)
	}
	w := run(t, 80, 24, nil, "--book", book, "--now", now).sees("alcove 01").keys("o").sees("thirstiest first")
	for _, p := range thirstiest { // until the last of them is drawn
		w.sees(p.Label)
	}
	screen := w.text()
	w.keys("q").ends()
	place := -1
	for _, p := range thirstiest {
		at := strings.Index(screen, p.Label)
		if at <= place {
			t.Fatalf("%s is not where the shell has it:\n%s", p.Label, screen)
		}
		place = at
	}
}

// soakedTogether are the plants of the first load, as words.
func soakedTogether(t *testing.T, path string) []string {
	var words []string
	for _, e := range written(t, path) {
		if _, ok := e.Fact.(*model.Soak); ok {
			for _, id := range e.Plants {
				words = append(words, id.String())
			}
		}
	}
	return words
}

// written are a book's entries, apart from when they were made.
func written(t *testing.T, path string) []model.Entry {
	t.Helper()
	s, err := store.Open(path, store.Options{ReadOnly: true, Zone: time.UTC})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	entries := s.Book().Entries()
	for i := range entries {
		entries[i].At = time.Time{}
		if f, ok := entries[i].Fact.(*model.Soak); ok {
			f.Due = f.Due.Truncate(time.Minute)
		}
	}
	return entries
}
