package day_test

import (
	"slices"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/tests/household"
)

// What is said of plants before they are wet is what is said once they lie in the room.
func TestWhoMayBeWetInTheNightIsKnownBefore(t *testing.T) {
	now := time.Date(2026, time.January, 17, 10, 12, 0, 0, time.UTC)
	for _, scene := range []string{"quiet", "bench"} {
		for _, hour := range []int{11, 16, 19} {
			h := household.Of(household.Moment{Scene: scene, Seed: 1, Now: now}.Book(t), t)
			at := time.Date(2026, time.January, 17, hour, 0, 0, 0, time.UTC)
			var ids model.IDs
			for _, id := range h.IDs() {
				if r := h.Row(id); r.State == model.AtHome && r.Rot.IsZero() && r.Bloom.IsZero() && len(ids) < 40 {
					ids = append(ids, id)
				}
			}
			by := h.Rules().DryBy(at)
			said := day.NotDry(estimate.New(h.Book), ids, "", at, at)
			if said.By != by {
				t.Errorf("%s: dry by %v, want %v", scene, said.By, by)
			}
			h.Say(at.Add(-time.Minute), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: at}, ids...)
			out := model.TakenOut(true)
			h.Say(at, out, ids...)
			k := estimate.New(h.Book)
			var wet model.IDs
			for _, id := range ids {
				if k.DryOut(h.Row(id), at).High.After(by) {
					wet = append(wet, id)
				}
			}
			if !slices.Equal(wet, said.Plants) {
				t.Errorf("%s at %d: said of %v, then of %v", scene, hour, said.Plants, wet)
			}
			t.Logf("%s at %d: %d of %d", scene, hour, len(wet), len(ids))
		}
	}
}
