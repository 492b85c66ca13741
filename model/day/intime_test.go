package day_test

import (
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/tests/household"
)

// outOf is when a plan takes a plant out; the zero time if it does not.
func outOf(p *day.Plan, id model.ID) time.Time {
	if _, at, ok := p.Placed(id); ok {
		return at.Out
	}
	return time.Time{}
}

// What lies in the water comes out when its time is up, also where that takes the hands
// past the hour the grower gave: waiting for that hour helps nobody.
func TestATakeOutDoesNotWaitForTheEndOfTheHours(t *testing.T) {
	now, due := may(8, 16), may(8, 16).Add(36*time.Minute)
	for _, until := range []time.Time{may(8, 16).Add(30 * time.Minute), due.Add(4 * time.Minute), may(8, 17), due.Add(21 * time.Minute), may(8, 18)} {
		h := household.Greens(t, 60)
		h.Say(due.Add(-time.Hour), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: due}, h.IDs()...)
		p := planned(t, h, now, day.Ask{From: now, Until: until, DryBy: may(8, 23)})
		if at := outOf(p, 1); !at.Equal(due) {
			t.Errorf("hours until %s: out at %s, not when its time is up", until.Format("15:04"), at.Format("15:04"))
		}
		if inHours := !due.Add(20 * time.Minute).After(until); inHours && len(p.Late) > 0 {
			t.Errorf("hours until %s: they are out in them, and it says %+v", until.Format("15:04"), *p.Late[0].Late)
		}
		h.Say(now, p.Agree(h.Book, now))
		for _, late := range []time.Duration{0, time.Minute, 30 * time.Minute} {
			if at := outOf(current(t, h, now.Add(late)), 1); !at.Equal(due) {
				t.Errorf("hours until %s, asked at %s: out at %s", until.Format("15:04"), now.Add(late).Format("15:04"), at.Format("15:04"))
			}
		}
	}
}
