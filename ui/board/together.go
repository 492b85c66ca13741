package board

import (
	"cmp"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/ui/show"
)

// together is plants of a step that share a time in the water.
type together struct {
	ids model.IDs
	in  time.Duration
}

// sharing splits a step's plants into as few as can share a time: a load has one
// time due, and what the plan puts in together need not come out together. The
// time lies in every plant's window; each load keeps the order of going in.
func sharing(load *day.Load, ids model.IDs) []together {
	var plants []day.Plant
	for _, p := range load.Plants {
		if ids.Has(p.ID) {
			plants = append(plants, p)
		}
	}
	inTurn := slices.Clone(plants)
	slices.SortStableFunc(plants, func(a, b day.Plant) int { return cmp.Compare(a.Out.Sub(a.In), b.Out.Sub(b.In)) })
	var groups []together
	var in, most int // s: in the water, and at most
	for _, p := range plants {
		long, room := max(in, p.From), min(most, p.To)
		if n := len(groups); n > 0 && long <= room {
			in, most = long, room
			groups[n-1].ids, groups[n-1].in = append(groups[n-1].ids, p.ID), time.Duration(in)*time.Second
			continue
		}
		in, most = int(p.Out.Sub(p.In)/time.Second), p.To
		groups = append(groups, together{model.IDs{p.ID}, time.Duration(in) * time.Second})
	}
	for i, g := range groups {
		groups[i].ids = nil
		for _, p := range inTurn {
			if g.ids.Has(p.ID) {
				groups[i].ids = append(groups[i].ids, p.ID)
			}
		}
	}
	return groups
}

// putIn writes a step's plants as put in, in as many loads as they need.
func (s *planScreen) putIn(step *day.Step) {
	groups := sharing(&s.plan.Loads[step.Load], step.Plants)
	in := s.began(step)
	var first, due time.Time
	for i, g := range groups {
		due = in.Add(g.in).UTC().Truncate(time.Second)
		if i == 0 {
			first = due
		}
		if !s.enterAt(in, &model.Soak{Load: s.book.NextLoad(), Vessel: step.Vessel, Due: due}, g.ids...) {
			return
		}
	}
	if len(groups) > 1 {
		zone := s.book.Zone()
		s.say("%s into %s in %s, out from %s to %s; u takes back the last load", show.Count(len(step.Plants), "plant"), show.Safe(step.Vessel),
			show.Count(len(groups), "load"), show.Clock(first, s.now, zone), show.Clock(due, s.now, zone))
	}
}
