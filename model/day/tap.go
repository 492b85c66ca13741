package day

import (
	"slices"
	"time"

	"tubside/model"
)

// Tap is a tap that runs into a vessel, or that ran over.
type Tap struct {
	Vessel string
	Until  time.Time // the vessel is full
}

// tapForgotten is how long after a vessel is full its tap is still told of, where nothing is
// written down meanwhile: then nobody is there, or it is long off. A choice.
const tapForgotten = 15 * time.Minute

// Taps is the taps that run at a time into vessels that were told to be filled after a step of
// the agreed plan, and those that should be off by now and of which nobody can know that they
// are: since then nothing is written down. No more run at once than the house has.
func Taps(b *model.Book, now time.Time) []Tap {
	a := b.AgreedPlan(now)
	if a == nil {
		return nil
	}
	rules := b.Rules()
	done := lastOf(b, now, OfTheDay)
	type opened struct {
		Tap
		at time.Time
	}
	var all []opened
	for _, v := range b.Vessels() {
		w := b.Water(v.Name)
		if w == nil || w.Assumed || w.Loads > 0 || w.At.Before(a.Since) || w.At.After(now) || len(b.InVessel(v.Name)) > 0 {
			continue
		}
		full := w.At.Add(time.Duration(rules.FillMinutes(v) * float64(time.Minute))).In(b.Zone())
		if now.Sub(full) < tapForgotten && done.Before(full) {
			all = append(all, opened{Tap{v.Name, full}, w.At})
		}
	}
	slices.SortFunc(all, func(x, y opened) int { return y.at.Compare(x.at) }) // the last opened first
	all = all[:min(len(all), int(rules[model.Taps]))]
	taps := make([]Tap, len(all))
	for i, o := range all {
		taps[i] = o.Tap
	}
	slices.SortFunc(taps, func(x, y Tap) int { return x.Until.Compare(y.Until) })
	return taps
}
