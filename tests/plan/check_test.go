package plan_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"tubside/model/soak"
	"tubside/tests/plan/check"
)

// busyDay has something of everything that a rule is about.
func busyDay() *soak.Session {
	s := bathroom(with(rosettes(30), func(i int, it *soak.Item) {
		it.BenchRoom = 1
		it.Fed = i == 29
		switch {
		case i >= 26 && i < 28:
			it.Company = soak.Sick
		case i == 28:
			it.Company = soak.Newcomer
		case i >= 14 && i < 26:
			it.Least, it.Most = 200*minute, 260*minute
		}
	})...)
	s.Vessels[0].Loads, s.Vessels[0].Water = 2, nil
	s.Vessels = append(s.Vessels, soak.Vessel{Room: 5, Fill: 3 * minute, Rinse: minute, Fed: true}, soak.Vessel{Room: 12, Fill: 2 * minute, Rinse: minute})
	s.Benches = []soak.Bench{{Room: 40, Factor: 0.5}}
	s.Room = func(n int) float64 { return 1 + float64(n)/100 }
	s.Hours = []soak.Hours{{From: 9 * hour, To: 12 * hour, DryBy: 21 * hour}, {From: 13 * hour, To: 17 * hour, DryBy: 21 * hour}}
	s.Limits = soak.Limits{Loads: 4, Plants: 3, Share: 0.05}
	return s
}

// first is the first load of a company.
func first(p *soak.Plan, c soak.Company, fed bool) *soak.Load {
	return &p.Loads[slices.IndexFunc(p.Loads, func(l soak.Load) bool { return l.Company == c && l.Fed == fed })]
}

// action is the first of a kind.
func action(p *soak.Plan, do soak.Do) *soak.Action {
	return &p.Actions[slices.IndexFunc(p.Actions, func(a soak.Action) bool { return a.Do == do })]
}

