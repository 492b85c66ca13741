package board

import (
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
)

// On every screen stands each vessel with its own countdown: minutes, and seconds
// in the last five.
func TestTheStripCountsEachVesselOnEveryScreen(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now.Add(-50*time.Minute), &model.Soak{Load: 1, Vessel: "tub", Due: g.now.Add(36 * time.Minute)}, 1)
	g.enters(g.now.Add(-20*time.Minute), &model.Soak{Load: 2, Vessel: "bucket 1", Due: g.now.Add(2 * time.Minute)}, 2)
	for _, letter := range strings.Split("tsdpwravlhyg", "") {
		g.keys("T", letter).sees("tub 36 min").sees("bucket 1 2:00").sees("bucket 2 –")
	}
	g.after(3 * time.Minute).keys("esc").sees("bucket 1 OUT 1 min late").sees("tub 33 min")
}

// An idle board writes next to nothing: while no load is in its last minutes, a
// second changes no line but the clock's.
func TestASecondChangesNothingOnTheStrip(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now, &model.Soak{Load: 1, Vessel: "tub", Due: g.now.Add(36 * time.Minute)}, 1)
	g.after(10 * time.Second)
	before := g.screen()
	if after := g.after(time.Second).screen(); after != before {
		t.Errorf("a second changed the screen:\n%s\n%s", before, after)
	}
}

// A narrow window leaves out vessels with nothing in them, never one that waits.
func TestTheStripKeepsWhatIsDue(t *testing.T) {
	g := newGrower(t).shelves()
	for _, name := range []string{"first pail", "second pail", "third pail", "wash bowl"} {
		g.enters(g.now, &model.VesselSet{Vessel: model.Vessel{Name: name, Litres: 10}})
	}
	g.enters(g.now, &model.Soak{Load: 1, Vessel: "wash bowl", Due: g.now.Add(time.Hour)}, 1)
	g.size(60, 20)
	g.sees("wash bowl 1 h").doesNotSee("third pail –").sees(" more –")
}

// With something overdue the board opens where it is.
func TestTheBoardOpensWhereSomethingIsOverdue(t *testing.T) {
	g := pulled(t).keys("A", "s")
	due := g.board.desk.book.OpenLoads()[0].Due
	g.restart(due.Sub(g.now) - time.Minute)
	g.sees("▸Triage")
	g.restart(2 * time.Minute)
	g.sees("▸Soak").keys("o").restart(3 * 24 * time.Hour)
	g.sees("▸Drying")
}

// Nothing rings once the board is closed: with plants in the water q asks first.
func TestLeavingWithPlantsInTheWaterAsks(t *testing.T) {
	g := newGrower(t).shelves().keys("A", "p", "tab", "s")
	quits := func(key string) bool {
		_, cmd := g.board.Update(keyNamed(key))
		if cmd == nil {
			return false
		}
		_, quit := cmd().(tea.QuitMsg)
		return quit
	}
	if quits("q") {
		t.Fatal("q left at once")
	}
	g.sees("in the water, and nothing rings once you leave: q again leaves")
	if g.keys("j"); quits("q") {
		t.Fatal("a key in between, and q left without asking")
	}
	if !quits("q") {
		t.Fatal("q again does not leave")
	}
	g.keys("j")
	if quits("ctrl+c") {
		t.Fatal("Ctrl-C left at once")
	}
	g.sees("Ctrl-C again leaves")
	if g.keys("?", "esc"); quits("ctrl+c") {
		t.Fatal("help in between, and Ctrl-C left without asking")
	}
	if !quits("ctrl+c") {
		t.Fatal("Ctrl-C again does not leave")
	}
}

// After the session the plants that were only to be misted are still asked for.
func TestAfterTheSessionTheMistIsLeft(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now.Add(-9*time.Hour), &model.Pull{}, 1)
	g.enters(g.now.Add(-9*time.Hour), &model.Soak{Load: 1, Vessel: "tub", Due: g.now.Add(-8 * time.Hour)}, 1)
	g.enters(g.now.Add(-8*time.Hour), &model.Out{Shaken: true}, 1)
	g.enters(g.now, &model.Drain{Vessel: "tub"})
	g.enters(g.now, &model.FoundDry{}, 1)
	g.doesNotSee("still to mist").enters(g.now, &model.Hung{}, 1)
	g.sees("Session over, 1 hung back; still to mist: 1 (T r)")
	g.enters(g.now, &model.Mist{}, 3).doesNotSee("still to mist")
	g.keys("u", "u").sees("still to mist").after(24 * time.Hour).doesNotSee("Session over")
}
