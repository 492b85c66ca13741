package day_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/model/soak"
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

// What lies in the water and is due before a plan's hours begin comes out of it at its time,
// by the plan, and its water is let out; so it stands in the plan that is agreed, too. What
// may stay in until the hours begin does.
func TestWhatIsDueBeforeThePlanBeginsIsTakenOutByIt(t *testing.T) {
	for _, agreed := range []bool{false, true} {
		h := household.Greens(t, 40)
		h.Say(may(8, 8), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: may(8, 9)}, h.IDs()[:6]...)
		p := planned(t, h, may(8, 8), day.Ask{From: may(8, 15)})
		if agreed {
			h.Say(may(8, 8), p.Agree(h.Book, may(8, 8)))
			p = current(t, h, may(8, 8))
		}
		n, at, ok := p.Placed(1)
		if !ok || p.Loads[n].Load == 0 || !at.Out.Equal(may(8, 9)) || at.Dry.IsZero() {
			t.Fatalf("agreed %v: plant 1 of the tub is in no load: %+v", agreed, at)
		}
		steps := p.Steps[:0:0]
		for _, s := range p.Steps {
			if !s.Done {
				steps = append(steps, s)
			}
		}
		if out, empty := steps[0], steps[1]; out.Do != soak.GetOut || !out.At.Equal(may(8, 9)) || len(out.Plants) != 6 ||
			empty.Do != soak.Empty || !empty.At.Equal(out.Until) {
			t.Errorf("agreed %v: first %v at %v, then %v at %v", agreed, out.Do, out.At, empty.Do, empty.At)
		}
		if notes := show.PlanNotes(h.Book, p); !strings.Contains(notes[0], "before your hours begin: take out tub at 09:00") {
			t.Errorf("agreed %v: said: %q", agreed, notes)
		}
		if p.Count() != 34 {
			t.Errorf("agreed %v: %d of the 34 others are planned", agreed, p.Count())
		}
	}
	h := household.Greens(t, 40)
	h.Say(may(8, 8), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: may(8, 9)}, h.IDs()[:6]...)
	if _, at, _ := planned(t, h, may(8, 8), day.Ask{From: may(8, 9).Add(10 * time.Minute)}).Placed(1); at.Out.Before(may(8, 9).Add(10 * time.Minute)) {
		t.Errorf("out at %v, before the hours begin, and it may stay in", at.Out)
	}
}
