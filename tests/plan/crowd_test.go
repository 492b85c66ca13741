package plan_test

import (
	"context"
	"flag"
	"fmt"
	"testing"
	"time"

	"tubside/demo"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/tests/household"
	"tubside/tests/plan/check"
)

var crowds = flag.Uint64("crowds", 2, "in how many homes each scene is looked at for how many dry at once")

// No plan promises that plants are dry from a crowd smaller than it makes: every scene of
// the demo, planned at three hours of the day with one pair of hands and with two, and with
// other times as nothing is done of it for a while.
func TestNoPlanDriesMoreAtOnceThanItsTimesAreFor(t *testing.T) {
	for _, scene := range demo.Scenes {
		for seed := range *crowds {
			for _, now := range []time.Time{at(8, 50), at(10, 12), at(15, 0)} {
				m := household.Moment{Scene: scene.Name, Seed: seed + 1, Now: now}
				if testing.Short() && m != (household.Moment{Scene: "soakday", Seed: 1, Now: at(10, 12)}) {
					continue
				}
				h := household.Of(m.Book(t), t).Followed()
				for _, ask := range []day.Ask{{}, {Help: []day.Stretch{{From: now, Until: at(18, 0)}}}} {
					t.Run(fmt.Sprintf("%s %d %s %d", scene.Name, seed+1, now.Format("15:04"), 1+len(ask.Help)), func(t *testing.T) {
						s, err := day.Session(h.Keeper(), now, ask)
						if err != nil {
							t.Fatal(err)
						}
						slides(t, s, arrange(t, s, soak.Effort{}))
					})
				}
			}
		}
	}
}

// at is a time of the day at which the demo's days are planned.
func at(hour, minute int) time.Time { return time.Date(2026, 1, 17, hour, minute, 0, 0, time.UTC) }

// slides holds a plan against every rule when nothing is done of it for a while.
func slides(t *testing.T, s *soak.Session, p *soak.Plan) {
	t.Helper()
	for _, late := range []int{5 * minute, 90 * minute} {
		behind := deep(s)
		behind.Hours[0].From = min(behind.Hours[0].From+late, behind.Hours[0].To-1)
		q, err := soak.Slide(context.Background(), behind, before(p))
		if err != nil {
			t.Fatal(err)
		}
		for _, fault := range check.Plan(behind, q) {
			t.Errorf("%d s late: %s", late, fault)
		}
	}
}

// before is a plan as one that was made earlier.
func before(p *soak.Plan) soak.Before {
	b := soak.Before{AtOnce: p.AtOnce, Order: p.Order, New: true}
	for _, l := range p.Loads {
		was := soak.LoadBefore{Vessel: l.Vessel, Given: l.Given}
		for _, x := range l.Plants {
			if x.Index >= 0 {
				was.IDs = append(was.IDs, x.ID)
			}
		}
		b.Loads = append(b.Loads, was)
	}
	return b
}
