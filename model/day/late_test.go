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
	"tubside/tests/household"
)

// A plan that is agreed is the one that was shown, and stands for ten minutes of nobody
// doing anything: the same plants in the same loads, later. With -everyday the plan is told
// as it stands later on, beside one made anew. It stands so in other homes too, where the
// slack alone leaves now and then a plant that the rest stands in the way of: see
// TestEveryHomesPlanStandsInFullLoads in tests/plan.
func TestAnAgreedPlanStandsForTenMinutes(t *testing.T) {
	scenes := []string{"homecoming", "soakday", "bench", "first"}
	if testing.Short() {
		scenes = scenes[:1]
	}
	now := time.Date(2026, time.January, 17, 10, 12, 0, 0, time.UTC)
	for _, scene := range scenes {
		m := household.Moment{Scene: scene, Seed: 1, Now: now}
		h, p := lived(t, m), proposed(t, m)
		h.Say(now, p.Agree(h.Book, now))
		lost := -1
		for minutes := 0; lost < 0 && minutes < 60; minutes++ {
			at := now.Add(time.Duration(minutes)*time.Minute - time.Second)
			q, err := day.Kept(context.Background(), h.Keeper(), model.Later(at, now))
			if err != nil {
				t.Fatal(err)
			}
			if q.Lost {
				lost = minutes
			} else if what := otherwise(p, q); what != "" {
				t.Errorf("%s: %d minutes late %s", scene, minutes, what)
			}
		}
		if lost >= 0 && lost <= 10 {
			t.Errorf("%s: %d minutes late a plant is left out", scene, lost)
		}
		t.Logf("%s: %d plants, the first is left out %d minutes late", scene, p.Count(), lost)
		if !*everyDay {
			continue
		}
		for _, late := range []time.Duration{30 * time.Minute, 90 * time.Minute, 4 * time.Hour} {
			at := now.Add(late)
			t.Logf("%s: %v late %d are still to go in, planned again %d", scene, late, current(t, h, at).Count(), planned(t, h, at, day.Ask{}).Count())
		}
	}
}

// otherwise is what of one plan is otherwise in another; "" when the same plants go in the
// same loads in the same order.
func otherwise(p, q *day.Plan) string {
	if len(p.Loads) != len(q.Loads) {
		return fmt.Sprintf("there are %d loads, not %d", len(q.Loads), len(p.Loads))
	}
	for _, l := range p.Loads {
		at, _, ok := q.Placed(l.Plants[0].ID)
		if !ok || q.Loads[at].Vessel != l.Vessel || !slices.Equal(q.Loads[at].IDs(), l.IDs()) {
			return fmt.Sprintf("the load in %s at %s is another one", l.Vessel, l.Start.Format("15:04"))
		}
	}
	return ""
}

// While nobody does anything plants are left out, and none of them comes back by itself.
func TestWhoIsLeftOutStaysLeftOut(t *testing.T) {
	h := household.Greens(t, 150)
	h.Say(may(2, 9), &model.RuleSet{Name: "day-loads", Value: 6})
	p := agreed(t, h, may(8, 8), day.Ask{From: may(8, 8), Until: may(8, 12), DryBy: may(8, 21)})
	all, out := p.Count(), map[model.ID]int{}
	for late := 0; late < 240; late += 3 {
		q := current(t, h, may(8, 8).Add(time.Duration(late)*time.Minute))
		for id, since := range out {
			if _, _, back := q.Placed(id); back {
				t.Fatalf("plant %d is left out %d minutes late, and back %d minutes late", id, since, late)
			}
		}
		for _, l := range q.Left {
			if _, known := out[l.ID]; !known {
				out[l.ID] = late
			}
		}
		if q.Count()+len(q.Left) < all {
			t.Fatalf("%d minutes late: %d planned and %d left out, of %d", late, q.Count(), len(q.Left), all)
		}
	}
	if len(out) < all/2 {
		t.Errorf("four hours late %d of %d are left out: the day shows nothing of it", len(out), all)
	}
}

