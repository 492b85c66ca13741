package check

import (
	"math"
	"slices"

	"tubside/model/soak"
)

// totals: what the plan says of itself.
func (f *faults) totals(s *soak.Session, p *soak.Plan, late map[int]soak.Late) {
	free, dry, thirst, fills := s.Hours[0].From, s.Hours[0].From, 0.0, 0
	highest := make([]int, len(s.Vessels))
	for _, l := range p.Loads {
		highest[l.Vessel] = max(highest[l.Vessel], l.Fill)
		for _, t := range l.Plants {
			dry = max(dry, t.Dry)
			if t.Index >= 0 {
				thirst += t.Thirst
				free = max(free, t.In+t.HandsIn)
			}
			if h := hoursOf(s, t.Out, t.Out+t.HandsOut); h != nil && !h.OutOnly && !(l.Given && late[t.ID].NoHands) {
				free = max(free, t.Out+t.HandsOut)
			}
		}
	}
	for _, n := range highest {
		fills += n
	}
	if p.HandsFree != free || p.AllDry != dry || p.Fills != fills || math.Abs(p.Thirst-thirst) > eps*max(1, thirst) {
		f.add("hands free %d, all dry %d, fills %d, thirst %g; it says %d, %d, %d, %g", free, dry, fills, thirst, p.HandsFree, p.AllDry, p.Fills, p.Thirst)
	}
	if p.Bound.HandsFree > p.HandsFree || p.Bound.Thirst < p.Thirst-eps {
		f.add("better than its own bound: hands free %d, bound %d; thirst %g, bound %g", p.HandsFree, p.Bound.HandsFree, p.Thirst, p.Bound.Thirst)
	}
}

// actions: every plant goes in and comes out in one action that covers its
// time; the hands' actions do not overlap; every fill is drawn in time.
func (f *faults) actions(s *soak.Session, p *soak.Plan) {
	all := p.Actions(s)
	if !slices.IsSortedFunc(all, func(a, b soak.Action) int { return a.At - b.At }) {
		f.add("actions are not in clock order")
	}
	type key struct {
		load, id int
		do       soak.Do
	}
	covered := map[key]soak.Action{}
	busy, fills := math.MinInt, 0
	for _, a := range all {
		if a.Do == soak.Fill {
			fills++
		}
		if !a.Do.Hands() {
			continue
		}
		if a.At < busy && !slices.ContainsFunc(p.Late, func(l soak.Late) bool { return l.NoHands }) {
			f.add("actions overlap at %d", a.At)
		}
		busy = max(busy, a.Until)
		for _, id := range a.IDs {
			covered[key{a.Load, id, a.Do}] = a
		}
	}
	if fills != p.Fills {
		f.add("%d fills drawn, %d said", fills, p.Fills)
	}
	for n, l := range p.Loads {
		for _, t := range l.Plants {
			if a := covered[key{n, t.ID, soak.GetOut}]; a.At > t.Out || a.Until < t.Out+t.HandsOut {
				f.add("plant %d: no action takes it out at %d", t.ID, t.Out)
			}
			if a := covered[key{n, t.ID, soak.PutIn}]; t.Index >= 0 && (a.At > t.In || a.Until < t.In+t.HandsIn) {
				f.add("plant %d: no action puts it in at %d", t.ID, t.In)
			}
		}
	}
}
