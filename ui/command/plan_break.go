package command

import (
	"context"
	"fmt"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/ui/show"
)

// breakTime is half an hour: long enough to eat. A guess.
const breakTime = 30 * time.Minute

// longDay is from how long on a day needs a break. A guess.
const longDay = 4 * time.Hour

// breakWords say when a break fits: where there is nothing to do, or where the day as it
// is loses nobody by it; for a long day without either, what one costs that is asked for.
func breakWords(ctx context.Context, k *estimate.Keeper, now time.Time, p *day.Plan) (string, error) {
	clock := planClock(p)
	if from, until := longestWait(p); until.Sub(from) >= breakTime {
		return fmt.Sprintf("There is nothing to do from %s to %s: time for a break.", clock(from), clock(until)), nil
	}
	const other = "see when each load in the water has to come out at the latest, and be back before."
	then, at, err := p.Rest(ctx, k, now, breakTime)
	if err != nil {
		return "", err
	}
	if then != nil {
		return fmt.Sprintf("There is time for a break of half an hour at %s: you're free at %s then, and the last is dry "+
			"by %s. For another, ", clock(at), clock(then.DayFree), clock(then.AllDry)) + other, nil
	}
	words := "The day has no half hour to spare."
	if asked := askedBreak(ctx, k, now, p); asked != "" {
		words += " But you can have one before you begin: " + asked + "; then print it again."
	}
	return words + " For a shorter break, " + other, nil
}

// askedBreak says what a break in the middle of a long day without one costs, measured by
// planning the day with it, and how to have it; "" for a day that needs none.
func askedBreak(ctx context.Context, k *estimate.Keeper, now time.Time, p *day.Plan) string {
	left := p.DayFree.Sub(model.Later(p.Ask.From, now))
	if from, until := longestWait(p); left < longDay || until.Sub(from) >= breakTime {
		return ""
	}
	from := lunch(p, now)
	ask := p.Ask
	again := day.Ask{Until: ask.Until, DryBy: ask.DryBy, Help: ask.Help, Plants: ask.Plants, Turn: ask.Turn,
		Shelf: ask.Shelf, Bands: ask.Bands, Feed: ask.Feed, Without: ask.Without, NotShelf: ask.NotShelf,
		MoreLoads: ask.MoreLoads, Small: ask.Small, Airy: ask.Airy,
		Pauses: append(slices.Clone(ask.Pauses), day.Stretch{From: from, Until: from.Add(breakTime)})}
	if ask.From.After(now) {
		again.From = ask.From
	}
	how := fmt.Sprintf("tubside enter plan --pause %s-%s", from.Format("15:04"), from.Add(breakTime).Format("15:04"))
	q, err := day.NewPlan(ctx, k, now, again)
	if err != nil || len(q.Loads) == 0 {
		return how
	}
	clock, plants := planClock(p), "as many plants"
	if n := q.Count(); n != p.Count() {
		plants = fmt.Sprintf("%s instead of %d", show.Count(n, "plant"), p.Count())
	}
	return fmt.Sprintf("with a break at %s you're free at %s instead of %s, with %s (%s)", clock(from), clock(q.DayFree),
		clock(p.DayFree), plants, how)
}

// lunch is when to have a break: at half past twelve where that is well within what is left
// of the day, else in the middle of that. A guess.
func lunch(p *day.Plan, now time.Time) time.Time {
	from := model.Later(p.Ask.From, now)
	if noon := model.AtHour(p.Ask.From, 12.5); noon.Sub(from) >= time.Hour && p.DayFree.Sub(noon) >= 2*time.Hour {
		return noon
	}
	return from.Add(p.DayFree.Sub(from) / 2).Truncate(breakTime)
}

// longestWait is the longest time between two steps in which no hands have anything to
// do, before they are free.
func longestWait(p *day.Plan) (from, until time.Time) {
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
