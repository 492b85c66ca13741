package day_test

import (
	"slices"
	"testing"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/tests/household"
)

// A plant that its grower never soaks is in no plan, and in no shelf's hours of the week;
// said after a plan was agreed, it leaves that plan too.
func TestAMistOnlyPlantIsNeverPlanned(t *testing.T) {
	h := household.Greens(t, 12)
	never := func(id model.ID, on int) {
		row := h.Row(id).Plant
		row.MistOnly = true
		h.Say(may(on, 7), &model.Edit{Plants: []model.Plant{row}}, id)
	}
	goesIn := func(p *day.Plan, id model.ID) bool {
		return slices.ContainsFunc(p.Loads, func(l day.Load) bool { return slices.Contains(l.IDs(), id) })
	}
	never(3, 2)
	p := agreed(t, h, may(8, 6), day.Ask{})
	if p.Count() != 11 || goesIn(p, 3) {
		t.Fatalf("%d planned, the one that is mist only among them: %v", p.Count(), goesIn(p, 3))
	}
	if w := day.NewWeek(estimate.New(h.Book), may(8, 6)); w.Shelves[0].Plants != 11 {
		t.Errorf("the week soaks %d, want 11", w.Shelves[0].Plants)
	}
	never(5, 8)
	if p := current(t, h, may(8, 7)); goesIn(p, 5) || !goesIn(p, 6) {
		t.Errorf("said after the plan was agreed: 5 goes in %v, 6 %v", goesIn(p, 5), goesIn(p, 6))
	}
}
