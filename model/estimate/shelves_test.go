package estimate_test

import (
	"testing"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/tests/household"
)

// A plant whose looks leave its rate of loss less certain than anybody would
// guess beforehand does not speak for its shelf. Flat leaves eighteen days after
// a soak say little, since nobody knows at what thirst they would have lifted: it
// takes ten of them and more, but in the end they say that plants lose little there.
func TestWhatIsSeenTooLittleDoesNotSpeakForAShelf(t *testing.T) {
	h := household.Greens(t, 12)
	var all model.IDs
	for id := model.ID(1); id <= 12; id++ {
		all = append(all, id)
	}
	look := func(n int) estimate.Shelf {
		h.Say(may(1+18*n, 18), &model.Look{Signs: flat}, all...)
		h.Soaked(may(2+18*n, 18), 240, all...)
		return estimate.New(h.Book).Shelves()[0]
	}
	speaks := 0
	for n := 1; n <= 30 && speaks == 0; n++ {
		if look(n).Factor < 1 {
			speaks = n
		}
	}
	if speaks < 5 || speaks > 20 {
		t.Errorf("the shelf is judged after %d looks", speaks)
	}
}
