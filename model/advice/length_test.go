package advice

import (
	"testing"

	"pgregory.net/rapid"

	"tubside/model"
	"tubside/model/soak"
)

func anyWish(t *rapid.T) wish {
	need := rapid.Float64Range(0, 400)
	w := wish{
		row:     tableRow(rapid.IntRange(int(rowMesic), int(rowTank)).Draw(t, "row")),
		seen:    column(rapid.IntRange(int(nothingSeen), int(rolledShut)).Draw(t, "seen")),
		late:    rapid.Bool().Draw(t, "late"),
		routine: need.Draw(t, "routine"),
	}
	w.overdue = w.late && rapid.Bool().Draw(t, "overdue")
	w.rescue = w.routine + need.Draw(t, "more")
	return w
}

// Whatever is needed and seen: a load has room, the night is for what was seen rolled shut, nothing seen is Long at
// most, and what is seen never shortens a soak.
func TestEveryLengthHasRoomAndItsBand(t *testing.T) {
	rules := model.DefaultRules()
	rapid.Check(t, func(t *rapid.T) {
		w := anyWish(t)
		l := w.length(&rules)
		band := BandOf(l.From, rules)
		switch {
		case !(l.From >= 1 && l.From <= leastShare*l.To):
			t.Fatalf("%+v: at least %v, at most %v", w, l.From, l.To)
		case band == soak.Overnight && w.seen != rolledShut:
			t.Fatalf("%+v: %v", w, band)
		case w.seen == nothingSeen && band > soak.Long:
			t.Fatalf("%+v: %v", w, band)
		case w.row == rowFuzzy && l.To > rules[model.CapFuzzy]:
			t.Fatalf("%+v: up to %v", w, l.To)
		}
		unseen := w
		unseen.seen = nothingSeen
		if u := unseen.length(&rules); u.From > l.From || u.To > l.To {
			t.Fatalf("%+v: %+v, with nothing seen %+v", w, l, u)
		}
	})
}

// Where nobody knows the last soak, or the numbers say a casualty, they are trusted with two hours at most.
func TestTheUnsureIsBounded(t *testing.T) {
	rules := model.DefaultRules()
	for row := rowMesic; row <= rowTank; row++ {
		if l := (wish{row: row, unsure: true, routine: 300, rescue: 400}).length(&rules); l.To > 120 || l.From > 90 {
			t.Errorf("row %d: %+v", row, l)
		}
	}
}

// The house's rhythm: a week, longer for xeric and fuzzy plants, shorter in dry air, and never longer in damp.
func TestRhythm(t *testing.T) {
	rules := model.DefaultRules()
	for _, c := range []struct {
		form model.Form
		leaf model.Leaf
		draw float64
		days int
	}{
		{model.Rosette, model.Mesic, 1, 7}, {model.Rosette, model.Mesic, 0.6, 7}, {model.Rosette, model.Mesic, 1.3, 5},
		{model.Bulbous, model.Xeric, 1, 7}, {model.Rosette, model.Xeric, 1, 12}, {model.Fuzzy, model.Mesic, 1, 12},
		{model.Wispy, model.Xeric, 1.2, 10},
	} {
		if got := Rhythm(model.Plant{Form: c.form, Leaf: c.leaf}, c.draw, rules); got != c.days {
			t.Errorf("%s %s in air that draws %v: every %d days, want %d", c.form, c.leaf, c.draw, got, c.days)
		}
	}
}
