package day

import (
	"context"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/estimate"
)

// sameUntil reports whether a plan has the same loads go in until a time as another: who
// goes by it until then has done nothing that the other would not.
func (p *Plan) sameUntil(q *Plan, t time.Time) bool {
	for _, l := range p.Loads {
		if !l.ToCome() || !l.Start.Before(t) {
			continue
		}
		if at, _, ok := q.Placed(l.Plants[0].ID); !ok || !q.Loads[at].Start.Equal(l.Start) {
			return false
		}
	}
	return true
}

// mostRests is at how many places of a day a break is tried. A choice.
const mostRests = 12

// Rest finds when a break of some length costs nobody a place and ends within the hours: at
// the beginning of a step, as near the middle of the day as can be. With it comes the plan
// as it is then, followed from now on; nil when the day has no room for one. The error is
// a [model.Problem], or the context's.
func (p *Plan) Rest(ctx context.Context, k *estimate.Keeper, now time.Time, long time.Duration) (*Plan, time.Time, error) {
	middle := p.Ask.From.Add(p.DayFree.Sub(p.Ask.From) / 2)
	var at []time.Time
	for _, s := range p.Steps {
		if !s.Done && s.Do.Hands() && s.At.After(p.Ask.From) && s.At.Before(p.DayFree) && !slices.Contains(at, s.At) {
			at = append(at, s.At)
		}
	}
	slices.SortStableFunc(at, func(a, b time.Time) int { return int(a.Sub(middle).Abs() - b.Sub(middle).Abs()) })
	for _, from := range at[:min(len(at), mostRests)] {
		a := &model.AgreedAt{Agreed: *p.Agree(k.Book(), now), At: now}
		a.Pauses = append(a.Pauses, model.Pause{From: from, Until: from.Add(long)})
		q, err := slid(ctx, k, now.In(k.Book().Zone()), a)
		if err != nil {
			return nil, time.Time{}, err
		}
		if !q.Lost && len(q.Late) <= len(p.Late) && !q.DayFree.After(p.Ask.Until) && p.sameUntil(q, from) {
			return q, from, nil
		}
	}
	return nil, time.Time{}, nil
}
