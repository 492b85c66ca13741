package care

import (
	"math"
	"time"

	"tubside/model"
)

// Job is the one thing a sitter is asked to do: the same soak for the same
// plants on each of a few days. A job without plants is to look and to touch
// nothing.
type Job struct {
	Plants  model.IDs   // in walking order
	Minutes float64     // in the water
	Hours   float64     // then upside down in moving air, at least
	Days    []time.Time // noon of each day, in the grower's zone
}

// What a sitter is asked for. Our own: an over-keen sitter kills more plants
// than absence (common practice, no source), so as little as keeps them alive,
// and nothing that can go wrong in a hurry.
const (
	sitterMinutes = 30 // at most, and never over a plant's cap
	sitterGap     = 3  // days between two soaks, at least
	sitterEnd     = 2  // days before the return with no more soaks
)

// SitterJob is what to ask of a sitter: a soak, before the first of them has
// lost half its water, of the plants that would lose it in spite of their last
// soak at home. Bulbs and tanks are left out: water left in the heart is worse
// for them than thirst; so are plants in bloom and plants with suspected rot.
func (k *Keeper) SitterJob(t *Trip) Job {
	var first time.Time
	job := Job{Minutes: sitterMinutes}
	for i := range t.Plants {
		l := &t.Plants[i]
		row := k.book.Row(l.ID)
		_, lines := l.AtReturn()
		if lines.HalfGone.IsZero() || !sitterSafe(row) {
			continue
		}
		job.Plants = append(job.Plants, l.ID)
		if first.IsZero() || lines.HalfGone.Before(first) {
			first = lines.HalfGone
		}
		kd := k.kinds[l.ID]
		job.Hours = math.Max(job.Hours, kd.limit)
		if kd.cap > 0 {
			job.Minutes = math.Min(job.Minutes, kd.cap)
		}
	}
	if len(job.Plants) > 0 {
		job.Plants = k.book.Walk(job.Plants)
		job.Days = sitterDays(t, first, k.book.Zone())
	}
	if len(job.Days) == 0 {
		return Job{}
	}
	return job
}

func sitterSafe(row *model.Row) bool {
	return row.Form != model.Bulbous && row.Form != model.Tank && row.Bloom.IsZero() && row.Rot.IsZero()
}

// sitterDays are the days of the job: one before the first plant has lost half,
// and again each time as long after.
func sitterDays(t *Trip, first time.Time, zone *time.Location) []time.Time {
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
