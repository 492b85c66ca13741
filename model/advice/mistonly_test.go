package advice_test

import (
	"testing"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/tests/household"
)

// A plant that its grower never soaks is not due however long its last soak is ago, and
// whatever is seen of it; the reason says whose word that is.
func TestAMistOnlyPlantIsNeverDueForASoak(t *testing.T) {
	h := household.Greens(t, 2)
	row := h.Row(1).Plant
	row.MistOnly = true
	h.Say(may(2, 8), &model.Edit{Plants: []model.Plant{row}})
	for _, day := range []int{3, 9, 20, 31} {
		n := h.Need(1, may(day, 9))
		if n.Band != soak.Mist || n.To != 0 || !h.Says(n, "mist only, you said") || n.LookFirst || n.Reasons[0].Danger() {
			t.Errorf("May %d: %v, %v", day, n.Band, n.Reasons)
		}
	}
	if n := h.Need(2, may(20, 9)); !n.Band.InWater() {
		t.Fatalf("its neighbour is not due: %v", n.Band)
	}
	h.Say(may(20, 9), &model.Look{Signs: model.Signs{Curl: 3, Tips: 2, Shift: 2}}, 1)
	if n := h.Need(1, may(20, 10)); n.Band != soak.Mist || !h.Says(n, "dry, and mist only") || n.Casualty() {
		t.Errorf("rolled shut: %v, %v", n.Band, n.Reasons)
	}
	row.MistOnly = false
	h.Say(may(21, 8), &model.Edit{Plants: []model.Plant{row}})
	if n := h.Need(1, may(21, 9)); !n.Band.InWater() {
		t.Errorf("taken back, and still %v", n.Band)
	}
}

// It comes up in the mist round instead, also where its form would keep it out of it.
func TestAMistOnlyPlantIsOnTheMistRound(t *testing.T) {
	h := household.Greens(t, 2)
	row := h.Row(1).Plant
	row.MistOnly, row.Form = true, model.Bulbous
	h.Say(may(2, 8), &model.Edit{Plants: []model.Plant{row}})
	due := func(day, hour int) bool {
		r := advice.NewRound(estimate.New(h.Book), advice.MistRound, may(day, hour))
		for _, s := range r.Due {
			if s.ID == 1 {
				return s.Reasons[0].Code == advice.MistOnly
			}
		}
		return false
	}
	if !due(3, 9) {
		t.Error("not on the first round")
	}
	h.Say(may(3, 9), &model.Mist{}, 1)
	if due(3, 10) || !due(20, 9) {
		t.Errorf("misted on the 3rd: due an hour later %v, on the 20th %v", due(3, 10), due(20, 9))
	}
	if n := h.Need(1, may(3, 10)); n.Band != soak.Rest {
		t.Errorf("just misted: %v", n.Band)
	}
}
