package day

import (
	"cmp"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
)

// Reminder is something to do before a session.
type Reminder struct {
	Vessels []string  // to fill
	By      time.Time // for the water to have stood as long as the house rule says
	Start   time.Time // of the session
	Plants  int       // that want a soak then
	Rest    float64   // hours that the house rule lets tap water stand
	Now     time.Time // in the grower's zone
}

// reminderReach is how long before a session the reminder begins. A choice: the
// evening before, for a session in the afternoon too.
const reminderReach = 24 * time.Hour

// FillTonight says which vessels to fill so that tap water has stood by the
// time a session of so many plants starts. The vessels are those the plan fills
// first; none named is the largest. It is false when there is nothing to say: no
// plants, no session near, no tap water used, or all filled.
func FillTonight(b *model.Book, start time.Time, plants int, vessels []string, now time.Time) (Reminder, bool) {
	rest := b.Rules()[model.WaterRest]
	wait := start.Sub(now)
	if plants == 0 || rest == 0 || wait < 0 || wait > reminderReach || !usesTap(b) {
		return Reminder{}, false
	}
	r := Reminder{By: start.Add(-model.Hours(rest)), Start: start, Plants: plants, Rest: rest, Now: now.In(b.Zone())}
	for _, w := range advice.Waters(b, now) {
		if slices.Contains(orLargest(b, vessels), w.Vessel.Name) && (w.Water == nil || w.Fitness >= advice.Change) {
			r.Vessels = append(r.Vessels, w.Vessel.Name)
		}
	}
	if len(r.Vessels) == 0 {
		return Reminder{}, false
	}
	return r, true
}

// orLargest is the vessels named, or the largest there is.
func orLargest(b *model.Book, vessels []string) []string {
	if len(vessels) > 0 || len(b.Vessels()) == 0 {
		return vessels
	}
	largest := slices.MaxFunc(b.Vessels(), func(x, y model.Vessel) int { return cmp.Compare(x.Litres, y.Litres) })
	return []string{largest.Name}
}

// usesTap reports whether the last filling was tap water, or nobody has said.
func usesTap(b *model.Book) bool {
	entries := b.Entries()
	for i := len(entries) - 1; i >= 0; i-- {
		if f, ok := entries[i].Fact.(*model.Fill); ok && !b.Struck(entries[i].Seq) && len(f.Of) > 0 {
			return advice.FromTap(f.Of)
		}
	}
	return true
}

// firstHour is when a session is taken to begin where no plan says so. Our
// own.
const firstHour = 8

// NextMorning is when tomorrow's session would begin, and how many plants want a
// soak by then.
func NextMorning(k *estimate.Keeper, now time.Time) (start time.Time, plants int) {
	y, m, d := now.In(k.Book().Zone()).Date()
	start = time.Date(y, m, d+1, firstHour, 0, 0, 0, k.Book().Zone())
	for _, n := range advice.Look(k, start).Needs {
		if n.Band.InWater() && !k.Book().Row(n.ID).State.Away() {
			plants++
		}
	}
	return start, plants
}
