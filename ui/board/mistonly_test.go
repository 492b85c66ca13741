package board

import (
	"os"
	"path/filepath"
	"testing"
)

// tellMistOnly says in the form of a plant that it is never soaked.
func (g *grower) tellMistOnly() *grower {
	g.keys("e")
	for range plantMistOnly {
		g.keys("enter")
	}
	return g.sees("mist only").keys("y", "ctrl+s")
}

// A plant that its grower never soaks is pulled by no rule, and asked about by hand.
func TestAMistOnlyPlantIsPulledByNobody(t *testing.T) {
	g := newGrower(t).shelves().tellMistOnly()
	if !g.row(1).MistOnly {
		t.Fatal("not taken")
	}
	g.keys("e").types("x").keys("esc") // looking changes nothing
	g.keys("P", "d", "3", "3", "2")
	if g.board.desk.book.Waiting().Has(1) {
		t.Fatal("pulled as it was looked at")
	}
	g.keys("home").sees("mist only").keys("p").sees("is mist only, you said: p again pulls it")
	if g.board.desk.book.Waiting().Has(1) {
		t.Fatal("pulled without asking")
	}
	if g.keys("p"); !g.board.desk.book.Waiting().Has(1) {
		t.Error("asked for twice, and not pulled")
	}
	g.keys("u", "home", "enter").sees("mist only").keys("esc")
	for g.row(1).MistOnly {
		g.keys("u")
	}
}

// A note that says not to soak raises a question before anything is written, and one key
// answers it.
func TestANoteThatSaysNotToSoakIsAskedAbout(t *testing.T) {
	list := filepath.Join(t.TempDir(), "plants.csv")
	text := "name,shelf,notes\ntectorum,A,DON'T SOAK - mist only\ncyanea,A,in a pot - don't soak\nstricta,A,likes a soak\n"
	if err := os.WriteFile(list, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, keys := range [][]string{{"enter"}, {"y", "enter"}} {
		g := newGrower(t).keys("L").types(list).keys("enter")
		g.sees("Never soak these, as their notes say?").sees(`"DON'T SOAK - mist only", cyanea "in a pot`).doesNotSee("likes a soak")
		g.keys(keys...)
		want := keys[0] == "y"
		if g.row(1).MistOnly != want || g.row(2).MistOnly != want || g.row(3).MistOnly {
			t.Errorf("after %v: %v %v %v", keys, g.row(1).MistOnly, g.row(2).MistOnly, g.row(3).MistOnly)
		}
		g.keys("L").types(list).keys("enter").doesNotSee("Never soak") // a second time it is as it was
	}
}
