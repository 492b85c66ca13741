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
// one pair of hands tie the rest together in ways that only sliding it shows.
func stand(ctx context.Context, k *estimate.Keeper, now time.Time, plan *Plan) (*Plan, error) {
	if plan.Ask.From.After(now) {
		return plan, nil // nobody can be late for it yet
	}
	a := &model.AgreedAt{Agreed: *plan.Agree(k.Book(), now), At: now}
	for range standTries {
		late, err := slid(ctx, k, now.Add(slack), a)
		if err != nil {
			return nil, err
		}
		gone := late.lost(a)
		if len(gone) == 0 {
			return plan, nil
		}
		leave(a, late, gone)
		p, err := timed(ctx, k, now, a)
		if err != nil {
			return nil, err
		}
		kept := p.finish()
		kept.Made, kept.Ask, kept.DayBound, kept.Most, kept.Thirst.Of = plan.Made, plan.Ask, plan.DayBound, plan.Most, plan.Thirst.Of
		kept.Lost = false
		plan = kept
	}
	return plan, nil
}

// leave takes plants out of an agreed plan, with the reason for which a later one left
// them out.
func leave(a *model.AgreedAt, later *Plan, gone model.IDs) {
	for i := range a.Loads {
		l, of := &a.Loads[i], a.Loads[i]
		l.Plants, l.Least, l.Most = nil, nil, nil
		for n, id := range of.Plants {
			if !slices.Contains(gone, id) {
				l.Plants, l.Least, l.Most = append(l.Plants, id), append(l.Least, of.Least[n]), append(l.Most, of.Most[n])
			}
		}
	}
	for _, l := range later.Left {
		if l.Unplaced != nil && slices.Contains(gone, l.ID) {
			a.Left = append(a.Left, model.AgreedLeft{Plant: l.ID, Why: l.Unplaced.Why.String(), By: l.Unplaced.By})
		}
	}
}
