package day_test

import (
	"context"
	"fmt"
	"slices"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/store"
)

// onTime is a hand that does what the plan says when it says so, and writes it down when it
// begins with it, or when it is done.
type onTime struct {
	*store.Store
	t     *testing.T
	k     *estimate.Keeper
	ended bool
	late  int
}

func (h *onTime) say(at time.Time, f model.Fact, ids ...model.ID) {
	h.t.Helper()
	if _, err := h.Append(model.NewEntry(at, f, ids...)); err != nil {
		h.t.Fatalf("%s: %s: %v", at.Format("15:04:05"), f.Kind(), err)
	}
	h.k.Follow(h.Book().Entries()[len(h.Book().Entries())-1])
}

// at is when a step is written down.
func (h *onTime) at(s day.Step) time.Time {
	if h.ended && s.Do != soak.PutIn && s.Do != soak.Fill {
		return s.Until
	}
	return s.At
}

// does writes a step down, as the sheet has it.
func (h *onTime) does(p *day.Plan, s day.Step, at time.Time) {
	switch s.Do {
	case soak.Fill:
		h.say(at, &model.Fill{Vessel: s.Vessel})
	case soak.Empty:
		h.say(at, &model.Drain{Vessel: s.Vessel})
	case soak.Pull:
		h.say(at, &model.Pull{}, s.Plants...)
	case soak.PutIn:
		l := p.Loads[s.Load]
		h.say(at, &model.Soak{Load: h.Book().NextLoad(), Vessel: s.Vessel, Due: at.Add(l.Out.Sub(l.Start))}, s.Plants...)
	case soak.GetOut:
		h.takeOut(p.Loads[s.Load], s.Plants, at)
	case soak.Hang:
		for _, id := range s.Plants {
			if h.Book().Row(id).State == model.Drying {
				h.say(at, &model.FoundDry{}, id)
			}
		}
		h.say(at, &model.Hung{}, s.Plants...)
	}
}

// takeOut has plants laid where the plan says, one entry a place.
func (h *onTime) takeOut(l day.Load, ids model.IDs, at time.Time) {
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
		h.say(at, out, on[name]...)
	}
}

// A plan that was agreed is kept by hands that are on time: each step done at its time as
// the plan says, nobody is dropped, and nobody is in the water for longer or shorter than
// they may be.
func TestHandsThatAreOnTimeLoseNobody(t *testing.T) {
	scenes, seeds := []string{"homecoming", "soakday", "first", "bench", "rotwatch"}, uint64(3)
	if testing.Short() {
		scenes, seeds = scenes[:1], 1 // which has most in it
	}
	now := time.Date(2026, time.November, 28, 9, 0, 0, 0, time.UTC)
	for seed := uint64(1); seed <= seeds; seed++ {
		for _, scene := range scenes {
			for _, ended := range []bool{false, true} {
				t.Run(fmt.Sprintf("%s/%d/%v", scene, seed, ended), func(t *testing.T) {
					h := &onTime{Store: demoBook(t, scene, seed, now), t: t, ended: ended}
					h.live(now)
				})
			}
		}
	}
}

// live lives a day as the sheet printed in the morning has it.
func (h *onTime) live(now time.Time) {
	h.k = estimate.New(h.Book())
	p, err := day.NewPlan(context.Background(), h.k, now, day.Ask{})
	if err != nil {
		h.t.Fatal(err)
	}
	h.late = len(p.Late)
	h.say(now, p.Agree(h.Book(), now))
	steps := slices.Clone(p.Steps)
	slices.SortStableFunc(steps, func(a, b day.Step) int { return h.at(a).Compare(h.at(b)) })
	for _, s := range steps {
		now = model.Later(now, h.at(s))
		h.look(now)
		h.does(p, s, now)
		h.look(now)
	}
	if n := len(h.Book().OpenLoads()); n > 0 {
		h.t.Errorf("%d loads are in the water", n)
	}
}

// look has the plan as it stands: nobody is dropped, and nobody leaves the window.
func (h *onTime) look(now time.Time) {
	h.t.Helper()
	p, err := day.Kept(context.Background(), h.k, now)
	if err != nil || p == nil {
		h.t.Fatalf("%v: %v, %v", now, p, err)
	}
	if n := p.News(h.Book()); len(n.Lost) > 0 || len(p.Late) > h.late {
		h.t.Fatalf("%s: %d plants are dropped: %v; %d are late, not %d", now.Format("15:04:05"), len(n.Lost), n.Lost, len(p.Late), h.late)
	}
}
