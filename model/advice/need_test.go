package advice_test

import (
	"math"
	"testing"

	"tubside/model"
	"tubside/model/soak"
	"tubside/tests/household"
)

// Caps by form, growers' habit, each said.
func TestCapsCutNeedsAndSaySo(t *testing.T) {
	for _, c := range []struct {
		form    model.Form
		leaf    model.Leaf
		minutes float64
		why     string
	}{
		{model.Bulbous, model.Mesic, 90, "bulbous, thirst seen: 1 h 30 min at most"},
		{model.Fuzzy, model.Mesic, 10, "fuzzy: 10 min at most"},
		{model.Tank, model.Mesic, 20, "tank: 20 min at most"},
		{model.Pendent, model.Mesic, 60, "pendent: 1 h at most"},
		{model.Rosette, model.Xeric, 60, "xeric: 1 h at most"},
	} {
		h := household.New(t)
		h.Say(may(1, 8), &model.Add{Plants: []model.Plant{{ID: 1, Count: 1, Form: c.form, Leaf: c.leaf, Size: 15}}})
		h.Soaked(may(1, 18), 240, 1)
		h.Say(may(20, 8), &model.Look{Signs: model.Signs{Curl: 3, Tips: 3, Shift: 2}}, 1)
		n := h.Need(1, may(20, 9))
		if n.To != c.minutes || n.Band == soak.Rest || !h.Says(n, c.why) {
			t.Errorf("%s %s: %v to %.0f min, %v", c.form, c.leaf, n.Band, n.To, n.Reasons)
		}
	}
}

// A reading stands for the time nearer to it than to any other, and for no
// longer than the house rule.
func TestReadingsStandForTheirTime(t *testing.T) {
	thirst := func(readings ...float64) float64 {
		h := household.Greens(t, 1)
		for i, rh := range readings {
			h.Say(may(2+4*i, 12), &model.Reading{TempC: 21, RH: rh})
		}
		return h.Need(1, may(12, 18)).Thirst()
	}
	dry, damp, turned, back := thirst(20, 20, 20), thirst(80, 80, 80), thirst(20, 80, 80), thirst(80, 80, 20)
	if !(damp < back && back < dry && damp < turned && turned < dry) {
		t.Errorf("dry %.3f, damp %.3f, dry at first %.3f, dry at last %.3f", dry, damp, turned, back)
	}
	usual := thirst()
	if rule := thirst(40, 40, 40); math.Abs(rule-usual) > 1e-9 {
		t.Errorf("readings of the house rule's air %.6f, none %.6f", rule, usual)
	}
}

// A bulbous plant may have more once thirst was seen, and the cap says by what it goes.
func TestACapThatMovesSaysSo(t *testing.T) {
	h := household.New(t)
	h.Say(may(1, 8), &model.Add{Plants: []model.Plant{{ID: 1, Count: 1, Form: model.Bulbous, Leaf: model.Mesic, Size: 15}}})
	h.Soaked(may(1, 18), 30, 1)
	if n := h.Need(1, may(9, 9)); n.To != 30 || !h.Says(n, "bulbous, no thirst seen: 30 min at most") {
		t.Errorf("nothing seen: up to %.0f min, %v", n.To, n.Reasons)
	}
	h.Say(may(9, 9), &model.Look{Signs: model.Signs{Curl: 1, Tips: 0, Shift: 2}}, 1)
	if n := h.Need(1, may(9, 10)); n.To != 90 || !h.Says(n, "bulbous, thirst seen: 1 h 30 min at most") {
		t.Errorf("edges lifting: up to %.0f min, %v", n.To, n.Reasons)
	}
}
