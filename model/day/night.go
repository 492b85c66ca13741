package day

import (
	"time"

	"tubside/model"
	"tubside/model/estimate"
)

// nearNight is how long before its hour a load for the night may go in unasked. A
// guess.
const nearNight = 2 * time.Hour

// WrongHour reports whether a soak of so many minutes is one over night, and a time is
// not in the evening: whoever starts one then is asked whether it is meant. What is
// longer than a day is refused anyway.
func WrongHour(b *model.Book, minutes float64, now time.Time) bool {
	rules := b.Rules()
	evening := model.AtHour(now.In(b.Zone()), rules[model.NightIn]).Add(-nearNight)
	return minutes >= rules[model.OvernightFrom] && minutes <= longestDay.Minutes() && now.Before(evening)
}

// NotDry says which of some plants may still be wet at the hour by which all is to be dry,
// if they come out of the water at a time: that of the day's agreed plan, else the house
// rule's. The planner keeps to it; a load made by hand is asked about.
func NotDry(k *estimate.Keeper, ids model.IDs, bench string, out, now time.Time) estimate.NotDry {
	out = out.In(k.Book().Zone())
	by := k.Book().Rules().DryBy(out)
	if a := k.Book().AgreedPlan(now); a != nil && a.DryBy.In(out.Location()).YearDay() == out.YearDay() {
		by = a.DryBy
	}
	return k.NotDry(ids, bench, out, by, now)
}
