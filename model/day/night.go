package day

import (
	"time"

	"tubside/model"
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
