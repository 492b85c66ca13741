package day

import (
	"context"
	"fmt"
	"slices"

	"tubside/model"
	"tubside/model/soak"
)

// explain says anew why a plan leaves plants out: it was made with slack, and changed since,
// and what is said has to be true of the hours that the grower gave, and of the plan as it
// is.
func (p *planning) explain(ctx context.Context, plan *Plan) error {
	if !slices.ContainsFunc(plan.Left, func(l LeftOut) bool { return l.Unplaced != nil }) {
		return nil
	}
	p.plan = &Plan{Ask: plan.Ask, Vessels: plan.Vessels, Loads: plan.Loads, HandsFree: plan.HandsFree, Full: plan.Full}
	for _, night := range []bool{false, true} {
		var s *soak.Session
		switch {
		case !night:
			s = p.day()
		case len(p.night) == 0:
			continue
		default:
			s = p.evening()
		}
		before := p.before(s, plan, night)
		left, err := soak.Explain(ctx, s, before)
		if err != nil {
			return fmt.Errorf("say who is left out: %w", err)
		}
		why := map[model.ID]*soak.LeftOut{}
		for i := range left {
			why[model.ID(left[i].ID)] = &left[i]
		}
		for i := range plan.Left {
			if l := &plan.Left[i]; l.Unplaced != nil && why[l.ID] != nil {
				l.Unplaced = why[l.ID]
			}
		}
	}
	return nil
}

// before is the day's or the night's part of a plan, for a session of the same.
func (p *planning) before(s *soak.Session, plan *Plan, night bool) soak.Before {
	before, place := soak.Before{AtOnce: plan.AtOnce}, make([]int, len(plan.Loads))
	for n, l := range plan.Loads {
		if l.Night != night || p.vessel(l.Vessel) < 0 || l.Done {
			continue
		}
		was := soak.LoadBefore{Vessel: p.vessel(l.Vessel)}
		if l.Load != 0 {
			lies := func(g soak.Given) bool { return len(g.Items) > 0 && model.ID(g.Items[0].ID) == l.Plants[0].ID }
			if was.Given = slices.IndexFunc(s.Given, lies) + 1; was.Given == 0 {
				continue // out before the hours begin
			}
		} else {
			for _, id := range l.IDs() {
				was.IDs = append(was.IDs, int(id))
			}
		}
		before.Loads = append(before.Loads, was)
		place[n] = len(before.Loads)
	}
	for _, v := range plan.order {
		if at := place[v.Load]; at > 0 {
			before.Order = append(before.Order, soak.Visit{Do: v.Do, Load: at - 1})
		}
	}
	return before
}
