package day_test

import (
	"testing"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/tests/household"
)

// Who wants all tap water to stand first (growers' habit) has one filling a vessel and day. In
// the morning that is the first one, though nobody filled the evening before; who would need
// another is told so, and gets none later that day.
func TestWaterThatHasToStandIsDrawnOnceAVesselAndDay(t *testing.T) {
	h := household.Greens(t, 500)
	h.Say(may(2, 9), &model.RuleSet{Name: "fill-stands", Value: 1})
	check := func(p *day.Plan, most int) (count int) {
		t.Helper()
		fills, without := map[string]int{}, 0
		for _, s := range p.Steps {
			if s.Do == soak.Fill && !s.Done {
				fills[s.Vessel]++
			}
		}
		for v, n := range fills {
			if n > most {
				t.Errorf("%s is filled %d times, at most %d", v, n, most)
			}
		}
		for _, l := range p.Left {
			if l.Unplaced == nil {
				continue
			}
			if l.Unplaced.Why == soak.NoHours {
				t.Errorf("plant %d: %v", l.ID, l.Unplaced.Why)
			}
			if l.Unplaced.Why == soak.WaterTaken {
				without++
			}
		}
		if without == 0 {
			t.Error("nobody is left out for want of water that has stood")
		}
		return p.Count()
	}
	if check(planned(t, h, may(8, 8), day.Ask{}), 1) == 0 {
		t.Error("nothing to soak in the morning")
	}
	p, now := agreed(t, h, may(7, 19), day.Ask{}), may(7, 19)
	if check(p, 1) == 0 {
		t.Error("nothing to soak the day after")
	}
	for n := p.Next(); n >= 0; n = p.Next() {
		s := p.Steps[n]
		now = model.Later(now, s.Until)
		does(h, p, s, now)
		p = current(t, h, now)
	}
	if n := check(planned(t, h, now, day.Ask{Until: may(8, 20), DryBy: may(8, 23)}), 0); n > 0 {
		t.Errorf("at %s %d more are planned", now.Format("15:04"), n)
	}
}
