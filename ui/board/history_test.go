package board

import (
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/ui/show"
)

// Any of the last entries can be undone from the list, and redone; one that a later
// entry builds on says so.
func TestAnyEntryIsUndoneFromTheList(t *testing.T) {
	g := newGrower(t).shelves().keys("2", "1", "0", "0", "0", "0", "T", "y").sees("▸History")
	g.keys("j", "x").sees("Undone: stricta by the door")
	wantSigns(t, g.row(1), "---")
	wantSigns(t, g.row(2), "000")
	g.sees("undone: Stricta").keys("x").sees("Redone:")
	wantSigns(t, g.row(1), "210")
	g.keys("G", "x").sees("later entry builds on it")
}

// On coming back the board says what has come due meanwhile.
func TestTheBoardSaysWhatHappenedSinceYouLeft(t *testing.T) {
	g := pulled(t).keys("A", "s")
	load := g.board.desk.book.OpenLoads()[0]
	g.restart(load.Due.Sub(g.now) + 30*time.Minute)
	g.sees("Since you left, ").sees(": tub (load 1, 2 plants) should have been out 30 min").sees("ago")
	if !g.board.desk.trouble {
		t.Error("a load that is late is not said in red")
	}
	g.keys("o")
	g.restart(10 * time.Hour)
	g.sees("2 plants ready to check")
	if g.board.desk.trouble {
		t.Error("nothing is wrong, and it is said in red")
	}
	if g.row(load.Plants[0]).State != model.Drying {
		t.Error("looking changed something")
	}
	g.restart(time.Minute)
	g.doesNotSee("Since you left, 09")
}

// The times of old entries stand in the same narrow column as those of today; the
// whole of the time stands under the list.
func TestTheTimesInHistoryAreOneColumn(t *testing.T) {
	g := newGrower(t)
	for _, at := range []time.Time{soakDay.AddDate(0, -13, 0), soakDay.AddDate(0, 0, -20), soakDay.AddDate(0, 0, -2), soakDay} {
		g.enters(at, &model.Reading{TempC: 20, RH: 50})
	}
	g.keys("T", "y").sees(" 17 Dec 2024  20").sees("28 Dec 09:00  20").sees("   Thu 09:00  20").sees("       09:00  20")
	g.keys("G").sees(" 17 Dec 2024 09:00  20.0 °C")
}

// An entry is found by its words, enter undoes nothing, and a refusal to redo says so.
func TestHistoryIsSearched(t *testing.T) {
	g := newGrower(t).shelves().keys("3", "3", "1", "f", "!", "T", "y")
	entries := len(g.board.desk.book.Entries())
	g.keys("/").types("rolled").keys("enter").sees("▸").sees("Entry 3, ").keys("enter").sees("x undoes the entry under the cursor")
	if n := len(g.board.desk.book.Entries()); n != entries {
		t.Errorf("%d entries were written by looking for one", n-entries)
	}
	g.keys("/").types("submarine").keys("enter").sees("No entry says submarine")
	g.keys("/").types("rolled").keys("enter", "x").sees("Undone")
	wantSigns(t, g.row(1), "---")
}

// A plant that is sought on a screen where it is not is told where it is.
func TestAPlantOnAnotherScreenIsSaidWhere(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now.Add(-2*time.Hour), &model.Soak{Load: 1, Vessel: "tub", Due: g.now.Add(-time.Hour)}, 1)
	g.enters(g.now.Add(-time.Hour), &model.Out{Shaken: true}, 1)
	g.keys("T", "d", "/").types("fuchsii").keys("enter").sees("No plant here matches fuchsii: Fuchsii is at home on Loft 1, on Triage (T t)")
}

// Who was in an entry of many stands whole below the list, as far as there is room.
func TestAnEntryOfManyNamesThemAll(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now, &model.Mist{}, 1, 2, 3, 4, 5, 6, 7)
	g.keys("T", "y").sees("and 6 more misted")
	screen := strings.ToLower(strings.Join(strings.Fields(g.screen()), " "))
	for _, id := range g.board.desk.book.IDs() {
		if name := show.Title(g.row(id).Plant); !strings.Contains(screen, strings.ToLower(name)) {
			t.Errorf("%s is not named:\n%s", name, g.screen())
		}
	}
}

// In a wide window the whole of an entry stands beside the list, with every plant of it,
// also of one that is no longer in the book.
func TestAnEntryInFullBesideTheList(t *testing.T) {
	g := newGrower(t).shelves()
	g.size(160, 50)
	g.keys("l", "A", "p", "T", "y").sees("│ Entry").sees("│ Plants")
	for _, id := range g.board.desk.book.Waiting() {
		g.sees("#" + id.String())
	}
	g.enters(g.now, &model.Add{Plants: []model.Plant{{ID: g.board.desk.book.NextID(), Name: "gone again", Count: 1}}}, g.board.desk.book.NextID())
	g.keys("g", "x").sees("no longer in the book")
}
