package board

import (
	"slices"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
)

// scans sends a code as a scanner does: all of it in one burst, and Enter.
func (g *grower) scans(code string) *grower {
	g.t.Helper()
	g.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(code)})
	return g.keys("enter")
}

// adds fails unless what is done writes so many entries.
func (g *grower) adds(want int, do func()) *grower {
	g.t.Helper()
	before := len(g.board.desk.book.Entries())
	do()
	if n := len(g.board.desk.book.Entries()) - before; n != want {
		g.t.Fatalf("%d entries were written, want %d:\n%s", n, want, g.screen())
	}
	return g
}

// A code goes to its plant from anywhere, typed by hand or in one burst. Its
// digits grade nothing on the way.
func TestACodeGoesToThePlant(t *testing.T) {
	g := newGrower(t).shelves()
	at := func(want model.ID) {
		t.Helper()
		if g.board.at != 0 || g.board.plant() != want || len(g.board.desk.over) > 0 {
			t.Fatalf("on %s at plant %d with %d over it, want plant %d on Triage",
				g.board.front().name(), g.board.plant(), len(g.board.desk.over), want)
		}
	}
	g.adds(1, func() { // the rule for the number pad
		g.keys("%", "2").sees("Code: %2").keys("enter").sees("#2 bulbosa: at home on Bay 2")
		at(2)
		g.scans("%7")
		at(7)
		g.keys("g").scans("%5")
		at(5)
		for _, key := range []string{"enter", "?", "c", "T", "t"} { // the card, help, the clock, the way to a screen, a test
			g.keys("g", key).scans("%1")
			at(1)
		}
		g.keys("F", "/").types("fuchsii").keys("enter").doesNotSee("capitata").scans("%6").sees("all plants are shown again")
		at(6)
		for _, letter := range screenLetters {
			if s := g.keys("T", letter).board.front(); s.list() == nil {
				g.scans("%3")
				at(3)
			}
		}
		g.keys("T", "t", "2").scans("%4") // in the middle of signs
		at(4)
		g.keys("%", "2", "esc").keys("#").scans("%2")
		at(2)
	})
}

// Codes that are none, of nobody, or of a plant that has gone are said, and change
// nothing.
func TestWrongCodesAreSaid(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now, &model.Leave{How: "sold"}, 7)
	for _, letter := range []string{"t", "s", "d", "r", "a"} {
		g.keys("T", letter).adds(0, func() {
			g.scans("%99").sees("There is no plant 99")
			g.scans("%1x").sees("is not the code of a label")
			g.scans("%1-3").sees("is not the code of a label")
			g.scans("%").sees("is not the code of a label")
			g.scans("%7").sees("is gone: sold")
		})
	}
	g.keys("T", "v").adds(0, func() { g.keys("H").types("%3").sees("%3").keys("esc") }) // a form takes the sign
}

// On Soak codes gather the load that goes in next; what hangs is pulled.
func TestCodesFillALoad(t *testing.T) {
	g := pulled(t) // 5, 6 and 7 wait
	g.enters(g.now, &model.Rot{}, 2).enters(g.now, &model.Bloom{Stage: model.Open}, 3)
	g.adds(1, func() {
		g.scans("%6").sees("#6 capitata goes into tub next, 1 so far").scans("%1")
		g.sees("#1 stricta by the door goes into tub next, 2 so far")
		g.scans("%6").sees("#6 capitata was scanned before").scans("%2")
		g.sees("rot is suspected").scans("%3").sees("in bloom")
	})
	g.adds(1, func() { g.keys("s") })
	if got := g.board.desk.book.OpenLoads()[0].Plants; len(got) != 2 || !got.Has(1) || !got.Has(6) {
		t.Fatalf("plants %v went in, want 1 and 6", got)
	}
	g.adds(0, func() { g.scans("%6").sees("#6 capitata does not go in: it is in tub (load 1)") })
}

// A newcomer and a plant with pests keep out of a clean load, and a clean plant out
// of theirs, whether they are scanned or marked by hand.
func TestALoadKeepsOneCompany(t *testing.T) {
	g := pulled(t) // 5, 6 and 7 wait
	g.enters(g.now, &model.Quarantine{}, 1).enters(g.now, &model.Trouble{What: model.Scale}, 7)
	g.adds(0, func() {
		g.scans("%6").sees("#6 capitata goes into tub next")
		g.scans("%1").sees("#1 stricta by the door stays out, it is kept apart: newcomer")
		g.scans("%7").sees("#7 xerographica stays out, it is kept apart: sick")
	})
	g.adds(1, func() { g.keys("s") })
	load := func(want ...model.ID) {
		t.Helper()
		all := g.board.desk.book.OpenLoads() // the first due first
		newest := slices.MaxFunc(all, func(a, b *model.Load) int { return int(a.ID) - int(b.ID) })
		if got := newest.Plants; !slices.Equal(got, want) {
			t.Fatalf("plants %v went in, want %v:\n%s", got, want, g.screen())
		}
	}
	load(6)

	// By hand: all that wait are marked, the clean one goes, and the other is named.
	g.enters(g.now, &model.Pull{}, 1)
	g.keys("home").adds(1, func() { g.keys("A", "l", "A").sees("2 kept apart: newcomers, sick plants").keys("s") })
	load(5)
	// What still waits is asked about before it joins them.
	g.adds(0, func() {
		g.scans("%7").scans("%1").sees("#1 stricta by the door stays out: these are sick plants")
		g.keys("s").sees("Healthy plants still lie in there")
	})
	g.adds(1, func() { g.keys("s") })
	load(7)
	g.adds(0, func() {
		g.scans("%1").keys("s").sees("Sick plants lay in this water: e empties it, s again goes ahead")
	})
	g.adds(1, func() { g.keys(".").scans("%1").keys("s") }) // the bucket is clean
	load(1)
}

// On Drying a code says dry; among what is dry, that it hangs. Twice is no step on.
func TestCodesMarkDryAndHang(t *testing.T) {
	g := pulled(t).keys("A", "s")
	g.after(g.board.desk.book.OpenLoads()[0].Due.Sub(g.now)).keys("o", "s")
	g.after(g.board.desk.book.OpenLoads()[0].Due.Sub(g.now)).keys("o", "T", "d")
	state := func(id model.ID, want model.State) {
		t.Helper()
		if s := g.row(id).State; s != want {
			t.Fatalf("plant %d is %v, want %v:\n%s", id, s, want, g.screen())
		}
	}
	g.adds(2, func() {
		g.scans("%6").scans("%6").sees("#6 capitata was marked dry just now")
		g.scans("%1").sees("#1 stricta by the door is not to be dried or hung: it is at home on Bay 1")
		g.scans("%5").scans("%6").sees("marked dry just now")
	})
	state(5, model.Dry)
	state(6, model.Dry)
	g.after(time.Hour).adds(0, func() { g.scans("%6").sees("#6 capitata is dry already: scan it again when it hangs") })
	g.adds(1, func() { g.scans("%6").scans("%6").sees("home on Loft 2") })
	state(6, model.AtHome)
	g.adds(0, func() { g.scans("%7").sees("#7 xerographica is not marked dry yet") })
	g.adds(1, func() { g.scans("%7") })
	state(7, model.Dry)
	g.after(time.Hour).adds(2, func() { g.scans("%7").scans("%5").sees("Nothing is out to dry") })
	state(5, model.AtHome)
	state(7, model.AtHome)
}
