package day_test

import (
	"path/filepath"
	"slices"
	"testing"
	"time"

	"tubside/demo"
	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/store"
	"tubside/tests/household"
)

// moment is a moment of the demo in one of the homes that a seed makes.
type moment struct {
	scene string
	seed  uint64
	now   time.Time
}

// What was made of a moment, for all tests that look at it.
var (
	entriesOf = map[moment][]model.Entry{}
	plansOf   = map[moment]*day.Plan{}
)

// book is the book at the moment, a new one each time.
func (m moment) book(t *testing.T) *model.Book {
	t.Helper()
	if entriesOf[m] == nil {
		s, err := store.Open(filepath.Join(t.TempDir(), "book.db"), store.Options{Begin: true, Zone: time.UTC})
		if err != nil {
			t.Fatal(err)
		}
		defer s.Close()
		if _, err := demo.Build(s, demo.Options{Scene: m.scene, Seed: m.seed, Now: m.now}); err != nil {
			t.Fatal(err)
		}
		entriesOf[m] = s.Book().Entries()
	}
	b, err := model.Replay(entriesOf[m], time.UTC)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// home is the same to be lived in.
func (m moment) home(t *testing.T) household.Home {
	t.Helper()
	return household.Of(m.book(t), t).Followed()
}

// plan is the plan that the house rules have it make. Nobody changes it.
func (m moment) plan(t *testing.T) *day.Plan {
	t.Helper()
	if plansOf[m] == nil {
		plansOf[m] = planned(t, household.Of(m.book(t), t), m.now, day.Ask{})
	}
	return plansOf[m]
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