// Each rule broken once, by hand: the checker says so.
func TestTheCheckerSeesEveryBrokenRule(t *testing.T) {
	for _, broken := range []struct {
		says  string
		spoil func(s *soak.Session, p *soak.Plan)
	}{
		{"planned or left out 0 times", func(_ *soak.Session, p *soak.Plan) { l := first(p, soak.Healthy, false); l.Plants = l.Plants[1:] }},
		{"planned or left out 2 times", func(_ *soak.Session, p *soak.Plan) { p.Left = append(p.Left, soak.LeftOut{ID: 1}) }},
		{"soaks", func(_ *soak.Session, p *soak.Plan) { first(p, soak.Healthy, false).Plants[2].Out -= 190 * minute }},
		{"soaks", func(_ *soak.Session, p *soak.Plan) { first(p, soak.Healthy, false).Plants[2].Out += 250 * minute }},
		{"not in its turn", func(_ *soak.Session, p *soak.Plan) { first(p, soak.Healthy, false).Plants[1].In++ }},
		{"not in its turn", func(_ *soak.Session, p *soak.Plan) { first(p, soak.Healthy, false).Plants[1].Out++ }},
		{"in a load of", func(_ *soak.Session, p *soak.Plan) { first(p, soak.Newcomer, false).Company = soak.Suspect }},
		{"before all are in", func(_ *soak.Session, p *soak.Plan) {
			l := first(p, soak.Healthy, false)
			l.Out = l.Start + 10
		}},
		{"its vessel", func(_ *soak.Session, p *soak.Plan) { first(p, soak.Healthy, true).Vessel = 0 }},
		{"plants, too few", func(s *soak.Session, _ *soak.Plan) { s.Limits.Plants, s.Limits.Loads = 20, 0 }},
		{"litres of", func(s *soak.Session, _ *soak.Plan) {
			s.Limits.Share, s.Vessels = 0.99, append(s.Vessels, soak.Vessel{Room: 0.1})
		}},
		{"loads, at most", func(s *soak.Session, _ *soak.Plan) { s.Limits.Loads = 1 }},
		{"is done 0 times", func(_ *soak.Session, p *soak.Plan) { action(p, soak.Pull).Do = soak.Hang }},
		{"is done 2 times", func(_ *soak.Session, p *soak.Plan) { p.Actions = append(p.Actions, *action(p, soak.GetOut)) }},
		{"pulled by", func(_ *soak.Session, p *soak.Plan) { a := action(p, soak.Pull); a.At += 6 * hour; a.Until += 6 * hour }},
		{"two places", func(_ *soak.Session, p *soak.Plan) {
			action(p, soak.PutIn).At--
			action(p, soak.PutIn).At -= 5 * minute
		}},
		{"no pair of hands", func(_ *soak.Session, p *soak.Plan) { action(p, soak.PutIn).Hands = 3 }},
		{"out of hours", func(s *soak.Session, p *soak.Plan) { s.Hours[0].From = action(p, soak.PutIn).At + 1 }},
		{"only come out", func(s *soak.Session, _ *soak.Plan) { s.Hours[0].OutOnly = true }},
		{"taps run", func(_ *soak.Session, p *soak.Plan) { a := *action(p, soak.Fill); p.Actions = append(p.Actions, a) }},
		{"before its load goes in", func(s *soak.Session, p *soak.Plan) {
			a := action(p, soak.Fill)
			a.At, a.Until, s.Hours[0].From = a.At-hour, a.Until-hour, s.Hours[0].From-hour
		}},
		{"is filled in", func(s *soak.Session, p *soak.Plan) { s.Vessels[action(p, soak.Fill).Vessel].Fill++ }},
		{"is filled 0 times", func(_ *soak.Session, p *soak.Plan) { action(p, soak.Fill).Do = soak.Empty }},
		{"fill 5 after", func(_ *soak.Session, p *soak.Plan) { first(p, soak.Sick, false).Fill = 5 }},
		{"not let out", func(_ *soak.Session, p *soak.Plan) { action(p, soak.Empty).At++ }},
		{"in room of", func(s *soak.Session, p *soak.Plan) { s.Vessels[first(p, soak.Healthy, false).Vessel].Room = 1.2 }},
		{"water that", func(_ *soak.Session, p *soak.Plan) {
			for i := range p.Loads {
				for j := range p.Loads[:i] {
					if p.Loads[i].Vessel == p.Loads[j].Vessel && p.Loads[i].Fill == p.Loads[j].Fill {
						p.Loads[j].Company = soak.Suspect
					}
				}
			}
		}},
		{"in one fill", func(s *soak.Session, p *soak.Plan) {
			for v := range s.Vessels {
				s.Vessels[v].Loads = 1
			}
		}},
		{"in use for", func(s *soak.Session, _ *soak.Plan) { s.Vessels[0].LastIn, s.Vessels[2].LastIn = 1, 1 }},
		{"has room for", func(s *soak.Session, _ *soak.Plan) { s.Benches[0].Room = 5 }},
		{"s to dry, needs", func(_ *soak.Session, p *soak.Plan) { first(p, soak.Healthy, false).Plants[0].Dry -= 2 }},
		{"dry-by hour", func(s *soak.Session, _ *soak.Plan) { s.Hours[0].DryBy = 10 * hour }},
		{"the times are for", func(_ *soak.Session, p *soak.Plan) { p.AtOnce = 1 }},
		{"is hung", func(_ *soak.Session, p *soak.Plan) { p.Morning = append(p.Morning, 1) }},
		{"hands free", func(_ *soak.Session, p *soak.Plan) { p.HandsFree-- }},
		{"all dry", func(_ *soak.Session, p *soak.Plan) { p.AllDry-- }},
		{"visits", func(_ *soak.Session, p *soak.Plan) { p.Visits++ }},
		{"thirst", func(_ *soak.Session, p *soak.Plan) { p.Thirst++ }},
		{"than its own bound", func(_ *soak.Session, p *soak.Plan) { p.Bound = p.HandsFree + 1 }},
		{"no plan can serve more", func(s *soak.Session, _ *soak.Plan) { s.Hours[0].To, s.Hours[1].From = 9*hour+minute, 17*hour }},
		{"are not its plants'", func(_ *soak.Session, p *soak.Plan) { p.Loads[0].End++ }},
	} {
		s := busyDay()
		p, err := soak.Arrange(context.Background(), s, soak.Effort{Work: 10_000})
		if err != nil {
			t.Fatal(err)
		}
		if faults := check.Plan(s, p); len(faults) > 0 || len(p.Left) > 0 {
			t.Fatalf("before anything is broken: %v, left out %v", faults, p.Left)
		}
		broken.spoil(s, p)
		if !slices.ContainsFunc(check.Plan(s, p), func(f string) bool { return strings.Contains(f, broken.says) }) {
			t.Errorf("%q is not said, but %q", broken.says, check.Plan(s, p))
		}
	}
}
