package day_test

import (
	"slices"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/tests/household"
)

// lived is a home of the demo at a moment, to be lived in.
func lived(t *testing.T, m household.Moment) household.Home {
	t.Helper()
	return household.Of(m.Book(t), t).Followed()
}

var plans = map[household.Moment]*day.Plan{}

// proposed is the plan that the house rules make at a moment, made once. Nobody changes it.
func proposed(t *testing.T, m household.Moment) *day.Plan {
	t.Helper()
	if plans[m] == nil {
		plans[m] = planned(t, household.Of(m.Book(t), t), m.Now, day.Ask{})
	}
	return plans[m]
}

// does does a step of a plan at a time, as the board writes it.
func does(h household.Home, p *day.Plan, s day.Step, at time.Time) {
	if a := p.Settle(h.Book, at); a != nil {
		h.Say(at, a)
	}
	switch s.Do {
	case soak.Fill:
		h.Say(at, &model.Fill{Vessel: s.Vessel})
	case soak.Empty:
		h.Say(at, &model.Drain{Vessel: s.Vessel})
	case soak.Pull:
		h.Say(at, &model.Pull{}, s.Plants...)
	case soak.PutIn:
		l := p.Loads[s.Load]
		h.Say(at, &model.Soak{Load: h.NextLoad(), Vessel: s.Vessel, Due: at.Add(l.Out.Sub(l.Start))}, s.Plants...)
	case soak.GetOut:
		takeOut(h, p.Loads[s.Load], s.Plants, at)
	case soak.Hang:
		for _, id := range s.Plants {
			if h.Row(id).State == model.Drying {
				h.Say(at, &model.FoundDry{}, id)
			}
		}
		h.Say(at, &model.Hung{}, s.Plants...)
	}
}

// takeOut has plants laid where the plan says, one entry a place.
func takeOut(h household.Home, l day.Load, ids model.IDs, at time.Time) {
	var names []string
	on := map[string]model.IDs{}
	for _, x := range l.Plants {
		if !slices.Contains(ids, x.ID) {
			continue
		}
		if on[x.Bench] == nil {
			names = append(names, x.Bench)
		}
		on[x.Bench] = append(on[x.Bench], x.ID)
	}
	for _, name := range names {
		out := model.TakenOut(true)
		out.Bench = name
		h.Say(at, out, on[name]...)
	}
}
