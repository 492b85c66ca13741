package estimate_test

import (
	"testing"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/tests/household"
)

// gradedWeekly is a shelf of twelve, walked along before each soak for some weeks. The first three are written down as
// curled; of the rest, those that she tells of are written down as flat.
func gradedWeekly(t *testing.T, weeks int, tells model.IDs) *estimate.Keeper {
	h := household.Greens(t, 12)
	all := h.IDs()
	for w := 1; w <= weeks; w++ {
		h.Say(may(1+7*w, 8), &model.Look{Signs: curled}, 1, 2, 3)
		if len(tells) > 0 {
			h.Say(may(1+7*w, 9), &model.Look{Signs: flat}, tells...)
		}
		h.Soaked(may(1+7*w, 18), 120, all...)
	}
	return estimate.New(h.Book)
}

// A grower who only ever writes down what is wrong says by her silence that the others on the shelf looked fine.
func TestPlantsPassedOverByWhoWritesOnlyWhatIsWrong(t *testing.T) {
	first, later := gradedWeekly(t, 1, nil), gradedWeekly(t, 10, nil)
	before, after := first.Plant(12, may(14, 8)), later.Plant(12, may(77, 8))
	if after.Thirst() > 0.9*before.Thirst() {
		t.Errorf("passed over ten times it is taken to be %.3f down a week after a soak, at first %.3f", after.Thirst(),
			before.Thirst())
	}
	if bad := later.Plant(1, may(77, 8)); bad.RWC > after.Low {
		t.Errorf("one that was always bad has %.3f, one passed over %.3f to %.3f", bad.RWC, after.Low, after.High)
	}
}

// One who writes down the fine ones too says nothing of those she left out.
func TestSilenceOfWhoWritesEverything(t *testing.T) {
	k := gradedWeekly(t, 10, model.IDs{4, 5, 6, 7, 8, 9, 10})
	told, silent := k.Plant(4, may(77, 8)), k.Plant(12, may(77, 8))
	if silent.Thirst() < 1.1*told.Thirst() || silent.High-silent.Low < 1.1*(told.High-told.Low) {
		t.Errorf("one left out has %.3f to %.3f, one told of %.3f to %.3f", silent.Low, silent.High, told.Low, told.High)
	}
}