// Every step a quarter of an hour late: whatever has gone in is out within its window, who
// is left out is said and does not come back, and as many are soaked as hands like these
// have time for, or nearly.
func TestSlowHandsGetEverythingOutInTime(t *testing.T) {
	for _, c := range []struct{ plants, until int }{{30, 15}, {150, 16}, {150, 10}} {
		h := household.Greens(t, c.plants)
		h.Say(may(2, 9), &model.RuleSet{Name: "day-loads", Value: 6})
		p := agreed(t, h, may(8, 8), day.Ask{From: may(8, 8), Until: may(8, c.until), DryBy: may(8, 21)})
		due, in, out := p.Count(), map[model.ID]day.Plant{}, map[model.ID]bool{}
		now, steps := may(8, 8), 0
		for i := p.Next(); i >= 0; i = p.Next() {
			if steps++; steps > 100 {
				t.Fatal("the day does not end")
			}
			now = model.Later(now, p.Steps[i].At).Add(slowBy)
			p = current(t, h, now) // it has slid meanwhile
			if i = p.Next(); i < 0 {
				break
			}
			s := p.Steps[i]
			now = model.Later(now, s.At)
			if tap := p.Beside(now); tap >= 0 { // the board has it in a line of its own
				does(h, p, p.Steps[tap], now)
			}
			if s.Do == soak.PutIn {
				for _, x := range p.Loads[s.Load].Plants {
					in[x.ID] = x
				}
			}
			began := now
			does(h, p, s, now)
			if s.Do == soak.GetOut {
				for _, id := range s.Plants {
					row := h.Row(id)
					if soaked := row.Out.Sub(row.In); soaked > time.Duration(in[id].Most)*time.Second+time.Minute {
						t.Errorf("%d plants: plant %d was in for %v, at most %d s", c.plants, id, soaked, in[id].Most)
					}
				}
			}
			if now = model.Later(now, s.Until); s.Do.Hands() { // they have only now begun
				now = model.Later(now, began.Add(s.Until.Sub(s.At)))
			}
			p = current(t, h, now)
			for id := range out {
				if _, _, back := p.Placed(id); back {
					t.Fatalf("%d plants: plant %d was left out and is back at %s", c.plants, id, now.Format("15:04"))
				}
			}
			for _, l := range p.Left {
				out[l.ID] = true
			}
		}
		if n := len(h.OpenLoads()); n > 0 {
			t.Errorf("%d plants: %d loads are still in the water", c.plants, n)
		}
		if len(in)+len(p.Left) < due {
			t.Errorf("%d plants: %d planned, %d soaked and %d said to be left out", c.plants, due, len(in), len(p.Left))
		}
		most, atLeast := due, due
		if c.until == 10 { // the plan has two buckets filled first, before it knows these hands: 3 in 5 of what they could do
			most = bySlowHands(h, may(8, 8), may(8, c.until))
			atLeast = most * 3 / 5
		}
		if len(in) < atLeast {
			t.Errorf("%d plants until %d:00: %d are soaked, hands like these have time for %d at most", c.plants, c.until, len(in), most)
		}
		t.Logf("%d plants until %d:00: %d planned, %d soaked, at most %d, done at %s", c.plants, c.until, due, len(in), most, now.Format("15:04"))
	}
}

// slowBy is how late hands are with every step.
const slowBy = 15 * time.Minute

// bySlowHands is how many plants can go in at most by hands that are late with every step,
// in hours too short for a second load into a vessel: they fill the largest, and pull and
// put in as much as there is time for. A load into a smaller one takes three steps more, in
// which they could do a hundred plants.
func bySlowHands(h household.Home, from, until time.Time) int {
	tub := slices.MaxFunc(h.Vessels(), func(a, b model.Vessel) int { return int(a.Litres - b.Litres) })
	row := h.Row(1)
	hands := estimate.HandsFor(row.Plant, h.Rules())
	left := until.Sub(from) - 3*slowBy - time.Duration(h.Rules().FillMinutes(tub)*float64(time.Minute))
	byHands := int(left.Seconds()) / (hands.Pull + hands.In)
	return min(byHands, int(tub.Litres/estimate.Bulk(row.Plant)))
}

// What goes in has its clock from then on, so what was written down in the same minute
// before it is done: a plan made anew, with slack for hands that begin ten minutes later, has
// nobody in the water for longer than that beyond the most.
func TestOutAndInOfOneMinute(t *testing.T) {
	m := household.Moment{Scene: "homecoming", Seed: 1, Now: time.Date(2026, time.November, 28, 8, 50, 0, 0, time.UTC)}
	h, p := lived(t, m), proposed(t, m)
	h.Say(m.Now, p.Agree(h.Book, m.Now))
	at := time.Time{}
	for _, s := range p.Steps {
		switch {
		case s.Vessel != "tub":
		case s.Do == soak.GetOut && at.IsZero() && h.Row(s.Plants[0]).State == model.Soaking:
			at = m.Now.Add(74 * time.Minute)
			does(h, p, s, at)
		case s.Do == soak.PutIn && !at.IsZero() && len(h.OpenLoads()) == 0:
			does(h, p, s, at)
		}
	}
	now := at.Add(6 * time.Minute)
	q, err := day.NewPlan(context.Background(), h.Keeper(), now, day.Ask{})
	if err != nil {
		t.Fatal(err)
	}
	if len(h.OpenLoads()) != 1 {
		t.Fatalf("%d loads in the water, not one", len(h.OpenLoads()))
	}
	for _, l := range q.Late {
		if l.Late.Over > 600 {
			t.Errorf("plant %d stays in for %d s too long", l.ID, l.Late.Over)
		}
	}
}

// Whom a plan dropped a new plan may still take: that is offered as long as it is so, also
// after the next thing was done.
func TestLoadsMadeAgainAreOfferedUntilTheyAreTaken(t *testing.T) {
	m := household.Moment{Scene: "bench", Seed: 1, Now: time.Date(2026, time.November, 28, 9, 0, 0, 0, time.UTC)}
	h, p := lived(t, m), proposed(t, m)
	h.Say(m.Now, p.Agree(h.Book, m.Now))
	offered := func(now time.Time) bool {
		p = current(t, h, now)
		return slices.ContainsFunc(day.Offers(context.Background(), h.Keeper(), now, p), func(o day.Offer) bool { return o.What == day.MadeAgain })
	}
	now := m.Now.Add(95 * time.Minute)
	if !offered(now) {
		t.Fatal("nothing is offered")
	}
	does(h, p, p.Steps[p.Next()], now)
	if now = now.Add(time.Minute); !offered(now) {
		t.Error("it is offered no more once the next thing is done")
	}
}
