package board

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"tubside/model"
)

// says types an answer and takes it.
func (g *grower) says(text string) *grower { return g.types(text).keys("enter") }

// A new book asks six things, and shows the list before anything is written.
func TestTheFirstMinute(t *testing.T) {
	list := filepath.Join(t.TempDir(), "plants.csv")
	if err := os.WriteFile(list, []byte("Tag,Species,Shelf,Bought\nA1,ionantha,Arch,28.02.2024\nA2,stricta,Arch,\"Jan 5, 2024\"\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	g := newGrower(t).sees("This book is empty").keys("enter")
	g.sees("1 of 6").says("tub 26 gal, crate 45")
	g.sees("2 of 6").says("Sat 4, Wed 2")
	g.sees("3 of 6").says("16 m², open")
	g.sees("4 of 6").says("low")
	g.sees("5 of 6").sees("c, gal").says("f")
	g.sees("6 of 6").says(list)
	g.sees("2 plants: 2 new").sees("nothing is written yet")
	if n := g.board.desk.book.Len(); n != 0 {
		t.Fatalf("%d plants are in the book before the list was taken", n)
	}
	g.keys("enter").sees("Arch")
	rules := g.board.desk.book.Rules()
	for l, want := range map[model.Limit]float64{model.SoakSat: 4, model.SoakWed: 2, model.SoakSun: 0, model.RoomVolume: 40,
		model.TempUnit: 1, model.VolumeUnit: 1} {
		if rules[l] != want {
			t.Errorf("%s is %g, want %g", model.LimitTable[l].Name, rules[l], want)
		}
	}
	if v, _ := g.board.desk.book.Vessel("tub"); v.Litres < 98 || v.Litres > 99 {
		t.Errorf("the tub holds %g L, want 26 US gallons", v.Litres)
	}
	g.keys("T", "s").sees("26 gal, not filled").keys("T", "t")
	if n := len(g.board.desk.book.Vessels()); n != 2 {
		t.Errorf("%d vessels, want the two that were named", n)
	}
	if g.board.desk.book.Fan(g.now) != model.FanLow || g.board.desk.book.Window(g.now).Window != model.WindowOpen {
		t.Error("the fan or the window is not as said")
	}
	if day := g.row(1).Acquired.String(); day != "2024-02-28" {
		t.Errorf("the first plant came on %s, want 2024-02-28", day)
	}
}

// Two vessels of one name are two vessels, and who counts in gallons sees gallons.
func TestVesselsOfOneNameAreNumbered(t *testing.T) {
	for answer, want := range map[string]string{
		"tub 26 gal, bucket 3 gal, bucket 3 gal":   "tub 26 gal, bucket 1 3 gal, bucket 2 3 gal",
		"tub 100, 2 buckets 10, bucket 1 12":       "tub 100 L, bucket 1 12 L, bucket 2 10 L, bucket 3 10 L",
		"bathtub 100 L, Bucket 3 gal, bucket 10 L": "bathtub 100 L, bucket 1 11.36 L, bucket 2 10 L",
		"2 tubs 40 L": "tub 1 40 L, tub 2 40 L",
	} {
		g := newGrower(t).keys("enter").says(answer).sees("You soak in ")
		got := strings.Split(vesselsAsText(g.board.desk), ", ")
		named := strings.Split(want, ", ")
		slices.Sort(got)
		slices.Sort(named)
		if !slices.Equal(got, named) {
			t.Errorf("%q: %q, want %q", answer, got, named)
		}
	}
}

// Days alone have their usual hours, and a room may be given by its sides.
func TestFirstAnswersAsPeopleGiveThem(t *testing.T) {
	for answer, want := range map[string]string{
		"Sat": "Sat 5", "sat and sun 3 h": "Sat 5, Sun 3", "Saturdays, Wed": "Wed 2, Sat 5", "Sat 4h Sun 2": "Sat 4, Sun 2",
	} {
		g := newGrower(t).keys("enter", "esc").says(answer).sees("3 of 6").sees("You soak on")
		if got := daysAsText(g.board.desk); got != want {
			t.Errorf("%q: %q, want %q", answer, got, want)
		}
	}
	for answer, want := range map[string]string{
		"4x5 m": "The room: 20 m², taken as 50 m³, door", "4 x 5 m, shut": "taken as 50 m³, shut", "4x5x3 m open": "The room: 60 m³, open",
		"13 by 16 ft": "19.32 m², taken as 48.31 m³", "20 m2": "20 m², taken as 50 m³", "60": "The room: 60 m³",
	} {
		newGrower(t).keys("enter", "esc", "esc").says(answer).sees("4 of 6").sees(want)
	}
	for _, answer := range []string{"4x m", "4 m", "4x5 gale"} {
		newGrower(t).keys("enter", "esc", "esc").says(answer).sees("3 of 6")
	}
}

// Each question has an answer that will do, and each can be passed over.
func TestTheFirstMinuteCanBePassedOver(t *testing.T) {
	for _, key := range []string{"enter", "esc"} {
		g := newGrower(t).keys("enter", key, key, key, key, key).sees("6 of 6").keys("esc").sees("This book is empty")
		if n := len(g.board.desk.book.Entries()); n != 0 {
			t.Errorf("%s all the way wrote %d entries", key, n)
		}
	}
}

func TestAnAnswerThatCannotBeReadSaysSo(t *testing.T) {
	g := newGrower(t).keys("enter").says("tub").sees("is not a name and an amount of water")
	g.keys("esc").says("Someday 3").sees("is not a day and its hours").keys("esc").says("big").sees("is not a room")
	g.keys("esc").says("gale").sees("fan").keys("esc").says("k").sees("5 of 6").keys("esc").says("/nowhere.csv").sees("no list to read")
}

// A list in which something cannot be read is not taken; the faults stand
// together, and only when asked are such cells left empty.
func TestAListWithFaultsIsTakenOnlyWhenAsked(t *testing.T) {
	list := filepath.Join(t.TempDir(), "plants.csv")
	if err := os.WriteFile(list, []byte("label,size\nA1,big\nA2,huge\nA3,vast\nA4,enormous\nA5,12\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	g := newGrower(t).keys("L")
	for range 200 {
		g.keys("backspace")
	}
	g.says(list).sees("size: 4 cells like this").sees("lines 2-5").keys("enter").sees("Nothing is taken while")
	g.keys("e").sees("4 cells left empty").keys("enter").sees("A5")
	if n := g.board.desk.book.Len(); n != 5 {
		t.Errorf("%d plants, want 5", n)
	}
}

// A line that names no plant holds the list up, and can be left out; a shop's column is
// not taken for a misspelt one.
func TestALineThatNamesNoPlantIsLeftOut(t *testing.T) {
	list := filepath.Join(t.TempDir(), "plants.csv")
	if err := os.WriteFile(list, []byte("label,species,from\nA1,ionantha,Fair\n,,Shop\nA3,stricta,Fair\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	g := newGrower(t).keys("L")
	for range 200 {
		g.keys("backspace")
	}
	g.says(list).sees("neither a label nor a name").doesNotSee("call it form").keys("enter").sees("x leaves those out")
	g.keys("x").sees("Left out: line 3").keys("enter").sees("A3")
	if n := g.board.desk.book.Len(); n != 2 {
		t.Errorf("%d plants, want 2", n)
	}
}

// Every house rule stands in one group.
func TestEveryRuleHasItsGroup(t *testing.T) {
	times := map[model.Limit]int{}
	for _, g := range ruleGroups {
		for l := g.from; l <= g.until; l++ {
			times[l]++
		}
	}
	for _, l := range model.Limits() {
		if times[l] != 1 {
			t.Errorf("%s stands in %d groups", model.LimitTable[l].Name, times[l])
		}
	}
}

func TestRulesAreFoundByTheirWords(t *testing.T) {
	g := newGrower(t).keys("T", "h").sees("The board").keys("/").types("fuzzy").keys("enter")
	g.sees("Longest soak for a fuzzy plant").doesNotSee("How a due load calls").keys("esc").sees("The board")
}

func TestTheLedgerIsWalkedByItsPartsAndSearched(t *testing.T) {
	g := newGrower(t).shelves().keys("T", "l")
	before := g.screen()
	if g.keys("l"); g.screen() == before {
		t.Error("the next part does not come")
	}
	g.keys("/").types("zzz").keys("enter").sees("does not say zzz")
}

// The preview breaks its lines anew when the window changes, and shows every new plant:
// what there is no room for is scrolled to. It says what a ? stands for.
func TestThePreviewUsesTheWindow(t *testing.T) {
	list := filepath.Join(t.TempDir(), "plants.csv")
	text := "Tag,Species,Shelf,Spot\n"
	for i := range 30 {
		text += fmt.Sprintf("A%d,ionantha,Arch,%d\n", i+1, i+1)
	}
	if err := os.WriteFile(list, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	g := newGrower(t)
	g.size(160, 50)
	g.keys("L").says(list).sees("A30")
	g.size(60, 20)
	g.sees("A6").doesNotSee("A30").sees("size of 30").doesNotSee("…")
	g.sees("A word with a ? is not from your list").keys("G").sees("A30")
}
