package care

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"tubside/model"
)

// Reminder is something to do before a session.
type Reminder struct {
	Vessels []string  // to fill
	By      time.Time // for the water to have stood as long as the house rule says
	Start   time.Time // of the session
	Reasons []Reason  // the first is the one to show
}

// reminderReach is how long before a session the reminder begins. Our own: the
// evening before, for a session in the afternoon too.
const reminderReach = 24 * time.Hour

// FillTonight says which vessels to fill so that tap water has stood by the
// time a session of so many plants starts. The vessels are those the plan fills
// first; none named is the largest. It is false when there is nothing to say: no
// plants, no session near, no tap water used, or all filled.
func (k *Keeper) FillTonight(start time.Time, plants int, vessels []string, now time.Time) (Reminder, bool) {
	rest := k.book.Rules()[model.WaterRest]
	wait := start.Sub(now)
	if plants == 0 || rest == 0 || wait < 0 || wait > reminderReach || !k.usesTap() {
		return Reminder{}, false
	}
	r := Reminder{By: start.Add(-time.Duration(rest * float64(time.Hour))), Start: start}
	for _, w := range k.Waters(now) {
		if slices.Contains(k.orLargest(vessels), w.Vessel.Name) && (w.Water == nil || w.Fitness >= Change) {
			r.Vessels = append(r.Vessels, w.Vessel.Name)
		}
	}
	if len(r.Vessels) == 0 {
		return Reminder{}, false
	}
	r.say(plants, rest, now.In(k.book.Zone()))
	return r, true
}

// orLargest is the vessels named, or the largest there is.
func (k *Keeper) orLargest(vessels []string) []string {
	if len(vessels) > 0 || len(k.book.Vessels()) == 0 {
		return vessels
	}
	largest := slices.MaxFunc(k.book.Vessels(), func(a, b model.Vessel) int { return cmp.Compare(a.Litres, b.Litres) })
	return []string{largest.Name}
}

func (r *Reminder) say(plants int, rest float64, now time.Time) {
	verb, plant := "want", "plants"
	if plants == 1 {
		verb, plant = "wants", "plant"
	}
	r.Reasons = append(r.Reasons, reason(Advice, "fill %s tonight: %d %s %s a soak %s", strings.Join(r.Vessels, ", "), plants, plant, verb, r.Start.In(now.Location()).Format("Mon 15:04")))
	if now.After(r.By) {
		r.Reasons = append(r.Reasons, reason(Computed, "it will have stood %s of %g h", agoWords(r.Start.Sub(now)), rest))
	}
	r.Reasons = append(r.Reasons, reason(Warning, "water that stands overnight: door shut, no child or pet near it, nothing electric at the edge"))
}

// usesTap reports whether the last filling was tap water, or nobody has said.
func (k *Keeper) usesTap() bool {
	entries := k.book.Entries()
	for i := len(entries) - 1; i >= 0; i-- {
		if f, ok := entries[i].Fact.(*model.Fill); ok && !k.book.Struck(entries[i].Seq) && len(f.Of) > 0 {
			return fromTap(f.Of)
		}
	}
	return true
}

// firstHour is when a session is taken to begin where no plan says so. Our
// own.
const firstHour = 8

// NextMorning is when tomorrow's session would begin, and how many plants want a
// soak by then.
func (k *Keeper) NextMorning(now time.Time) (start time.Time, plants int) {
	y, m, d := now.In(k.book.Zone()).Date()
	start = time.Date(y, m, d+1, firstHour, 0, 0, 0, k.book.Zone())
	for _, n := range k.Look(start).Needs {
		if n.Band.InWater() && !k.book.Row(n.ID).State.Away() {
			plants++
		}
	}
	return start, plants
}
