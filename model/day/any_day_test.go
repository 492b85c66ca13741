package day_test

import (
	"context"

	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/tests/household"
)

// anyDay is a soak day that is lived with whatever may happen in it.
type anyDay struct {
	household.Home
	t      *rapid.T
	now    time.Time
	plan   *day.Plan // as it stands
	agreed model.IDs // ever planned
	out    map[model.ID]bool
}

// look has the plan as it stands, and holds it to what must be true of any.
func (d *anyDay) look() {
	p, err := day.Current(context.Background(), d.Keeper(), d.now)
	if err != nil || p == nil {
		d.t.Fatalf("%s: the agreed plan: %v, %v", d.now.Format("15:04"), p, err)
	}
	d.plan = p
	if what := disorder(p); what != "" {
		d.t.Fatalf("%s: %s", d.now.Format("15:04"), what)
	}
	left := map[model.ID]bool{}
	for _, l := range p.Left {
		left[l.ID] = true
	}
	for id := range d.out {
		if _, _, back := p.Placed(id); back && !left[id] {
			d.t.Fatalf("%s: plant %d was left out, and is back", d.now.Format("15:04"), id)
		}
	}
	d.out = left
	for _, id := range d.agreed {
		if _, _, placed := p.Placed(id); !placed && !left[id] && d.Row(id).State == model.AtHome && d.Row(id).Out.Before(may(8, 0)) {
			d.t.Fatalf("%s: plant %d was planned, and is neither soaked nor left out", d.now.Format("15:04"), id)
		}
	}
	if !d.Tally().Adds() {
		d.t.Fatalf("%s: the counts do not add up: %+v", d.now.Format("15:04"), d.Tally())
	}
}

// agree says yes to a plan made now.
func (d *anyDay) agree(ask day.Ask) {
	p, err := day.NewPlan(context.Background(), d.Keeper(), d.now, ask)
	if err != nil {
		d.t.Fatal(err)
	}
	d.Say(d.now, p.Agree(d.Book, d.now))
	d.out = nil // whoever was left out may have a place again: it was asked for
	for _, l := range p.Loads {
		d.agreed = append(d.agreed, l.IDs()...)
	}
	d.look()
}

// restart reads the book again: the plan is the same.
func (d *anyDay) restart() {
	b, err := model.Replay(d.Entries(), d.Zone())
	if err != nil {
		d.t.Fatal(err)
	}
	p, err := day.Current(context.Background(), estimate.New(b), d.now)
	if err != nil || !reflect.DeepEqual(p.Steps, d.plan.Steps) || !reflect.DeepEqual(p.Left, d.plan.Left) {
		d.t.Fatalf("%s: after a restart the plan is another one: %v", d.now.Format("15:04"), err)
	}
}

// do does the next thing, late. Whoever stays in the water too long by that was said to.
func (d *anyDay) do(late time.Duration) {
	i := d.plan.Next()
	d.now = model.Later(d.now, d.plan.Steps[i].At)
	if d.plan.Steps[i].Do != soak.GetOut {
		d.now = d.now.Add(late)
		d.look()
		if i = d.plan.Next(); i < 0 {
			return
		}
	}
	s, said := d.plan.Steps[i], map[model.ID]bool{}
	d.now = model.Later(d.now, s.At)
	for _, l := range d.plan.Late {
		said[l.ID] = true
	}
	does(d.Home, d.plan, s, d.now)
	if s.Do == soak.GetOut {
		for _, x := range d.plan.Loads[s.Load].Plants {
			in := d.Row(x.ID).Out.Sub(d.Row(x.ID).In)
			if over := in - time.Duration(x.Most)*time.Second; over > time.Minute && !said[x.ID] {
				d.t.Fatalf("%s: plant %d was in for %v, %v too long, and nobody said so", d.now.Format("15:04"), x.ID, in, over)
			}
			if under := time.Duration(x.Least)*time.Second - in; under > time.Minute {
				d.t.Fatalf("%s: plant %d was in for %v, %v too short", d.now.Format("15:04"), x.ID, in, under)
			}
		}
	}
	d.now = model.Later(d.now, s.Until)
	d.look()
}

// Any day, with hands late as they like, loads skipped, breaks, restarts, and plans made
// again in the middle: every plant that was planned is soaked for as long as it may be, or
// left out by name; nobody comes back without being asked for; two hands can do it; and
// the counts are right all through.
func TestAnyDayEndsWithEverythingOutOrLeftOut(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(8, 150).Draw(rt, "plants")
		d := &anyDay{Home: household.Greens(t, n).Followed(), t: rt, now: may(8, 8)}
		d.Say(may(2, 9), &model.RuleSet{Name: "day-loads", Value: float64(rapid.IntRange(2, 6).Draw(rt, "loads"))})
		if k := rapid.IntRange(0, 5).Draw(rt, "newcomers"); k > 0 {
			d.Say(may(2, 9), &model.Quarantine{}, d.IDs()[:k]...)
		}
		d.agree(day.Ask{From: may(8, 8), Until: may(8, rapid.IntRange(10, 18).Draw(rt, "until")), DryBy: may(8, 21)})
		for steps := 0; d.plan.Next() >= 0; steps++ {
			if steps > 150 {
				rt.Fatal("the day does not end")
			}
			switch what := rapid.IntRange(0, 19).Draw(rt, "what"); what {
			case 0:
				d.now = d.now.Add(time.Duration(rapid.IntRange(1, 90).Draw(rt, "idle")) * time.Minute)
				d.look()
			case 1:
				d.restart()
			case 2:
				for load, l := range d.plan.Loads {
					if l.ToCome() {
						d.Say(d.now, d.plan.Skip(d.Book, d.now, d.plan.Loads[load].IDs()...))
						break
					}
				}
				d.look()
			case 3:
				d.Say(d.now, d.plan.Later(d.Book, d.now, 15*time.Minute))
				d.look()
			case 4:
				if d.now.Before(may(8, 9)) {
					d.agree(d.plan.Ask)
				}
			default:
				d.do(time.Duration(rapid.IntRange(0, 25).Draw(rt, "late")) * time.Minute)
			}
		}
		if open := d.OpenLoads(); len(open) > 0 {
			rt.Fatalf("all is done, and %d loads are in the water", len(open))
		}
	})
}
