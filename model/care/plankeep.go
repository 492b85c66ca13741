package care

import (
	"slices"
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// keepTo gives a session the loads of the old plan, and to loads in the water
// what the old plan has still to go in with them.
func (p *planning) keepTo(s *soak.Session, night bool) {
	if p.old == nil {
		return
	}
	s.Before = &soak.Before{AtOnce: p.old.AtOnce}
	loads := slices.DeleteFunc(slices.Clone(p.old.Loads), func(l PlanLoad) bool {
		return p.ask.Night && l.Night != night // else one session has both
	})
	slices.SortStableFunc(loads, func(a, b PlanLoad) int { return a.Turn - b.Turn })
	for _, l := range loads {
		if v := p.vessel(l.Vessel); v >= 0 {
			s.Before.Loads = append(s.Before.Loads, soak.LoadBefore{Vessel: v, IDs: numbers(l.IDs())})
		}
	}
	for g := range s.Given {
		s.Given[g].More = p.more(s, &s.Given[g])
	}
}

// vessel is the place of a vessel among those of the plan, or -1.
func (p *planning) vessel(name string) int {
	return slices.IndexFunc(p.vessels, func(v model.Vessel) bool { return v.Name == name })
}

func numbers(ids model.IDs) []int {
	all := make([]int, len(ids))
	for i, id := range ids {
		all[i] = int(id)
	}
	return all
}

// more is the items that were to go in with a load in the water and are not in
// yet: none once the first of it is out.
func (p *planning) more(s *soak.Session, g *soak.Given) []int {
	l := p.meant(model.ID(g.Items[0].ID), p.vessels[g.Vessel].Name)
	if l == nil {
		return nil
	}
	var more []int
	for _, id := range l.IDs() {
		if row := p.book.Row(id); row.State == model.Drying || row.State == model.Dry {
			return nil
		}
		if i := slices.IndexFunc(s.Items, func(it soak.Item) bool { return it.ID == int(id) }); i >= 0 {
			more = append(more, i)
		}
	}
	return more
}

// meant is the load of the old plan that a plant in a vessel belongs to; nil if
// it is there by no plan.
func (p *planning) meant(id model.ID, vessel string) *PlanLoad {
	if p.old == nil {
		return nil
	}
	at, _, ok := p.old.Placed(id)
	if !ok || p.old.Loads[at].Vessel != vessel {
		return nil
	}
	return &p.old.Loads[at]
}

// pouredBy is when a vessel that was told to be filled is full: when the old
// plan says so, if it is told as one of its steps.
func (p *planning) pouredBy(vessel string, told time.Time) time.Time {
	if p.old == nil {
		return told
	}
	if full := p.old.Full[vessel]; told.Before(full) {
		return full
	}
	for _, s := range p.old.Steps {
		if s.Do == soak.Fill && s.Vessel == vessel && told.After(s.At.Add(-leadTime)) && told.Before(s.Until) {
			return s.Until
		}
	}
	return told
}

// leadTime is how much before its hour a filling is taken for the planned one.
// Our own.
const leadTime = 10 * time.Minute
