package estimate_test

import (
	"testing"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/tests/household"
)

// threeShelves are three shelves of six, soaked and looked at every so many days, ten times: a third of them shows one
// thing each time, a whole shelf or two of each, and all others another. It is what is believed of one of them.
func threeShelves(t *testing.T, days int, third, others model.Signs, together bool) estimate.Plant {
	t.Helper()
	h := household.New(t)
	var plants []model.Plant
	for id := model.ID(1); id <= 18; id++ {
		plants = append(plants, model.Plant{ID: id, Count: 1, Form: model.Rosette, Leaf: model.Mesic, Size: 15,
			Home: model.Home{Shelf: string(rune('A' + (id-1)/6))}})
	}
	h.Say(may(1, 8), &model.Add{Plants: plants})
	h.Soaked(may(1, 18), 240, h.IDs()...)
	for n := 1; n <= 10; n++ {
		var odd, even model.IDs
		for id := model.ID(1); id <= 18; id++ {
			is := int(id-1)%3 == n%3
			if together {
				is = int(id-1)/6 == n%3
			}
			if is {
				odd = append(odd, id)
			} else {
				even = append(even, id)
			}
		}
		h.Say(may(1+days*n, 8), &model.Look{Signs: third}, odd...)
		h.Say(may(1+days*n, 9), &model.Look{Signs: others}, even...)
		h.Soaked(may(1+days*n, 18), 240, h.IDs()...)
	}
	return estimate.New(h.Book).Plant(4, may(8+10*days, 8))
}

// widerTogether wants more doubt of a plant whose whole shelf shows it than of one of two a shelf.
func widerTogether(t *testing.T, days int, third, others model.Signs) {
	t.Helper()
	shelf, scattered := threeShelves(t, days, third, others, true), threeShelves(t, days, third, others, false)
	if a, b := shelf.High-shelf.RWC, scattered.High-scattered.RWC; a < 1.15*b {
		t.Errorf("a shelf at a time: %.3f to %.3f around %.3f, one here and there: %.3f to %.3f around %.3f", shelf.Low,
			shelf.High, shelf.RWC, scattered.Low, scattered.High, scattered.RWC)
	}
}

// Leaves lift, but each week six plants are flat. When those are a whole shelf, somebody waters shelves and writes nothing
// down, and any plant may be fuller than its loss says; when they are two of every shelf, they may be as they are.
func TestAShelfThatIsFlatAtOnceHadWater(t *testing.T) { widerTogether(t, 7, flat, lifting) }

// Leaves of one shelf are slow to take in a drop, of all others quick; none lifts. A shelf whose scales are full had water
// not long ago.
func TestAShelfThatIsSlowToDrinkADropHadWater(t *testing.T) {
	quick, dark := flat, flat
	quick.Shift, dark.Shift = 2, model.AlreadyDark
	widerTogether(t, 14, dark, quick)
}
