package day_test

import (
	"slices"
	"strings"
	"testing"

	"tubside/model"
	"tubside/model/day"
	"tubside/tests/household"
	"tubside/ui/show"
)

// Whoever may lie wet in the heart into the night is told of by number and with what to do,
// also what lay there before the day began, and nobody else.
func TestWhoMayLieWetIntoTheNightIsTold(t *testing.T) {
	h := household.Greens(t, 12)
	h.Say(may(7, 20), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: may(7, 21)}, 1, 2, 3)
	h.Say(may(8, 8), &model.Out{}, 1, 2, 3) // not shaken: wet until the evening
	now := may(8, 9)
	p := planned(t, h, now, day.Ask{From: now, DryBy: may(8, 12)})
	ids, last := p.Wet()
	if !slices.Equal(ids, model.IDs{1, 2, 3}) || !last.After(may(8, 12)) || last.After(p.AllDry) {
		t.Errorf("wet at 12:00: %v, until %s", ids, last.Format("15:04"))
	}
	text := strings.Join(show.PlanNotes(h.Book, p), "\n")
	for _, want := range []string{"3 plants may still be wet at 12:00", "the last until " + last.Format("15:04"), "upside down", "fan", "window", "(1), ", "(3)"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in %q", want, text)
		}
	}
	h.Say(now, p.Agree(h.Book, now))
	if again, _ := current(t, h, now).Wet(); !slices.Equal(again, ids) {
		t.Errorf("once it is agreed, wet at 12:00: %v", again)
	}
	if ids, _ := planned(t, h, now, day.Ask{From: now, DryBy: last}).Wet(); len(ids) > 0 {
		t.Errorf("dry by %s: %v are said to be wet then", last.Format("15:04"), ids)
	}
}
