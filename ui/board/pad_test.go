package board

import (
	"slices"
	"strconv"
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

// One wet hand and a number pad in a bag: a small soak day from the shelf to the
// shelf, with everything that is done on the way.
func TestASoakDayFromANumberPad(t *testing.T) {
	g := newGrower(t).shelves().keys("#").sees("5 fine").sees("* pull")
	var load *model.Load
	for _, step := range []struct {
		what  string
		after time.Duration
		keys  string
		menu  string // then a line of the menu of everything else
		then  string // and keys after it
		sees  string
		holds func() bool
	}{
		{what: "grade", keys: "2 1 0", holds: func() bool { return g.row(1).Signs.String() == "210" }},
		{what: "looks fine", keys: "5", holds: func() bool { return g.row(2).Signs.String() == "00-" }},
		{what: "not looked at", keys: "1 . enter", holds: func() bool { return g.row(3).Signs.String() == "1--" }},
		{what: "undo", keys: "9", sees: "Undone", holds: func() bool { return g.row(3).Signs.String() == "---" }},
		{what: "redo", menu: "redo", sees: "Redone", holds: func() bool { return g.row(3).Signs.String() == "1--" }},
		{what: "the map and back", menu: "the shelves as they hang", sees: "the map by need"},
		{what: "the list", menu: "the list again", sees: "Bay ───"},
		{what: "in bloom", menu: "in bloom", sees: "bloom", holds: func() bool { return !g.row(4).Bloom.IsZero() }},
		{what: "rot", keys: "+ 8", sees: "rot", holds: func() bool { return !g.row(5).Rot.IsZero() }},
		{what: "lost to drought", keys: "+", menu: "gone", then: "+ enter + + *", holds: func() bool {
			return g.row(6).State == model.Gone && g.row(6).GoneCause == "drought"
		}},
		{what: "the one-minute test", menu: "one-minute test", then: "1 /"},
		{what: "pull two", keys: "- - - - - - - - 4 4 *", sees: "waiting 2"},
		{what: "put one back", keys: "- *", sees: "waiting 1"},
		{what: "and pull it again", keys: "*", sees: "waiting 2"},
		{what: "to the tub", keys: "/", sees: "▸Soak"},
		{what: "another vessel, five minutes less, start", keys: ". 6 *", sees: "bucket 1", holds: func() bool {
			load = g.board.desk.book.OpenLoads()[0]
			return len(load.Plants) >= 1
		}},
		{what: "take out", after: 3 * time.Hour, keys: "1", sees: "upside down",
			holds: func() bool { return g.row(load.Plants[0]).State == model.Drying }},
		{what: "to the rack", keys: "/", sees: "▸Drying"},
		{what: "still damp", keys: "2", sees: "still damp"},
		{what: "dry, a whole place", after: 8 * time.Hour, keys: "*", holds: func() bool { return g.row(load.Plants[0]).State == model.Dry }},
		{what: "hung back", keys: "7 3", holds: func() bool { return g.row(load.Plants[0]).State == model.AtHome }},
		{what: "the air", menu: "enter a reading", then: "2 1 . 4 - 5 enter 4 0 *", holds: func() bool {
			return g.board.desk.outlook.Air.TempC == 21.5 && g.board.desk.outlook.Air.RH == 40
		}},
		{what: "letters need a keyboard", keys: "/ / / / / / / / / /", menu: "write a note", sees: "letters need a keyboard"},
		{what: "and back", keys: "/", sees: "Nothing written"},
		{what: "help, scrolled", menu: "help", then: "+ + enter", sees: "▸Triage"},
	} {
		if step.after > 0 {
			g.after(step.after)
			for len(g.board.desk.over) > 0 { // the big clock has come up by itself
				g.presses("enter")
			}
		}
		g.presses(strings.Fields(step.keys)...).fromMenu(step.menu).presses(strings.Fields(step.then)...)
		if step.sees != "" && !strings.Contains(g.screen(), step.sees) {
			t.Fatalf("%s: no %q:\n%s", step.what, step.sees, g.screen())
		}
		if step.holds != nil && !step.holds() {
			t.Fatalf("%s has not happened:\n%s", step.what, g.screen())
		}
	}
	g.restart(time.Minute)
	if !g.board.desk.onPad() {
		t.Error("the mode is forgotten on a restart")
	}
}

// fromMenu goes to the line of the menu that begins with some words, by its number.
func (g *grower) fromMenu(words string) *grower {
	g.t.Helper()
	if words == "" {
		return g
	}
	g.presses("enter")
	m, ok := g.board.desk.over[len(g.board.desk.over)-1].(*padMenu)
	if !ok {
		g.t.Fatalf("no menu for %q:\n%s", words, g.screen())
	}
	i := slices.IndexFunc(m.items, func(b binding) bool { return strings.HasPrefix(b.help, words) })
	if i < 0 {
		g.t.Fatalf("the menu has no %q:\n%s", words, g.screen())
	}
	return g.presses(strings.Split(strconv.Itoa(i+1), "")...).presses("enter")
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
	g.keys("?").sees("number pad").keys("esc", "#", "?")
	if !strings.Contains(strings.Join(strings.Fields(g.screen()), " "), "* pull, or put back") {
		t.Errorf("help does not name the pad's keys:\n%s", g.screen())
	}
}

// With the pad on, / is the next screen: what was meant for the search may not take out
// loads letter by letter.
func TestLettersRestWhileThePadIsOn(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now.Add(-2*time.Hour), &model.Soak{Load: 1, Vessel: "tub", Due: g.now.Add(-time.Hour)}, 1, 2)
	before := len(g.board.desk.book.Entries())
	g.keys("#", "/", "f", "e", "c", "t", "o").sees("letters are off: # turns them on").sees("▸Soak")
	if wrote := len(g.board.desk.book.Entries()) - before; wrote != 1 { // that the pad is on
		t.Errorf("%d entries written", wrote)
	}
	g.keys("#", "o").sees("out of tub")
}

