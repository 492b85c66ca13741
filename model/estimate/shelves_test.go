package estimate_test

import (
	"testing"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/tests/household"
)

// A plant whose looks leave its rate of loss less certain than anybody would
// guess beforehand does not speak for its shelf. Flat leaves eighteen days after
// a soak, seen three times, leave a variance of the logarithm of 0.67, over the
// 0.64 of a belief with a standard deviation of 0.8; a fourth look makes it 0.61.
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
	look(1)
	look(2)
	if s := look(3); s.Factor != 1 {
		t.Errorf("seen three times: %+v", s)
	}
	if s := look(4); s.Factor >= 1 {
		t.Errorf("seen four times: %+v", s)
	}
}
