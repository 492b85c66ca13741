package day_test

import (
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/tests/household"
)

// stepsTell is after how many steps the plan knows its hands.
const stepsTell = 3

// A slow pair of hands pulls, lays in and takes out a quarter of an hour later than the plan
// it last looked at says, and writes it down then. Once a few steps have told, nothing goes
// in that such hands do not get out in time: all of it is out by its most, the rest is left
// out by name, and a third of the day and more is done.
func TestSlowHandsOnAHomesDay(t *testing.T) {
	days := []struct {
		scene string
		seed  uint64
		hour  int
	}{{"first", 1, 8}, {"homecoming", 1, 8}, {"homecoming", 2, 13}, {"soakday", 1, 8}, {"soakday", 3, 13}}
	if testing.Short() {
		days = days[:1]
	}
	for _, c := range days {
		now := time.Date(2026, time.January, 17, c.hour, 0, 0, 0, time.UTC)
		h := lived(t, household.Moment{Scene: c.scene, Seed: c.seed, Now: now})
		p := agreed(t, h, now, day.Ask{})
		planned, left := p.Count(), len(p.Left)
		in, told, past := map[model.ID]day.Plant{}, map[model.ID]bool{}, 0
		for done, steps := 0, 0; p.Next() >= 0; steps++ {
			if steps > 150 {
				t.Fatal("the day does not end")
			}
			s := p.Steps[p.Next()]
			at := model.Later(now, s.At)
			if s.Do == soak.Pull || s.Do == soak.PutIn || s.Do == soak.GetOut {
				at = at.Add(slowBy)
				done++
			}
			if s.Do == soak.PutIn {
				for _, x := range p.Loads[s.Load].Plants {
					in[x.ID], told[x.ID] = x, done > stepsTell
				}
			}
			does(h, p, s, at)
			for _, id := range s.Plants {
				row := h.Row(id)
				if over := row.Minutes - float64(in[id].Most)/60; s.Do == soak.GetOut && in[id].ID == id && over > 1 {
					if past++; told[id] {
						t.Errorf("%s %d: plant %d is in at %s and out at %s, %.1f minutes too late", c.scene, c.seed, id,
							row.In.Format("15:04"), row.Out.Format("15:04"), over)
					}
				}
			}
			now = at.Add(s.Until.Sub(s.At))
			p = current(t, h, now)
		}
		t.Logf("%s %d: %d planned, %d went in, %d of them past their most before it knew, %d more left out, done at %s", c.scene, c.seed,
			planned, len(in), past, len(p.Left)-left, now.Format("15:04"))
		if open := len(h.OpenLoads()); open > 0 {
			t.Errorf("%s %d: %d loads are still in the water", c.scene, c.seed, open)
		}
		if gone := len(p.Left) - left; len(in)+gone < planned || 3*len(in) < planned {
			t.Errorf("%s %d: of %d planned %d went in, and %d are said to be left out", c.scene, c.seed, planned, len(in), gone)
		}
	}
}
