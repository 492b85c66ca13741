package day

import (
	"context"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/estimate"
)

// standTries is how often a plan is looked at anew after plants were taken out of it; it
// has never needed more than two.
const standTries = 4

// stand takes out of a new plan whom it would lose if nothing at all were done for as long
// as the slack. The slack that it was made with keeps nearly all; drying in one room and
// one pair of hands tie the rest together in ways that only sliding it shows. Where a load
// is too small without them the plan is made once more for the others, and after that goes
// without such loads.
func stand(ctx context.Context, k *estimate.Keeper, now time.Time, ask Ask, plan *Plan) (*Plan, error) {
	if plan.Ask.From.After(now) {
		return plan, nil // nobody can be late for it yet
	}
	remade := false
	for range standTries {
		a := &model.AgreedAt{Agreed: *plan.Agree(k.Book(), now), At: now}
		behind := *a
		behind.From = now.Add(slack) // and so not at the first thing by then
		late, err := timed(ctx, k, now.Add(slack), &behind, true)
		if err != nil {
			return nil, err
		}
		gone := late.plan.lost(a)
		if len(gone) == 0 {
			return plan, nil
		}
		lost := slices.DeleteFunc(late.plan.Left, func(l LeftOut) bool { return !slices.Contains(gone, l.ID) })
		kept, err := without(ctx, k, now, plan, a, lost)
		if err == nil && !remade && kept.Count() < plan.Count()-len(lost) {
			remade = true
			_, kept, err = arranged(ctx, k, now, ask, lost)
		}
		if err != nil {
			return nil, err
		}
		kept.Thirst.Of = plan.Thirst.Of
		for i := range kept.Left {
			kept.Left[i].Dropped, kept.Left[i].Load = time.Time{}, 0 // nobody has agreed to it yet
		}
		plan = kept
	}
	return plan, nil
}

// without is a plan, as it would be agreed, without those that are left out of it.
func without(ctx context.Context, k *estimate.Keeper, now time.Time, of *Plan, a *model.AgreedAt, out []LeftOut) (*Plan, error) {
	isOut := map[model.ID]bool{}
	for _, l := range out {
		if isOut[l.ID] = true; l.Unplaced != nil {
			a.Left = append(a.Left, model.AgreedLeft{Plant: l.ID, Why: l.Unplaced.Why.String(), By: l.Unplaced.By})
		}
	}
	for i := range a.Loads {
		l, was := &a.Loads[i], a.Loads[i]
		l.Plants, l.Least, l.Most = nil, nil, nil
		for n, id := range was.Plants {
			if !isOut[id] {
				l.Plants, l.Least, l.Most = append(l.Plants, id), append(l.Least, was.Least[n]), append(l.Most, was.Most[n])
			}
		}
	}
	p, err := timed(ctx, k, now, a, false)
	if err != nil {
		return nil, err
	}
	q := p.finish()
	q.Made, q.Ask, q.DayBound, q.Lost = of.Made, of.Ask, of.DayBound, false
	return q, nil
}
