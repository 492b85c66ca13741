package command

import (
	"cmp"
	"context"
	"fmt"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/ui/show"

	"github.com/kballard/go-shellquote"
)

// breakWords say when a break fits: where there is nothing to do, or where the day as it
// is loses nobody by it.
func breakWords(ctx context.Context, k *estimate.Keeper, now time.Time, p *day.Plan) (string, error) {
	clock := planClock(p)
	if from, until := p.LongestWait(); until.Sub(from) >= day.BreakTime {
		return fmt.Sprintf("There is nothing to do from %s to %s: time for a break.", clock(from), clock(until)), nil
	}
	const other = "see when each load in the water has to come out at the latest, and be back before."
	then, at, err := p.Rest(ctx, k, now, day.BreakTime)
	if err != nil {
		return "", err
	}
	if then != nil {
		return fmt.Sprintf("There is time for a break of half an hour at %s: you're free at %s then, and the last is dry "+
			"by %s. For another, ", clock(at), clock(then.DayFree), clock(then.AllDry)) + other, nil
	}
	return "The day has no half hour to spare. For a shorter break, " + other, nil
}

// offerWords say what other plans of the day would give, as the board numbers them, each
// with what takes it.
func offerWords(p *day.Plan, offers []day.Offer, rules model.Rules, now time.Time) (words []string) {
	for n, o := range offers {
		words = append(words, fmt.Sprintf("%s (%s)", show.Offer(p, o), cmp.Or(taking(o, rules, now), fmt.Sprintf("key %d on the board's plan", n+1))))
	}
	return words
}

// taking is the command that takes an offer; "" where the shell has no words for it.
func taking(o day.Offer, rules model.Rules, now time.Time) string {
	a := o.Plan.Ask
	usual, err := day.Ask{}.Filled(rules, now)
	if err == nil && o.What == day.RoomAired {
		return "tubside enter window open"
	}
	if err != nil || o.What == day.WithoutSlow || a.Airy || a.NotShelf != "" || a.MoreLoads > 0 || len(a.Plants)+len(a.Bands) > 0 {
		return ""
	}
	words := []string{"tubside enter plan"}
	hour := func(flag string, at, usual time.Time) {
		if !at.Equal(usual) {
			words = append(words, flag, at.Format("15:04"))
		}
	}
	hour("--from", a.From, usual.From)
	hour("--until", a.Until, usual.Until)
	hour("--dry-by", a.DryBy, usual.DryBy)
	if a.Shelf != "" {
		words = append(words, "--shelf", shellquote.Join(a.Shelf))
	}
	hours := func(flag string, all []day.Stretch) {
		for _, s := range show.Stretches(all, now) {
			words = append(words, flag, s)
		}
	}
	hours("--pause", a.Pauses)
	hours("--help-from", a.Help)
	yes := func(flag string, is bool) {
		if is {
			words = append(words, flag)
		}
	}
	yes("--feed", a.Feed)
	yes("--small-loads", a.Small)
	yes("--week", len(a.Turn) > 0)
	return strings.Join(words, " ")
}
