package day

import (
	"cmp"
	"context"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/soak"
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
	for _, from := range p.restsAt() {
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

// restsAt is when a break is tried: where the hands wait, the longest first, since it costs
// least there; then at the beginnings of steps, near the middle of the day first, and last
// those at which a vessel stands full for what would wait.
func (p *Plan) restsAt() []time.Time {
	middle := p.Ask.From.Add(p.DayFree.Sub(p.Ask.From) / 2)
	var at []time.Time
	waits := p.waits()
	slices.SortStableFunc(waits, func(a, b Stretch) int { return cmp.Compare(b.Until.Sub(b.From), a.Until.Sub(a.From)) })
	for _, w := range waits {
		if w.Until.Sub(w.From) >= shortestWait {
			at = append(at, w.From)
		}
	}
	var begins []time.Time
	for _, s := range p.Steps {
		if !s.Done && s.Do.Hands() && s.At.After(p.Ask.From) && s.At.Before(p.DayFree) && !slices.Contains(begins, s.At) {
			begins = append(begins, s.At)
		}
	}
	slices.SortStableFunc(begins, func(a, b time.Time) int {
		full := func(t time.Time) int {
			if p.standsFull(t) {
				return 1
			}
			return 0
		}
		return cmp.Or(cmp.Compare(full(a), full(b)), cmp.Compare(a.Sub(middle).Abs(), b.Sub(middle).Abs()))
	})
	return append(at, begins[:min(len(begins), mostRests)]...)
}

// shortestWait is from how long on a wait of the hands is worth having a break in. A guess.
const shortestWait = 10 * time.Minute

// standsFull reports whether at a time a vessel is being filled, or is full, for a load that
// is still to go in.
func (p *Plan) standsFull(t time.Time) bool {
	return slices.ContainsFunc(p.Steps, func(s Step) bool {
		return s.Do == soak.Fill && !s.Done && s.Load >= 0 && !s.At.After(t) && !p.Loads[s.Load].Start.Before(t)
	})
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
	for _, w := range p.waits() {
		if w.Until.Sub(w.From) > until.Sub(from) {
			from, until = w.From, w.Until
		}
	}
	return from, until
}

// waits are the times between two steps in which no hands have anything to do, within their
// hours and before they are free: a night is no wait.
func (p *Plan) waits() (waits []Stretch) {
	var busy time.Time
	for i := range p.Steps {
		s := &p.Steps[i]
		if s.Done || !s.Do.Hands() || s.At.After(p.DayFree) {
			continue
		}
		if from := model.Later(busy, p.Ask.From); !busy.IsZero() && s.At.After(from) {
			waits = append(waits, Stretch{from, s.At})
		}
		busy = model.Later(busy, s.Until)
	}
	return waits
}
