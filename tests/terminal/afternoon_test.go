//go:build unix

package terminal_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/store"
)

// spreadsheet is three shelves of twenty plants, soaked nine days ago.
func spreadsheet(t *testing.T) string {
	t.Helper()
	var b strings.Builder
	b.WriteString("Plant;Species;Shelf;Hook;Qty;Size;Last soaked\r\n")
	names := []string{"T. ionantha", "T. stricta", "T. bulbosa", "T. brachycaulos", "T. tectorum"}
	for _, shelf := range []string{"Alcove", "Bay", "Corridor"} {
		for i := range 20 {
			fmt.Fprintf(&b, "%s %02d;%s;%s;%d;1;8;2026-01-08\r\n", strings.ToLower(shelf), i+1, names[i%len(names)],
				shelf, i+1)
		}
	}
	path := filepath.Join(t.TempDir(), "plants.csv")
	if err := os.WriteFile(path, []byte(b.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// The whole of a soak day, with the program left and started again in the
// middle: import, forty plants triaged, three loads soaked, taken out, dried
// and hung back, and a mistake taken back.
func TestAnAfternoonAtTheTub(t *testing.T) {
	book := filepath.Join(t.TempDir(), "book.db")
	morning := time.Date(2026, time.January, 17, 9, 0, 0, 0, time.UTC)
	at := func(after time.Duration) string { return morning.Add(after).Format(time.RFC3339) }

	shell(t, "--book", book, "--now", at(-time.Hour), "import", spreadsheet(t))
	shell(t, "--book", book, "--now", at(-time.Hour), "enter", "reading", "--temp", "21", "--rh", "38", "--fan", "on")

	// Forty plants at walking pace: most look fine, some are thirsty.
	w := run(t, 80, 24, nil, "--book", book, "--now", at(0))
	w.sees("▸Triage").sees("Alcove").sees("alcove 01")
	for range 10 {
		w.keys("f" + "210" + "f" + "11-")
	}
	w.sees("corridor 01").sees("1 1 -")
	w.keys("333").sees("3 3 3").keys("u").sees("Undone:")

	// Two shelves to the water, in three loads.
	w.keys("\x1b[H" + "A" + "p").sees("p again takes").keys("p").sees("pulled 20 = waiting 20")
	w.keys("l" + "A" + "p").sees("p again takes").keys("p").sees("pulled 40 = waiting 40")
	w.keys(tab).sees("▸Soak").keys("s").sees("Load 1 in tub")
	w.keys("." + "s").sees("Load 2 in bucket 1")
	w.keys("." + "s").sees("Load 3 in bucket 2")
	w.keys("qq") // with plants in the water it asks
	if code := w.ends(); code != 0 {
		t.Fatalf("left with code %d", code)
	}

	// Back thirteen hours later: every load is late, and says by how much.
	w = run(t, 80, 24, nil, "--book", book, "--now", at(13*time.Hour))
	w.sees("▸Soak").sees("late")
	w.keys("o").sees("upside down").keys("u").sees("Undone:").keys("U").sees("Redone")
	w.keys("o").sees("upside down").keys("o").sees("soaking 0")
	w.keys("q").ends()

	// In the morning: one is still damp, the rest are dry and go home.
	w = run(t, 80, 24, nil, "--book", book, "--now", at(24*time.Hour))
	w.sees("▸Drying").sees("Ready to check")
	w.keys("w").sees("still damp")
	w.keys("\x1b[H" + "v" + "G" + "d").sees("drying 0").sees("Dry on the rack: hang these back")
	w.keys("A" + "r").sees("Nothing is out to dry")
	w.keys("q").ends()

	s, err := store.Open(book, store.Options{Zone: time.UTC})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	b := s.Book()
	looked, soaked := 0, 0
	for _, id := range b.IDs() {
		r := b.Row(id)
		if r.State != model.AtHome {
			t.Errorf("plant %d is %v, want home", id, r.State)
		}
		if !r.SignsAt.IsZero() {
			looked++
		}
		if !r.HungAt.IsZero() {
			soaked++
		}
	}
	if looked != 40 {
		t.Errorf("%d plants were looked at, want 40", looked)
	}
	tally := b.Tally()
	if !tally.Adds() || tally.Hung != soaked || tally.Soaking+tally.Drying+tally.Dry != 0 {
		t.Errorf("tally %+v, %d plants soaked", tally, soaked)
	}
	if soaked < 6 {
		t.Errorf("only %d plants were soaked in three loads", soaked)
	}
	if _, err := s.Check(); err != nil {
		t.Error(err)
	}
}
