package care

import (
	"math"

	"tubside/model"
	"tubside/model/leaf"
	"tubside/model/soak"
)

// interval is how often a plant wants a soak in some air.
type interval struct {
	from  float64 // days after a soak from which the house rule soaks it
	until float64 // days after which it would need more than a Long soak
	soak  func(days float64) float64
}

// longestInterval is how far ahead an interval is looked for, days. Our own: what
// lasts longer is soaked every second week all the same.
const longestInterval = 60.0

// interval works out a plant from its pace as learned, the air as expected, and
// a soak that brings it to the house rule's share. A capped plant that no Long
// soak would be allowed is held to the thirst that a plain plant's would cure.
func (k *Keeper) interval(row *model.Row, deficit float64) interval {
	p := k.plants[row.ID]
	rules := k.book.Rules()
	pace, _ := k.lossOf(p).Range(0)
	rate := p.kind.k * pace * p.factor
	full := rules[model.SoakTarget] / 100
	left := func(days float64) float64 { return leaf.Remaining(full, rate, leaf.Dose(0, days, deficit)) }
	minutes := func(days float64) float64 { return leaf.MinutesTo(left(days), full, p.kind.tau) }
	return interval{
		from:  firstDay(func(days float64) bool { return 1-left(days) >= rules[model.SoakFrom]/100 }),
		until: firstDay(func(days float64) bool { return minutes(days) > rules[model.LongTo] }),
		soak: func(days float64) float64 {
			m := math.Max(minutes(days), rules[model.DipFrom])
			if p.kind.cap > 0 {
				m = math.Min(m, p.kind.cap)
			}
			return m
		},
	}
}

// firstDay is when something that stays so first is so, in days, to a hundredth.
func firstDay(so func(days float64) bool) float64 {
	low, high := 0.0, longestInterval
	if !so(high) {
		return high
	}
	for high-low > 0.01 {
		if middle := (low + high) / 2; so(middle) {
			high = middle
		} else {
			low = middle
		}
	}
	return high
}

// rhythm is how often a plant is soaked in a week that repeats.
type rhythm int

// The rhythms. Our own: what wants more is misted in between.
const (
	fortnightly rhythm = iota
	weekly
	twiceWeekly
)

// gap is the longest time between two soaks, days.
func (r rhythm) gap() float64 { return [...]float64{fortnightly: 14, weekly: 7, twiceWeekly: 4}[r] }

// rhythm is the rarest that holds the plant's interval, and whether any does.
// What is thirsty within a week is soaked every week: growers' habit.
func (i interval) rhythm() (r rhythm, holds bool) {
	switch {
	case i.from >= weekly.gap() && i.until >= fortnightly.gap():
		return fortnightly, true
	case i.until >= weekly.gap():
		return weekly, true
	}
	return twiceWeekly, i.until >= twiceWeekly.gap()
}

// overnight reports whether a soak of so many minutes is one for the night.
func overnight(minutes float64, rules model.Rules) bool {
	return Windows(rules).Of(minutes) == soak.Overnight
}
