package plan_test

import (
	"slices"
	"testing"

	"tubside/model/soak"
	"tubside/tests/household"
)

// What is pulled stands on the floor: it is pulled as late as the hands have time for it.
func TestItIsPulledAsLateAsTheHandsHaveTimeForIt(t *testing.T) {
	eachHome(func(name string, m household.Moment) {
		s := demoDay(t, m)
		for _, pull := range s.plan.Actions {
			if pull.Do != soak.Pull {
				continue
			}
			in := s.plan.Loads[pull.Load].Start
			if gap := longestGap(s.Session, s.plan, pull.Hands, pull.Until, in); gap >= pull.Until-pull.At {
				t.Errorf("%s: pulled until %d for %d, in %d s of work; later the hands have %d s with nothing to do", name, pull.Until, in, pull.Until-pull.At, gap)
			}
		}
	})
}

// longestGap is for how long at most a pair of hands has nothing to do between two times, but hang.
func longestGap(s *soak.Session, p *soak.Plan, pair, from, to int) (gap int) {
	work := slices.Clone(p.Actions)
	slices.SortStableFunc(work, func(a, b soak.Action) int { return a.At - b.At })
	for _, a := range work {
		if a.Do.Hands() && a.Do != soak.Hang && a.Hands == pair && a.Until > from && a.At < to {
			gap, from = max(gap, a.At-from), max(from, a.Until)
		}
	}
	return max(gap, to-from)
}