// A form is filled from a number pad: Enter takes what stands there, + and - step
// choices and days, digits type numbers, * writes and / drops.
func TestAFormFromANumberPad(t *testing.T) {
	g := newGrower(t).shelves()
	g.keys("T", "v", "#").fromMenu("the days: from and until").sees("+/- step")
	first := g.board.front().(*tripScreen).trip.From
	g.presses("+", "+", "-", "enter", "+", "+", "*")
	trip := g.board.front().(*tripScreen).trip
	if trip.From.Sub(first) < 12*time.Hour || trip.Until.Sub(trip.From) < 7*24*time.Hour {
		t.Errorf("from %v until %v", trip.From, trip.Until)
	}
	g.fromMenu("enter a reading").sees("humidity").presses("2", "1", ".", "5", "enter", "4", "0", "enter", "-", "+", "+", "enter")
	if air := g.board.desk.outlook.Air; air.TempC != 21.5 || air.RH != 40 {
		t.Errorf("the air is %v", air)
	}
}

// On a number pad the words on the screen name its keys, and the menu of the rest has a
// key in the footer.
func TestThePadsWordsNameItsKeys(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now.Add(-2*time.Hour), &model.Soak{Load: 1, Vessel: "tub", Due: g.now.Add(-time.Hour)}, 1, 2)
	g.enters(g.now.Add(-time.Hour), &model.Out{Shaken: true}, 2)
	g.enters(g.now, &model.Pull{}, 5)
	g.keys("T", "s", "#").sees("1 takes 1 plant out of tub").sees("* starts").sees(" enter all")
	g.keys("#", "T", "d", "#", "3").sees("Not marked dry yet: 1 first, then 3").keys("#")
	g.keys("r").sees("Not marked dry yet: d first, then r").sees("? help")
}
