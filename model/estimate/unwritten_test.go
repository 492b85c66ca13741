package estimate_test

import (
	"testing"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/tests/household"
)

// Three shelves of six are looked at weekly before their soak, ten times, and their leaves lift; but each week six
// plants are flat. When those are a whole shelf, somebody waters shelves and writes nothing down, and any plant may be fuller than
// its loss says; when they are two of every shelf, they may be as they are.
func TestAShelfThatIsFlatAtOnceHadWater(t *testing.T) {
	believed := func(together bool) estimate.Plant {
		h := household.New(t)
		var plants []model.Plant
		for id := model.ID(1); id <= 18; id++ {
			plants = append(plants, model.Plant{ID: id, Count: 1, Form: model.Rosette, Leaf: model.Mesic, Size: 15,
				Home: model.Home{Shelf: string(rune('A' + (id-1)/6))}})
		}
		h.Say(may(1, 8), &model.Add{Plants: plants})
		h.Soaked(may(1, 18), 240, h.IDs()...)
		for w := 1; w <= 10; w++ {
			var full, dry model.IDs
			for id := model.ID(1); id <= 18; id++ {
				odd := int(id-1)%3 == w%3
				if together {
					odd = int(id-1)/6 == w%3
				}
				if odd {
					full = append(full, id)
				} else {
					dry = append(dry, id)
				}
			}
			h.Say(may(1+7*w, 8), &model.Look{Signs: flat}, full...)
			h.Say(may(1+7*w, 9), &model.Look{Signs: lifting}, dry...)
			h.Soaked(may(1+7*w, 18), 240, h.IDs()...)
		}
		return estimate.New(h.Book).Plant(4, may(78, 8))
	}
	shelf, scattered := believed(true), believed(false)
	if a, b := shelf.High-shelf.RWC, scattered.High-scattered.RWC; a < 1.15*b {
		t.Errorf("a shelf at a time: %.3f to %.3f around %.3f, one here and there: %.3f to %.3f around %.3f", shelf.Low,
			shelf.High, shelf.RWC, scattered.Low, scattered.High, scattered.RWC)
	}
}

// Leaves of one shelf a week are slow to take in a drop, of all others quick; none lifts. A shelf whose scales are full
// had water not long ago.
func TestAShelfThatIsSlowToDrinkADropHadWater(t *testing.T) {
	believed := func(together bool) estimate.Plant {
		h := household.New(t)
		var plants []model.Plant
		for id := model.ID(1); id <= 18; id++ {
			plants = append(plants, model.Plant{ID: id, Count: 1, Form: model.Rosette, Leaf: model.Mesic, Size: 15,
				Home: model.Home{Shelf: string(rune('A' + (id-1)/6))}})
		}
		h.Say(may(1, 8), &model.Add{Plants: plants})
		h.Soaked(may(1, 18), 240, h.IDs()...)
		quick, dark := flat, flat
		quick.Shift, dark.Shift = 2, model.AlreadyDark
		for w := 1; w <= 10; w++ {
			var full, dry model.IDs
			for id := model.ID(1); id <= 18; id++ {
				odd := int(id-1)%3 == w%3
				if together {
					odd = int(id-1)/6 == w%3
				}
				if odd {
					full = append(full, id)
				} else {
					dry = append(dry, id)
				}
			}
			h.Say(may(1+14*w, 8), &model.Look{Signs: dark}, full...)
			h.Say(may(1+14*w, 9), &model.Look{Signs: quick}, dry...)
			h.Soaked(may(1+14*w, 18), 240, h.IDs()...)
		}
		return estimate.New(h.Book).Plant(4, may(148, 8))
	}
	shelf, scattered := believed(true), believed(false)
	if a, b := shelf.High-shelf.RWC, scattered.High-scattered.RWC; a < 1.15*b {
		t.Errorf("a shelf at a time: %.3f to %.3f around %.3f, one here and there: %.3f to %.3f around %.3f", shelf.Low,
			shelf.High, shelf.RWC, scattered.Low, scattered.High, scattered.RWC)
	}
}
