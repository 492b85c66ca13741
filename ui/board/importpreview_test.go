package board

import (
	"os"
	"path/filepath"
	"testing"

	"tubside/model"
)

// A list as a person keeps it comes in with a key for each question: days without a year,
// cells that say no day, and a sum at its foot.
func TestAListAsAPersonKeepsIt(t *testing.T) {
	list := filepath.Join(t.TempDir(), "plants.csv")
	text := "Plant,Where it hangs,Got it,Last soaked\nstricta,A,1 Sept 2023,13/1\nionantha,A,2021,10/1\ncapitata,A,Spring 2021,last Sat\n" +
		"bulbosa,A,,14/1\nfuchsii,A,,14/1\nTotal: 5,,,\n"
	if err := os.WriteFile(list, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	g := newGrower(t).keys("L").types(list).keys("enter")
	g.sees(`4 cells like this: "13/1" has no year; t takes`).sees(`"last Sat" is not a date`).sees("e leave those empty").sees("t this year")
	g.keys("enter").sees("e leaves those empty").keys("e").sees(`"13/1" has no year`).doesNotSee(`"last Sat" is not`).doesNotSee("e leave those")
	g.keys("enter").sees("t takes the latest such day").keys("t").sees(`"Total: 5" looks like a sum, not like a plant: x leaves it out`)
	g.keys("x").sees("5 plants: 5 new").sees("Left out: line 7").keys("enter")
	for id, want := range map[model.ID]string{1: "2026-01-13", 2: "2026-01-10", 4: "2026-01-14"} {
		if got := g.row(id).SoakedOn.String(); got != want {
			t.Errorf("plant %d soaked on %s, want %s", id, got, want)
		}
	}
	if r := g.row(3); r.SoakedOn != 0 || r.Note != "Got it: Spring 2021\nLast soaked: last Sat" {
		t.Errorf("capitata soaked on %s, note %q", r.SoakedOn, r.Note)
	}
	if g.board.desk.book.Len() != 5 {
		t.Errorf("%d plants, want 5", g.board.desk.book.Len())
	}
	g.keys("home", "j", "enter").sees("came 2021").doesNotSee("2021-12-31")
}
