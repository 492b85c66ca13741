package estimate_test

import (
	"testing"
	"time"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/tests/household"
)

// Common practice, no source: who is surprised by a plant looks at it once more, and believes what she sees then.
func TestASecondLookConfirmsTheFirstOrTakesItBack(t *testing.T) {
	at, rolled := may(12, 8), model.Signs{Curl: 3, Tips: model.NotSeen, Shift: model.NotSeen}
	none := model.Signs{Tips: model.NotSeen, Shift: model.NotSeen}
	looked := func(from time.Time, again ...model.Signs) household.Home {
		h := household.Greens(t, 3)
		weeks(h, 1, 1, none, 1, 2, 3)
		for i, signs := range again {
			h.Say(from.Add(time.Duration(i)*time.Hour), &model.Look{Signs: signs}, 1)
		}
		return h
	}
	soon := at.Add(2 * time.Hour)
	once, twice := looked(at, rolled), looked(at, rolled, rolled)
	first, second := once.Need(1, soon), twice.Need(1, soon)
	if !first.LookFirst || !once.Says(first, "look again") {
		t.Fatalf("rolled shut, days after a soak, is not questioned: %v", first.Reasons)
	}
	if second.LookFirst || twice.Says(second, "look again") || !twice.Says(second, "looked at twice") {
		t.Errorf("rolled shut at both looks, and it is questioned still: %v", second.Reasons)
	}
	if second.High >= first.High {
		t.Errorf("up to %.2f left after one look, %.2f after two", first.High, second.High)
	}
	a, b := pace(t, estimate.New(once.Book), 1), pace(t, estimate.New(twice.Book), 1)
	if b.Median <= a.Median {
		t.Errorf("times as fast as its kind: %.2f after one look, %.2f after two", a.Median, b.Median)
	}
	back := looked(at, rolled, none)
	third := back.Need(1, soon)
	if third.LookFirst || back.Says(third, "looked at twice") {
		t.Errorf("the first look was taken back, and the plant is still questioned: %v", third.Reasons)
	}
	if c, d := pace(t, estimate.New(back.Book), 1), pace(t, estimate.New(looked(at.Add(time.Hour), none).Book), 1); c != d {
		t.Errorf("a look that was taken back still counts: %+v and %+v", c, d)
	}
}

// A grade that is keyed anew at once, or that a drop is added to, is the same look.
func TestALookPutRightAtOnceIsNoSecondLook(t *testing.T) {
	at, h, anew := may(9, 8), household.Greens(t, 1), household.Greens(t, 1)
	anew.Say(at.Add(time.Minute), &model.Look{Signs: curled}, 1)
	once := pace(t, estimate.New(anew.Book), 1)
	h.Say(at, &model.Look{Signs: curled}, 1)
	h.Say(at.Add(time.Minute), &model.Look{Signs: curled}, 1)
	if again := pace(t, estimate.New(h.Book), 1); again != once {
		t.Errorf("keyed once: %+v, twice: %+v", once, again)
	}
}

// Who takes looks back is believed a little less from then on.
func TestWhoTakesLooksBackIsBelievedLess(t *testing.T) {
	after := func(tookBack bool) estimate.Multiplier {
		h := household.Greens(t, 12)
		for id := model.ID(2); id <= 12; id++ {
			if tookBack {
				h.Say(may(9, 8), &model.Look{Signs: curled}, id)
			}
			h.Say(may(9, 9), &model.Look{Signs: flat}, id)
		}
		h.Say(may(9, 10), &model.Look{Signs: model.Signs{Curl: 3, Tips: 0, Shift: model.NotSeen}}, 1)
		return pace(t, estimate.New(h.Book), 1)
	}
	if sure, sloppy := after(false), after(true); !(sloppy.Median < sure.Median && sloppy.Median > sure.Median/1.1) {
		t.Errorf("rolled shut: times as fast as its kind %.3f, and by who took eleven looks back %.3f", sure.Median,
			sloppy.Median)
	}
}
