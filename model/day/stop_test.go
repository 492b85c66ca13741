package day_test

import (
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/tests/household"
)

// Who stops for the day leaves the rest for another day, and is asked for nothing more.
func TestWhoStopsIsAskedForNothingMore(t *testing.T) {
	h := household.Greens(t, 150)
	h.Say(may(2, 9), &model.RuleSet{Name: "day-loads", Value: 6})
	p, now := agreed(t, h, may(8, 8), day.Ask{}), may(8, 8)
	planned := p.Count()
	for len(h.OpenLoads()) == 0 {
		s := p.Steps[p.Next()]
		now = model.Later(now, s.At)
		does(h, p, s, now)
		p = current(t, h, now)
	}
	ids := day.AllOut(h.Book, now)
	h.Say(now, &model.Out{Shaken: true}, ids...)
	h.Say(now, day.Stop(h.Book, current(t, h, now), now))
	p = current(t, h, now.Add(time.Hour))
	if !p.Stopped.Equal(now) || p.Count() != 0 || len(p.Left) != planned-len(ids) {
		t.Errorf("stopped %v, %d to go in, %d left of %d", p.Stopped, p.Count(), len(p.Left), planned-len(ids))
	}
	for _, s := range p.Steps {
		if !s.Done && s.Do != soak.Hang && s.Do != soak.Empty {
			t.Errorf("asked to %v %s", s.Do, s.Vessel)
		}
	}
}

// A plan that drops plants is still the one that was agreed to, and tells who is to be
// carried back home.
func TestAPlanThatDropsPlantsIsStillTheOneAgreedTo(t *testing.T) {
	h := household.Greens(t, 150)
	h.Say(may(2, 9), &model.RuleSet{Name: "day-loads", Value: 6})
	agreed(t, h, may(8, 8), day.Ask{From: may(8, 8), Until: may(8, 12), DryBy: may(8, 21)})
	h.Say(may(8, 8), &model.Pull{}, h.IDs()...)
	now := may(8, 12)
	p := current(t, h, now)
	h.Say(now, p.Settle(h.Book, now))
	now = now.Add(time.Minute)
	p = current(t, h, now)
	dropped, since := p.Dropped()
	if len(dropped) == 0 || !p.Agreed.Equal(may(8, 8)) || !since.After(may(8, 8)) {
		t.Fatalf("agreed at %v, %d dropped since %v", p.Agreed, len(dropped), since)
	}
	if back := p.Back(h.Book); len(back) != len(p.Left) {
		t.Errorf("%d to carry back, %d have no place", len(back), len(p.Left))
	}
	if !p.MayOffer(h.Book, now) {
		t.Error("plants are dropped, and the loads are not offered to be made up again")
	}
	h.Say(now, day.Stop(h.Book, p, now))
	if now = now.Add(time.Minute); current(t, h, now).MayOffer(h.Book, now) {
		t.Error("stopped, and other ways to have the day are offered")
	}
}

// Who breaks off is told in what order to take out what is in the water, for as long as the
// hands are at that: what is due first, first.
func TestWhoBreaksOffIsToldWhatToTakeOutFirst(t *testing.T) {
	h := household.Greens(t, 12)
	p, now := agreed(t, h, may(8, 8), day.Ask{}), may(8, 9)
	h.Say(may(8, 8), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: may(8, 10)}, h.IDs()[:8]...)
	h.Say(may(8, 8), &model.Soak{Load: h.NextLoad(), Vessel: "bucket 1", Due: may(8, 9)}, h.IDs()[8:]...)
	h.Say(now, model.TakenOut(true), day.AllOut(h.Book, now)...)
	h.Say(now, day.Stop(h.Book, p, now))
	p = current(t, h, now)
	all, until := p.BrokenOff(h.Book, now)
	if len(all) != 2 || all[0].Vessel != "bucket 1" || all[1].Vessel != "tub" || len(all[1].Plants) != 8 || !until.After(now) {
		t.Errorf("to take out, until %v: %v", until, all)
	}
	if all, _ := p.BrokenOff(h.Book, until); len(all) > 0 {
		t.Errorf("when all is out: %v", all)
	}
}

// Hands that took all out when the day broke off have done so two hours later: a plan made then
// has them go on at once.
func TestAPlanAfterBreakingOffGoesOnAtOnce(t *testing.T) {
	m := household.Moment{Scene: "soakday", Seed: 1, Now: time.Date(2026, time.November, 28, 9, 0, 0, 0, time.UTC)}
	h, p := lived(t, m), proposed(t, m)
	h.Say(m.Now, p.Agree(h.Book, m.Now))
	now := m.Now.Add(3 * time.Minute)
	h.Say(now, model.TakenOut(true), day.AllOut(h.Book, now)...)
	h.Say(now, day.Stop(h.Book, p, now))
	now = now.Add(2 * time.Hour)
	for _, s := range planned(t, h, now, day.Ask{}).Steps {
		if s.Do.Hands() && s.Do != soak.Hang && !s.Done {
			if s.At.After(now.Add(5 * time.Minute)) {
				t.Errorf("all was out long ago; the plan of %s goes on at %s", now.Format("15:04"), s.At.Format("15:04"))
			}
			return
		}
	}
	t.Error("the plan has nothing to do")
}
