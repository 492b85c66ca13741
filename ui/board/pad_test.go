package board

import (
	"strings"
	"testing"
	"time"

	"tubside/model"
)

// presses presses keys that stand on a number pad, and no others.
func (g *grower) presses(keys ...string) *grower {
	g.t.Helper()
	for _, k := range keys {
		if k != "enter" && !onPad(k) {
			g.t.Fatalf("%q is not on a number pad", k)
		}
		g.keys(k)
	}
	return g
}

// One wet hand and a number pad in a bag: from the shelf to the shelf.
func TestASoakDayFromANumberPad(t *testing.T) {
	g := newGrower(t).shelves().keys("#").sees("5 fine").sees("* pull")
	g.presses("2", "1", "0", "5", "1", ".", "enter")
	wantSigns(t, g.row(1), "210")
	wantSigns(t, g.row(2), "00-")
	wantSigns(t, g.row(3), "1--")
	g.presses("9", "-", "-", "-", "*", "4", "*").sees("waiting 2")
	wantSigns(t, g.row(3), "---")

	g.presses("/").sees("▸Soak").presses(".", "-", "*").sees("bucket 1")
	load := g.board.desk.book.OpenLoads()[0]
	g.after(load.Due.Sub(g.now) + time.Minute).sees("take out 1 plant").presses("1").sees("upside down")
	if state := g.row(load.Plants[0]).State; state != model.Drying {
		t.Fatalf("plant %d is %v", load.Plants[0], state)
	}
	g.presses("/").sees("▸Drying").presses("2").sees("still damp")
	g.after(8*time.Hour).presses("*").sees("Dry: hang these back").presses("7", "3")
	if state := g.row(load.Plants[0]).State; state != model.AtHome {
		t.Errorf("plant %d is %v", load.Plants[0], state)
	}
	g.presses("enter").presses("enter").restart(time.Minute)
	if !g.board.desk.onPad() {
		t.Error("the mode is forgotten on a restart")
	}
}

// On the pad each key means one thing, and help says which.
func TestThePadsKeysMeanOneThing(t *testing.T) {
	g := newGrower(t).shelves()
	for _, s := range g.board.screens {
		seen := map[string]string{}
		for _, gr := range append(s.groups(), g.board.global) {
			for _, b := range gr.keys {
				for _, k := range keysOf(b.num) {
					if was, taken := seen[k]; taken {
						t.Errorf("%s: %q is %q and %q", s.name(), k, was, b.help)
					}
					seen[k] = b.help
				}
			}
		}
	}
	g.size(100, 60)
	g.keys("?").sees("on the number pad *").keys("esc", "#", "?")
	if !strings.Contains(g.screen(), "*           pull, or put back") {
		t.Errorf("help does not name the pad's keys:\n%s", g.screen())
	}
}

// A form is filled from a number pad: Enter takes what stands there, + and - step
// choices and days, digits type numbers, * writes and / drops.
func TestAFormFromANumberPad(t *testing.T) {
	g := newGrower(t).shelves()
	g.keys("T", "v", "#", "H").sees("+/- step")
	first := g.board.front().(*tripScreen).trip.From
	g.presses("+", "+", "-", "enter", "+", "+", "*")
	trip := g.board.front().(*tripScreen).trip
	if trip.From.Sub(first) < 12*time.Hour || trip.Until.Sub(trip.From) < 7*24*time.Hour {
		t.Errorf("from %v until %v", trip.From, trip.Until)
	}
	g.keys("a").sees("humidity").presses("2", "1", ".", "5", "enter", "4", "0", "enter", "-", "+", "+", "enter")
	if air := g.board.desk.outlook.Air; air.TempC != 21.5 || air.RH != 40 {
		t.Errorf("the air is %v", air)
	}
}
