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
	s := bathroom(with(rosettes(12), func(i int, it *soak.Item) {
		it.BenchRoom = 1
		it.Fed = i == 11
		if i == 9 {
			it.Company = soak.Sick
		}
		if i == 10 {
			it.Company = soak.Newcomer
		}
	})...)
	s.Vessels[0].Loads = 3
	s.Vessels = append(s.Vessels, soak.Vessel{Room: 5, Refill: 3 * minute, Fed: true, Age: 3 * hour})
	s.Benches = []soak.Bench{{Room: 20, Factor: 0.5}}
	s.Room = func(n int) float64 { return 1 + float64(n)/100 }
	s.Hours = []soak.Hours{{From: 9 * hour, To: 12 * hour, DryBy: 21 * hour}, {From: 13 * hour, To: 17 * hour, DryBy: 21 * hour}}
	return s
}

// load is the first load of a company in a vessel.
func load(p *soak.Plan, v int, c soak.Company) *soak.Load {
	return &p.Loads[slices.IndexFunc(p.Loads, func(l soak.Load) bool { return l.Vessel == v && l.Company == c })]
}

// Each rule broken once, by hand: the checker says so.
func TestTheCheckerSeesEveryBrokenRule(t *testing.T) {
	for _, broken := range []struct {
		says  string
		spoil func(s *soak.Session, p *soak.Plan)
	}{
		{"planned or left out 0 times", func(_ *soak.Session, p *soak.Plan) {
			l := load(p, 0, soak.Healthy)
			l.Plants = l.Plants[1:]
		}},
		{"planned or left out 2 times", func(_ *soak.Session, p *soak.Plan) {
			p.Left = append(p.Left, soak.LeftOut{ID: 1, Index: 0, Help: []soak.Help{soak.Tomorrow}})
		}},
		{"soaks", func(_ *soak.Session, p *soak.Plan) { load(p, 0, soak.Healthy).Plants[8].Out -= 10 * minute }},
		{"soaks", func(_ *soak.Session, p *soak.Plan) { load(p, 0, soak.Healthy).Plants[8].Out += 60 * minute }},
		{"first in, first out", func(_ *soak.Session, p *soak.Plan) { slices.Reverse(load(p, 0, soak.Healthy).Plants) }},
		{"in a load of", func(_ *soak.Session, p *soak.Plan) { load(p, 0, soak.Newcomer).Company = soak.Suspect }},
		{"before all are in", func(_ *soak.Session, p *soak.Plan) {
			l := load(p, 0, soak.Healthy)
			l.Plants[8].In, l.Plants[8].Out = l.Out, l.Out+20*minute
		}},
		{"in room of", func(s *soak.Session, _ *soak.Plan) { s.Vessels[0].Room = 3 }},
		{"in room of", func(_ *soak.Session, p *soak.Plan) { load(p, 1, soak.Healthy).Vessel = 0 }},
		{"two places", func(_ *soak.Session, p *soak.Plan) {
			plants := load(p, 0, soak.Healthy).Plants
			plants[1].Out--
		}},
		{"out of hours", func(s *soak.Session, p *soak.Plan) { s.Hours[0].From = load(p, 0, soak.Healthy).Start + 1 }},
		{"only come out", func(s *soak.Session, _ *soak.Plan) { s.Hours[0].OutOnly = true }},
		{"before the vessel is free", func(_ *soak.Session, p *soak.Plan) { load(p, 0, soak.Sick).Ready-- }},
		{"before the vessel is free", func(s *soak.Session, _ *soak.Plan) { s.Vessels[1].Refill = 3 * hour }},
		{"in the water is fill", func(_ *soak.Session, p *soak.Plan) { load(p, 0, soak.Sick).Fill = 5 }},
		{"water that", func(_ *soak.Session, p *soak.Plan) { load(p, 0, soak.Healthy).Company = soak.Suspect }},
		{"in one fill", func(s *soak.Session, _ *soak.Plan) { s.Vessels[0].Loads = 1 }},
		{"in use for", func(s *soak.Session, _ *soak.Plan) { s.Vessels[0].LastIn, s.Vessels[1].LastIn = 1, 1 }},
		{"s old", func(s *soak.Session, _ *soak.Plan) { s.Vessels[1].Age = 10 * minute }},
		{"has room for", func(s *soak.Session, _ *soak.Plan) { s.Benches[0].Room = 5 }},
		{"s to dry, needs", func(_ *soak.Session, p *soak.Plan) { load(p, 0, soak.Healthy).Plants[0].Dry -= 2 }},
		{"dry-by hour", func(s *soak.Session, _ *soak.Plan) { s.Hours[0].DryBy = 10 * hour }},
		{"the times are for", func(_ *soak.Session, p *soak.Plan) { p.AtOnce-- }},
		{"hands free", func(_ *soak.Session, p *soak.Plan) { p.HandsFree-- }},
		{"all dry", func(_ *soak.Session, p *soak.Plan) { p.AllDry-- }},
		{"fills", func(_ *soak.Session, p *soak.Plan) { p.Fills++ }},
		{"thirst", func(_ *soak.Session, p *soak.Plan) { p.Thirst++ }},
		{"than its own bound", func(_ *soak.Session, p *soak.Plan) { p.Bound.HandsFree = p.HandsFree + 1 }},
		{"than its own bound", func(_ *soak.Session, p *soak.Plan) { p.Bound.Thirst = p.Thirst / 2 }},
		{"start", func(_ *soak.Session, p *soak.Plan) { p.Loads[0].Start++ }},
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
