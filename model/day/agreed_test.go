package day_test

import (
	"context"
	"slices"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/tests/household"
)

// agreed is a household whose plan the grower has said yes to at a time.
func agreed(t *testing.T, h household.Home, now time.Time, ask day.Ask) *day.Plan {
	t.Helper()
	p := planned(t, h, now, ask)
	h.Say(now, p.Agree(h.Book, now))
	return current(t, h, now)
}

// current is the agreed plan as it stands.
func current(t *testing.T, h household.Home, now time.Time) *day.Plan {
	t.Helper()
	p, err := day.Current(context.Background(), h.Keeper(), now)
	if err != nil || p == nil {
		t.Fatalf("the agreed plan at %v: %v, %v", now, p, err)
	}
	return p
}

func TestAnAgreedPlanIsTheSameHoweverOftenItIsAskedFor(t *testing.T) {
	h := household.Greens(t, 40)
	p := planned(t, h, may(8, 8), day.Ask{})
	h.Say(may(8, 8), p.Agree(h.Book, may(8, 8)))
	now := current(t, h, may(8, 8))
	if len(now.Loads) != len(p.Loads) {
		t.Fatalf("%d loads agreed, %d shown", len(p.Loads), len(now.Loads))
	}
	for i := range p.Loads {
		if !slices.Equal(p.Loads[i].IDs(), now.Loads[i].IDs()) || !p.Loads[i].Out.Equal(now.Loads[i].Out) {
			t.Errorf("load %d is another one", i+1)
		}
	}
	if n := now.News(h.Book); len(n.Lost) > 0 || n.Vessel != "" {
		t.Errorf("news: %+v", n)
	}
	if k := estimate.New(h.Book); k != nil {
		if next, err := day.Current(context.Background(), k, may(9, 8)); err != nil || next != nil {
			t.Errorf("the day after: %v, %v", next, err)
		}
	}
	h.Say(may(8, 9), &model.Agreed{})
	if gone, _ := day.Current(context.Background(), estimate.New(h.Book), may(8, 9)); gone != nil {
		t.Error("a plan given up is still there")
	}
}

func TestALoadForAnotherDayAndAQuarterOfAnHourLater(t *testing.T) {
	h := household.Greens(t, 40)
	p := agreed(t, h, may(8, 8), day.Ask{})
	first := p.Loads[0].Plants[0].ID
	h.Say(may(8, 8), p.Skip(h.Book, may(8, 8), p.Loads[0].IDs()...))
	p = current(t, h, may(8, 8))
	if _, _, placed := p.Placed(first); placed || !slices.ContainsFunc(p.Left, func(l day.LeftOut) bool { return l.ID == first && l.Skipped }) {
		t.Errorf("the load is still there, or not said to be left")
	}
	h = household.Greens(t, 12)
	p = agreed(t, h, may(8, 8), day.Ask{})
	h.Say(may(8, 8), p.Later(h.Book, may(8, 8), 15*time.Minute))
	if again := current(t, h, may(8, 8)); again.Steps[again.Next()].Do.Hands() && again.Steps[again.Next()].At.Before(may(8, 8).Add(15*time.Minute)) {
		t.Errorf("the hands begin at %v", again.Steps[again.Next()].At)
	}
}

// What is out stays ticked off, also after the plan is agreed anew.
func TestWhatIsDoneStaysTickedOff(t *testing.T) {
	h := household.Greens(t, 12)
	p := agreed(t, h, may(8, 8), day.Ask{})
	for i := p.Next(); i >= 0; i = p.Next() {
		s := p.Steps[i]
		does(h, p, s, model.Later(s.At, may(8, 8)))
		p = current(t, h, model.Later(s.Until, may(8, 8)))
		if s.Do == soak.GetOut {
			break
		}
	}
	if len(p.Loads) == 0 || !p.Loads[0].Done {
		t.Fatalf("loads %+v", p.Loads)
	}
	h.Say(p.Ask.From, p.Later(h.Book, p.Ask.From, time.Minute))
	if again := current(t, h, p.Ask.From); !again.Loads[0].Done {
		t.Error("agreed anew, the load that is out is not ticked off")
	}
}

