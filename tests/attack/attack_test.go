// Package attack_test tries to make a book lose an entry or tell an untruth:
// kills, power cuts, failing disks, damaged files, wrong clocks, other zones,
// hostile text. Each attack prints its figures; FIGURES.md has them in one table,
// with the command for each.
package attack_test

import (
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tubside/demo"
	"tubside/model"
	"tubside/store"
)

// How much of each attack is tried. The usual numbers are for every run of the
// tests; FIGURES.md has those of a long one.
var (
	killed     = flag.Int("kills", 50, "kills of the real program")
	flips      = flag.Int("flips", 1000, "flipped bits")
	pages      = flag.Int("pages", 300, "files with damaged pages")
	powerCuts  = flag.Int("cuts", 250, "simulated power cuts")
	mixedCalls = flag.Int("calls", 150, "mixed calls of the program at one book")
)

func TestMain(m *testing.M) {
	if os.Getenv(asProgram) != "" {
		os.Exit(asTubside())
	}
	os.Exit(m.Run())
}

var sunday = time.Date(2026, time.March, 1, 9, 0, 0, 0, time.UTC)

// figures prints what an attack came to, in the words of the table.
func figures(t testing.TB, name string, tries, survived, lost int) {
	t.Helper()
	t.Logf("figures: %-28s tries %7d  survived %7d  lost %d", name, tries, survived, lost)
	if lost > 0 {
		t.Errorf("%s: %d lost", name, lost)
	}
}

// demoBook is the book of a scene of the demo, closed.
func demoBook(t testing.TB, scene string, now time.Time) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "book")
	s, err := store.Open(path, store.Options{Zone: now.Location(), Begin: true})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := demo.Build(s, demo.Options{Scene: scene, Seed: 1, Now: now}); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

// seen is what a book says of every plant and of the house, in one text.
func seen(b *model.Book) string {
	var text strings.Builder
	fmt.Fprintf(&text, "%+v %v %+v %v", b.Tally(), b.Waiting(), b.Vessels(), b.Rules())
	for _, id := range b.IDs() {
		row, err := json.Marshal(b.Row(id))
		fmt.Fprintf(&text, "\n%s %v", row, err)
	}
	return text.String()
}
