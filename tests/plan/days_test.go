package plan_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"tubside/demo"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/tests/household"
	"tubside/tests/plan/sample"
)

// forenoon is the moment at which the demo's days are planned.
var forenoon = time.Date(2026, time.January, 17, 10, 12, 0, 0, time.UTC)

// begun is its second of the day.
const begun = 10*hour + 12*minute

// home is a scene of the demo in the forenoon, in the home that a seed makes.
func home(scene string, seed uint64) household.Moment {
	return household.Moment{Scene: scene, Seed: seed, Now: forenoon}
}

// inHomes is how many homes each scene is looked at in; one in short runs.
func inHomes() uint64 {
	if testing.Short() {
		return 1
	}
	return 6
}

// eachHome has every scene of the demo in several homes.
func eachHome(each func(name string, m household.Moment)) {
	for _, scene := range demo.Scenes {
		for seed := range inHomes() {
			each(fmt.Sprintf("%s %d", scene.Name, seed+1), home(scene.Name, seed+1))
		}
	}
}

// arranged is a day in numbers, and the usual plan of it. What several tests look at is
// planned once, and nobody changes it.
type arranged struct {
	*soak.Session
	plan *soak.Plan
}

var (
	days     = map[household.Moment]arranged{}
	samples  = map[uint64]arranged{}
	proposed = map[household.Moment]*day.Plan{}
)

// demoDay is the day's part of a moment of the demo.
func demoDay(t *testing.T, m household.Moment) arranged {
	t.Helper()
	if days[m].plan == nil {
		s, err := day.Session(household.Of(m.Book(t), t).Keeper(), m.Now, day.Ask{From: m.Now})
		if err != nil {
			t.Fatal(err)
		}
		days[m] = arranged{s, arrange(t, s, soak.Effort{})}
	}
	return days[m]
}

// sampleDay is an invented collection of 640 plants.
func sampleDay(t *testing.T, seed uint64) arranged {
	t.Helper()
	if samples[seed].plan == nil {
		s := sample.Collection(640, seed)
		samples[seed] = arranged{s, arrange(t, s, soak.Effort{})}
	}
	return samples[seed]
}

// propose is the plan that the house rules make at a moment.
func propose(t *testing.T, m household.Moment) *day.Plan {
	t.Helper()
	if proposed[m] == nil {
		proposed[m] = planAt(t, household.Of(m.Book(t), t), m.Now)
	}
	return proposed[m]
}

// planAt is a plan of a home made at a time.
func planAt(t *testing.T, h household.Home, now time.Time) *day.Plan {
	t.Helper()
	p, err := day.NewPlan(context.Background(), h.Keeper(), now, day.Ask{})
	if err != nil {
		t.Fatal(err)
	}
	return p
}