func TestEverythingOutComesInTheSafestOrder(t *testing.T) {
	h := household.Greens(t, 9)
	h.Say(may(7, 8), &model.Trouble{What: model.Scale}, 1)
	h.Say(may(8, 8), &model.Soak{Load: h.NextLoad(), Vessel: "bucket 1", Due: may(8, 9)}, 1)
	h.Say(may(8, 8), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: may(8, 11)}, 2, 3)
	h.Say(may(8, 8), &model.Soak{Load: h.NextLoad(), Vessel: "bucket 2", Due: may(8, 10)}, 4)
	if got, want := day.AllOut(h.Book, may(8, 9)), (model.IDs{4, 2, 3, 1}); !slices.Equal(got, want) {
		t.Errorf("order %v, want %v: due first, what has scale last", got, want)
	}
}

// A load for the night is part of the agreed plan until it is out in the morning.
func TestTheNightsLoadIsFollowedIntoTheMorning(t *testing.T) {
	h := household.Greens(t, 3)
	h.Say(may(7, 9), &model.Look{Signs: model.Signs{Curl: 3, Tips: 3, Shift: model.NotSeen}}, 1, 2, 3)
	h.Say(may(25, 9), &model.Note{Text: "away"})
	now := may(25, 9)
	p := agreed(t, h, now, day.Ask{})
	if len(p.Loads) != 1 || !p.Loads[0].Night {
		t.Fatalf("loads %+v", p.Loads)
	}
	for steps := 0; p.Next() >= 0; steps++ {
		if steps > 10 {
			t.Fatalf("the night does not end: %v, %+v", now, p.Steps)
		}
		s := p.Steps[p.Next()]
		if s.Do == soak.GetOut {
			if !s.At.Equal(may(26, 6)) {
				t.Errorf("it comes out at %v, not at six", s.At)
			}
			p = current(t, h, may(25, 23)) // asked for in the night: nothing has changed
			if again := p.Steps[p.Next()]; !again.At.Equal(s.At) || len(p.Left) > 0 || len(p.Late) > 0 {
				t.Errorf("at night: %+v, left out %v, late %v", again, p.Left, p.Late)
			}
		}
		now = model.Later(now, s.At)
		does(h, p, s, now)
		now = model.Later(now, s.Until)
		p = current(t, h, now)
	}
	if row := h.Row(1); row.Out.Before(may(26, 6)) || row.Minutes < 480 || row.Minutes > 720 {
		t.Errorf("out at %v after %v minutes", row.Out, row.Minutes)
	}
}

// Whatever is out of the water and not home yet is hung by a step of the plan, or
// named for the morning: a plan is never done with plants on the rack and no word.
func TestWhatDriesIsHungOrNamedForTheMorning(t *testing.T) {
	h := household.Greens(t, 150)
	h.Say(may(2, 9), &model.RuleSet{Name: "day-loads", Value: 6})
	last := h.IDs()[:10] // of the evening before
	h.Say(may(7, 16), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: may(7, 17)}, last...)
	h.Say(may(7, 17), &model.Out{Shaken: true}, last...)
	now, hung, named := may(8, 8), 0, 0
	p := agreed(t, h, now, day.Ask{From: now, Until: may(8, 20), DryBy: may(8, 23)})
	for i := p.Next(); i >= 0; i = p.Next() {
		now = model.Later(now, p.Steps[i].Until)
		if does(h, p, p.Steps[i], now); p.Steps[i].Do == soak.Hang {
			hung += len(p.Steps[i].Plants)
		}
		p = current(t, h, now)
		times := map[model.ID]int{}
		for _, id := range p.Morning {
			times[id]++
		}
		for _, s := range p.Steps {
			if s.Do == soak.Hang && !s.Done {
				for _, id := range s.Plants {
					times[id]++
				}
			}
		}
		named = len(p.Morning)
		for _, id := range h.IDs() {
			if out := h.Row(id).State == model.Drying || h.Row(id).State == model.Dry; out && times[id] != 1 {
				t.Fatalf("at %v plant %d is on the rack and hung %d times", now, id, times[id])
			}
		}
	}
	if hung == 0 || named == 0 {
		t.Errorf("%d hung by a step, %d named for the morning: the day does not show it", hung, named)
	}
}
