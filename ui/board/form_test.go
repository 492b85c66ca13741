package board

import (
	"testing"

	"tubside/model"
)

// What stands in a field is replaced by the first key, and edited after an arrow.
func TestTheFirstKeyReplacesWhatAFieldHolds(t *testing.T) {
	g := newGrower(t).shelves().keys("e").types("door").keys("ctrl+s")
	if label := g.row(1).Label; label != "door" {
		t.Errorf("label %q, want door", label)
	}
	g.keys("e", "left", "right").types("way").keys("ctrl+s")
	if label := g.row(1).Label; label != "doorway" {
		t.Errorf("label %q, want doorway", label)
	}
}

// Enter goes through every field, filled in or not, and a choice takes its letter.
func TestAFormSkipsNoField(t *testing.T) {
	g := newGrower(t).shelves().keys("a").types("70F").keys("enter").types("45").keys("enter")
	if g.board.desk.outlook.Air.RH == 45 {
		t.Fatal("written before the fan was asked about")
	}
	g.sees("off  low  on  near").types("n").keys("enter")
	if air := g.board.desk.outlook.Air; air.RH != 45 || air.Fan != model.FanNear {
		t.Errorf("air %+v", air)
	}
}

// A letter typed again goes on to the next choice; more letters make it certain.
func TestChoicesByLetter(t *testing.T) {
	f := newChoice("x", "", "", "scale", "mealybug", "mites", "sun")
	for _, step := range []struct{ key, want string }{
		{"s", "scale"}, {"s", "sun"}, {"m", "mealybug"}, {"i", "mites"}, {"x", "mites"}, {"backspace", ""},
	} {
		f.typed(keyNamed(step.key))
		if got := f.input.Value(); got != step.want {
			t.Errorf("after %s: %q, want %q", step.key, got, step.want)
		}
	}
}

// What is wrong stands at its field.
func TestAnErrorStandsAtItsField(t *testing.T) {
	g := newGrower(t).shelves().keys("a").types("warm").keys("ctrl+s")
	g.sees("temperature  warm").sees("▸").sees("\"warm\"")
}
