package model_test

import (
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/tests/household"
)

// Plants that are laid in and taken out one after another have each their own time in the
// water: sixty that take twenty minutes to come out do not come out all at its end.
func TestPlantsThatComeOutInTurnEachHaveTheirOwnTime(t *testing.T) {
	h := household.Greens(t, 60)
	in := time.Date(2026, time.May, 8, 9, 0, 0, 0, time.UTC)
	ids := h.IDs()
	h.Say(in, &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: in.Add(time.Hour), Took: 600}, ids...)
	h.Say(in.Add(80*time.Minute), &model.Out{Shaken: true, Took: 1200}, ids...)
	first, last := h.Row(ids[0]), h.Row(ids[59])
	if at := in.Add(60*time.Minute + 20*time.Second); !first.In.Equal(in) || !first.Out.Equal(at) {
		t.Errorf("the first is in at %s and out at %s, not %s", first.In.Format("15:04:05"), first.Out.Format("15:04:05"), at.Format("15:04:05"))
	}
	if at := in.Add(590 * time.Second); !last.In.Equal(at) || !last.Out.Equal(in.Add(80*time.Minute)) {
		t.Errorf("the last is in at %s, not %s, and out at %s", last.In.Format("15:04:05"), at.Format("15:04:05"), last.Out.Format("15:04:05"))
	}
	if is := last.Minutes; is < 70 || is > 71 {
		t.Errorf("the last soaked for %.1f min", is)
	}
}

// A take-out that would have begun before the plants went in is refused.
func TestATakeOutCannotHaveBegunBeforeTheSoak(t *testing.T) {
	h := household.Greens(t, 2)
	in := time.Date(2026, time.May, 8, 9, 0, 0, 0, time.UTC)
	h.Say(in, &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: in.Add(time.Hour)}, h.IDs()...)
	e := model.NewEntry(in.Add(time.Hour), &model.Out{Took: 3 * 3600}, h.IDs()...)
	if err := h.Check(e); err == nil || !strings.Contains(err.Error(), "hands") {
		t.Errorf("hands that took three hours after one: %v", err)
	}
}
