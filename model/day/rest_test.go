package day_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/tests/household"
	"tubside/ui/show"
)

// A break that is proposed costs nobody a place: with it all are soaked within the hours
// and dry by the hour. A day that has no time for one proposes none.
func TestABreakCostsNobodyAPlace(t *testing.T) {
	const long = 30 * time.Minute
	for _, until := range []int{18, 12, 10} {
		h := household.Greens(t, 120)
		now := may(8, 8)
		p := planned(t, h, now, day.Ask{From: now, Until: may(8, until), DryBy: may(8, 21)})
		q, at, err := p.Rest(context.Background(), estimate.New(h.Book), now, long)
		if err != nil {
			t.Fatal(err)
		}
		if until == 10 {
			if q != nil {
				t.Errorf("a break at %s, with the hands free at %s and hours until %s", at.Format("15:04"), q.DayFree.Format("15:04"), p.Ask.Until.Format("15:04"))
			}
			continue
		}
		if q == nil {
			t.Fatalf("until %d:00 there is no time for a break: free at %s", until, p.DayFree.Format("15:04"))
		}
		if q.Count() != p.Count() || q.DayFree.After(p.Ask.Until) || q.AllDry.After(p.Ask.DryBy) {
			t.Errorf("with a break at %s %d of %d are planned, free at %s, dry by %s", at.Format("15:04"), q.Count(), p.Count(), q.DayFree.Format("15:04"), q.AllDry.Format("15:04"))
		}
		for _, s := range q.Steps {
			if s.Do.Hands() && s.At.Before(at.Add(long)) && s.Until.After(at) {
				t.Errorf("%v at %s, in the break", s.Do, s.At.Format("15:04"))
			}
		}
	}
}

// A vessel that stands full, and that no load of the plan goes into any more, is told of.
func TestAFullVesselThatNobodyNeedsIsToldOf(t *testing.T) {
	h := household.Greens(t, 8)
	now := may(8, 8)
	h.Say(now, &model.Fill{Vessel: "tub"})
	p := agreed(t, h, now, day.Ask{})
	used := map[string]bool{}
	for _, l := range p.Loads {
		used[l.Vessel] = true
	}
	h.Say(now, &model.Fill{Vessel: "bucket 2"})
	p = current(t, h, now)
	if used["bucket 2"] || len(p.Standing) == 0 || p.Standing[len(p.Standing)-1] != "bucket 2" {
		t.Errorf("standing: %v, used %v", p.Standing, used)
	}
}

// What lies in the water and is due before a plan's hours begin is told of: the plan takes it
// to be out by then.
func TestWhatComesOutBeforeThePlanBeginsIsToldOf(t *testing.T) {
	h := household.Greens(t, 40)
	h.Say(may(8, 8), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: may(8, 9)}, h.IDs()[:6]...)
	p := planned(t, h, may(8, 8), day.Ask{From: may(8, 11)})
	if len(p.Earlier) != 1 || p.Earlier[0].Plants != 6 || p.Earlier[0].Vessel != "tub" {
		t.Fatalf("told of: %+v", p.Earlier)
	}
	if notes := show.PlanNotes(h.Book, p); !strings.Contains(notes[0], "tub comes out at 09:00, before this plan begins: 6 plants") {
		t.Errorf("said: %q", notes)
	}
}
