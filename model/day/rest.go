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

// BreakTime is half an hour: long enough to eat. A guess.
const BreakTime = 30 * time.Minute

// longDay is from how long on a day needs a break. A guess.
const longDay = 4 * time.Hour

// breakOf is the break to offer for what is left of a day, and whether that is so long that it
// needs one, and has none.
func (p *Plan) breakOf(now time.Time) (Stretch, bool) {
	begins := model.Later(p.Ask.From, now)
	from, until := p.LongestWait()
	at := p.lunch(begins)
	return Stretch{at, at.Add(BreakTime)}, p.DayFree.Sub(begins) >= longDay && until.Sub(from) < BreakTime
}

// lunch is when to have a break: at half past twelve where that is well within what is left
// of the day, else in the middle of that. A guess.
func (p *Plan) lunch(begins time.Time) time.Time {
	if noon := model.AtHour(p.Ask.From, 12.5); noon.Sub(begins) >= time.Hour && p.DayFree.Sub(noon) >= 2*time.Hour {
		return noon
	}
	return begins.Add(p.DayFree.Sub(begins) / 2).Truncate(BreakTime)
}

// LongestWait is the longest time between two steps in which no hands have anything to
// do, before they are free.
func (p *Plan) LongestWait() (from, until time.Time) {
	var busy time.Time
	for i := range p.Steps {
		s := &p.Steps[i]
		if s.Done || !s.Do.Hands() || s.At.After(p.DayFree) {
			continue
		}
		if !busy.IsZero() && s.At.Sub(busy) > until.Sub(from) {
			from, until = busy, s.At
		}
		busy = model.Later(busy, s.Until)
	}
	return from, until
}
