package care

import (
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// mist places a plant on a mist round. A plant in bloom and one just separated
// have no other water, and are on it every day; a throat or a fuzzy coat that
// stays wet is left alone (common practice, no source).
func (w *walk) mist(row *model.Row) placed {
	need := w.need(row, w.now, w.room)
	switch {
	case !row.Rot.IsZero():
		return skip(row, Warning, "suspected rot: keep it dry")
	case !row.Bloom.IsZero():
		return w.daily(row, reason(Capped, "in bloom: the leaves only, not the flower"))
	case healing(row, w.rules, w.now):
		return w.daily(row, reason(Capped, "just separated: mist, no soak until the wound is dry"))
	case row.Form == model.Bulbous:
		return skip(row, Capped, "bulbous: water stays in its throat")
	case row.Form == model.Fuzzy && w.room.RH >= w.rules[model.MistFuzzyRH]:
		return skip(row, Capped, "fuzzy: its coat stays wet, and the room is not that dry")
	case need.Band.InWater():
		return skip(row, Capped, "thirsty: it wants a soak (%s), not a mist", need.Band)
	case need.Band == soak.Mist:
		return w.misted(row, time.Time{})
	}
	return w.resting(row, need)
}

// daily is a plant that is misted every day.
func (w *walk) daily(row *model.Row, why Reason) placed {
	var next time.Time
	if !row.Misted.IsZero() {
		next = row.Misted.Add(mistedHours * time.Hour)
	}
	return w.from(row, next, why, w.lastMist(row))
}

// misted is a plant whose last mist is over.
func (w *walk) misted(row *model.Row, next time.Time) placed {
	since := reason(Saw, "%s", w.sinceSoak(row))
	if row.Misted.Before(row.LastSoak()) || row.Misted.IsZero() {
		return w.from(row, next, since)
	}
	return w.from(row, next, w.lastMist(row), since)
}

// resting is a plant that wants nothing yet: its day comes some days after the
// soak, and an interval after the last mist. What a look said against it, as a
// leaf that is still dark, leaves it out.
func (w *walk) resting(row *model.Row, need Need) placed {
	var next time.Time
	if soaked := row.LastSoak(); !soaked.IsZero() {
		next = soaked.Add(time.Duration(max(w.rules[model.MistDays], w.rules[model.RestDays]) * 24 * float64(time.Hour)))
	}
	if !row.Misted.IsZero() {
		next = later(next, row.Misted.Add(max(mistEvery(row.Plant, w.rules, w.room.DeficitKPa)-walkSlack, mistedHours*time.Hour)))
	}
	if !next.After(w.now) {
		return placed{Stop{ID: row.ID, Reasons: need.Reasons[:1]}, listSkipped}
	}
	return w.misted(row, next)
}

func (w *walk) lastMist(row *model.Row) Reason {
	if row.Misted.IsZero() {
		return reason(Saw, "no mist on record")
	}
	return reason(Saw, "misted %s ago", agoWords(w.now.Sub(row.Misted)))
}

func (w *walk) sinceSoak(row *model.Row) string {
	if row.LastSoak().IsZero() {
		return "no soak on record"
	}
	return agoWords(w.now.Sub(row.LastSoak())) + " since the soak"
}

// agoWords is a length of time as people say it: minutes and hours on the same
// day, else whole days.
func agoWords(d time.Duration) string {
	if d < 24*time.Hour {
		return minutesWords(d.Minutes())
	}
	return daysWords(d.Hours() / 24)
}
