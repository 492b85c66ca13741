package day_test

import (
	"context"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/tests/household"
)

// A load comes out when the agreed plan has it come out, and is not late while the hands are at
// it; it is as soon as they should have been done, though the plan has slid on.
func TestALoadLeavesTheWaterWhenThePlanHasIt(t *testing.T) {
	now := time.Date(2026, time.November, 28, 9, 0, 0, 0, time.UTC)
	m := household.Moment{Scene: "homecoming", Seed: 1, Now: now}
	h := &onTime{Home: lived(t, m), t: t, ended: true}
	p := proposed(t, m)
	h.Say(now, p.Agree(h.Book, now))
	kept := func(at time.Time) *day.Plan {
		p, err := day.Kept(context.Background(), h.Keeper(), at)
		if err != nil || p.Next() < 0 {
			t.Fatal(p, err)
		}
		return p
	}
	looked := 0
	for at := now; looked < 2; {
		p := kept(at)
		s := p.Steps[p.Next()]
		if at = model.Later(at, h.at(s)); s.Do == soak.GetOut {
			looked++
			h.leaves(p, s, kept)
		}
		does(h.Home, p, s, at)
	}
}

func (h *onTime) leaves(p *day.Plan, s day.Step, kept func(time.Time) *day.Plan) {
	h.t.Helper()
	id := h.Row(s.Plants[0]).Load
	takes := s.Until.Sub(s.At)
	for _, share := range []time.Duration{10, 50, 90, 100, 130} {
		at := s.At.Add(takes * share / 100)
		out, planned := kept(at).Leaving(h.Book)[id]
		late := max(0, at.Sub(s.Until))
		switch {
		case !planned && late == 0:
			h.t.Errorf("%s: the plan does not have load %d come out", at.Format("15:04:05"), id)
		case planned && (!out.From.Equal(s.At) || !out.Until.Equal(s.Until) || out.ByNow(at) != (share < 100) || out.Late(at) != late):
			h.t.Errorf("%s: load %d comes out from %s until %s, %v late; it was to be from %s until %s", at.Format("15:04:05"), id,
				out.From.Format("15:04:05"), out.Until.Format("15:04:05"), out.Late(at), s.At.Format("15:04:05"), s.Until.Format("15:04:05"))
		}
	}
}
