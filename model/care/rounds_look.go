package care

import (
	"time"

	"tubside/model"
)

// look places a plant on a look round: the sooner, the worse what is known of
// it.
func (w *walk) look(row *model.Row) placed {
	if day, since, due := w.lookAfterTrip(row, w.now); due {
		return w.from(row, since, reason(Advice, "%s", afterTripWords(day)))
	}
	since, days, why := w.lookAt(row)
	if since.IsZero() {
		return w.from(row, time.Time{}, why)
	}
	when := since.AddDate(0, 0, int(w.rules[days]))
	return w.from(row, when.Add(-walkSlack), why)
}

// lookAt is what the next look counts from, the house rule it waits for, and
// what to look for.
func (w *walk) lookAt(row *model.Row) (since time.Time, days model.Limit, why Reason) {
	zone := w.now.Location()
	switch health := w.book.Health(row, w.now); {
	case !row.Rot.IsZero():
		return later(row.Rot, row.Looked).In(zone), model.LookRotDays, reason(Warning, "suspected rot: press the base, tug a centre leaf")
	case len(row.Troubles) > 0:
		since, oldest := longestUnseen(row)
		return since.In(zone), model.LookSickDays, reason(Warning, "%s", troubleWords(oldest, w.now))
	case !row.Quarantine.IsZero():
		return later(row.Quarantine, row.Looked).In(zone), model.LookNewDays, w.newcomerWords(row)
	case health == model.Suspect:
		return later(row.Cleared, row.Looked).In(zone), model.LookSickDays, reason(Saw, "trouble over since %s: is it back?", onDay(row.Cleared, w.now))
	}
	if may, should := w.book.MaySeparate(row); may && !row.Looked.After(row.OffsetsAt) {
		why = reason(Saw, "%s", map[bool]string{false: "an offset may be separated", true: "an offset is ready to be separated"}[should])
		return later(row.OffsetsAt, row.Looked).In(zone), model.LookDays, why
	}
	if row.Looked.IsZero() {
		return time.Time{}, model.LookDays, reason(Saw, "never looked over")
	}
	return row.Looked.In(zone), model.LookDays, reason(Saw, "looked over %s", onDay(row.Looked, w.now))
}

// longestUnseen is the trouble that was neither found, treated nor looked at for
// the longest time, and since when.
func longestUnseen(row *model.Row) (since time.Time, what model.Ill) {
	for i, t := range row.Troubles {
		seen := later(later(t.Since, t.Treated), row.Looked)
		if i == 0 || seen.Before(since) {
			since, what = seen, t
		}
	}
	return since, what
}

// troubleWords says what a plant has and what was done: "scale since 2 Feb,
// treated 5 Feb".
func troubleWords(t model.Ill, now time.Time) string {
	text := string(t.What) + " since " + onDay(t.Since, now)
	if !t.Treated.IsZero() {
		text += ", treated " + onDay(t.Treated, now) + " (" + t.Treatment + ")"
	}
	return text
}

func (w *walk) newcomerWords(row *model.Row) Reason {
	if lacks := w.book.Lacks(row, w.now); len(lacks) > 0 {
		return reason(Saw, "newcomer: %s", lacks[0])
	}
	return reason(Advice, "newcomer: may be released")
}
