// Package attack_test tries to make a book lose an entry or tell an untruth:
// kills, power cuts, failing disks, damaged files, wrong clocks, other zones,
// hostile text. Each attack prints its figures; FIGURES.md has them in one table,
// with the command for each.
package attack_test

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
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
	flips      = flag.Int("flips", 400, "flipped bits")
	pages      = flag.Int("pages", 120, "files with damaged pages")
	powerCuts  = flag.Int("cuts", 250, "simulated power cuts")
	clockDays  = flag.Int("days", 30, "days at the tub under wrong clocks, six clocks a day")
	mixedCalls = flag.Int("calls", 150, "mixed calls of the program at one book")
)

func TestMain(m *testing.M) {
	if os.Getenv(asProgram) != "" {
		os.Exit(asTubside())
	}
	code := m.Run()
	if demos.dir != "" {
		_ = os.RemoveAll(demos.dir)
	}
	os.Exit(code)
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

// demos are the books of every scene of the demo, closed, made once: a flat in
// Tallinn on a winter's afternoon.
var demos struct {
	once  sync.Once
	dir   string
	paths []string
	err   error
}

const home = "Europe/Tallinn"

func demoBooks(t testing.TB) []string {
	t.Helper()
	demos.once.Do(func() { demos.err = buildDemos() })
	if demos.err != nil {
		t.Fatal(demos.err)
	}
	return demos.paths
}

func buildDemos() (err error) {
	zone, err := time.LoadLocation(home)
	if err != nil {
		return err
	}
	if demos.dir, err = os.MkdirTemp("", "demos"); err != nil {
		return err
	}
	for _, scene := range demo.Scenes {
		path := filepath.Join(demos.dir, scene.Name)
		s, err := store.Open(path, store.Options{Zone: zone, Begin: true})
		if err != nil {
			return err
		}
		_, err = demo.Build(s, demo.Options{Scene: scene.Name, Seed: 1,
			Now: time.Date(2026, 2, 11, 14, 20, 0, 0, zone)})
		if err := errors.Join(err, s.Close()); err != nil {
			return err
		}
		demos.paths = append(demos.paths, path)
	}
	return nil
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
