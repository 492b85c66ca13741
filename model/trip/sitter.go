package trip

import (
	"cmp"
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/leaf"
)

// Job is the one thing a sitter is asked to do: the same soak for the same
// plants on each of a few days. A job without plants is to look and to touch
// nothing.
type Job struct {
	Plants  model.IDs   // in walking order
	Left    int         // plants in need as much that are not for a sitter, or too many
	Minutes float64     // in the water
	Hours   float64     // then upside down in moving air, at least
	Days    []time.Time // noon of each day, in the grower's zone
}

// What a sitter is asked for. A choice: an over-keen sitter kills more plants
// than absence (common practice, no source), so as little as keeps them alive,
// and nothing that can go wrong in a hurry.
const (
	sitterMinutes = 30 // in the water; plants capped under it are left out
	sitterMost    = 24 // plants: an hour's work, and a list that fits a page
	sitterGap     = 7  // days between two soaks, at least
	sitterEnd     = 2  // days before the return with no more soaks
)

// SitterJob is what to ask of a sitter: a soak of the plants, the driest first,
// that would come to harm in spite of their last soak at home: those one in ten
// of which would be past mending. It begins before the first of them has lost half
// its water. Bulbs, tanks and plants capped to less are left out, as water left in
// them is worse than thirst; so are plants in bloom and those with suspected rot.
func SitterJob(k *estimate.Keeper, t *Forecast) Job {
	harmed := harmed(t)
	var job Job
	var first time.Time
	for _, l := range harmed {
		if len(job.Plants) == sitterMost || !sitterSafe(k, l.ID) {
			job.Left++
			continue
		}
		job.Plants = append(job.Plants, l.ID)
		job.Hours = math.Max(job.Hours, k.Traits(l.ID).WetLimit)
		_, lines := l.AtReturn()
		if half := cmp.Or(lines.HalfGone, t.Until); first.IsZero() || half.Before(first) {
			first = half
		}
	}
	if len(job.Plants) > 0 {
		job.Days = sitterDays(t, first, k.Book().Zone())
	}
	if len(job.Days) == 0 {
		return Job{Left: len(harmed)}
	}
	job.Plants, job.Minutes = k.Book().Walk(job.Plants), sitterMinutes
	return job
}

// harmed is the plants that may be past mending on return, the driest first.
func harmed(t *Forecast) []Left {
	left := slices.DeleteFunc(slices.Clone(t.Plants), func(l Left) bool {
		at, _ := l.AtReturn()
		return at.Low > 1-leaf.LethalFrom
	})
	slices.SortStableFunc(left, func(x, y Left) int {
		a, _ := x.AtReturn()
		b, _ := y.AtReturn()
		return cmp.Compare(a.RWC, b.RWC)
	})
	return left
}

func sitterSafe(k *estimate.Keeper, id model.ID) bool {
	row := k.Book().Row(id)
	hearted := row.Form == model.Bulbous || row.Form == model.Tank ||
		advice.RoutineMost(row.Plant, k.Book().Rules()) < sitterMinutes
	return !hearted && !row.MistOnly && row.Bloom.IsZero() && row.Rot.IsZero()
}

// sitterDays are the days of the job: one before the first plant has lost half,
// and again each time as long after.
func sitterDays(t *Forecast, first time.Time, zone *time.Location) []time.Time {
	gap := max(int(first.Sub(t.From).Hours()/24)-1, sitterGap)
	var days []time.Time
	for n := gap; ; n += gap {
		y, m, d := t.From.In(zone).AddDate(0, 0, n).Date()
		day := time.Date(y, m, d, 12, 0, 0, 0, zone)
		if !day.Before(t.Until.AddDate(0, 0, -sitterEnd)) {
			return days
		}
		days = append(days, day)
	}
}
