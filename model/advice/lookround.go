package advice

import (
	"fmt"
	"slices"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

// looked places a plant on a look round: the sooner, the worse what is known of
// it.
func (w *walk) looked(row *model.Row) placed {
	if day, since, due := LookAfterTrip(w.book, row, w.now); due {
		return w.from(row, since, Because(Hint, "%s", AfterTripWords(day)))
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
		return model.Later(row.Rot, row.Looked).In(zone), model.LookRotDays, Because(Warning, "suspected rot: press the base, tug a centre leaf")
	case len(row.Troubles) > 0:
		since, oldest := longestUnseen(row)
		return since.In(zone), model.LookSickDays, Because(Warning, "%s", troubleWords(oldest, w.now))
	case !row.Quarantine.IsZero():
		return model.Later(row.Quarantine, row.Looked).In(zone), model.LookNewDays, w.newcomerWords(row)
	case health == model.Suspect:
		return model.Later(row.Cleared, row.Looked).In(zone), model.LookSickDays, Because(Saw, "trouble over since %s: is it back?", onDay(row.Cleared, w.now))
	}
	if may, should := w.book.MaySeparate(row); may && !row.Looked.After(row.OffsetsAt) {
		why = Because(Saw, "%s", map[bool]string{false: "an offset may be separated", true: "an offset is ready to be separated"}[should])
		return model.Later(row.OffsetsAt, row.Looked).In(zone), model.LookDays, why
	}
	if row.Looked.IsZero() {
		return time.Time{}, model.LookDays, Because(Saw, "never looked over")
	}
	return row.Looked.In(zone), model.LookDays, Because(Saw, "looked over %s", onDay(row.Looked, w.now))
}

// longestUnseen is the trouble that was neither found, treated nor looked at for
// the longest time, and since when.
func longestUnseen(row *model.Row) (since time.Time, what model.Ill) {
	for i, t := range row.Troubles {
		seen := model.Later(model.Later(t.Since, t.Treated), row.Looked)
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
		return Because(Saw, "newcomer: %s", lacks[0])
	}
	return Because(Hint, "newcomer: may be released")
}

// LookDays are the days after a trip on which the plants soaked since are looked
// at for rot, which shows three to ten days after a soak. Growers' habit.
var LookDays = []int{3, 7}

// HomecomingDays is how long a trip that is over is spoken of. Our own: until
// the last look, and a few days of being late with it.
const HomecomingDays = 12

// LookAfterTrip is the look for rot that a plant is due after a trip: on which
// of the days, and since when. A plant soaked since coming home is due when
// nobody has looked at it since the last of the days came.
func LookAfterTrip(b *model.Book, row *model.Row, now time.Time) (day int, since time.Time, due bool) {
	trip, ok := b.LastTrip()
	if !ok || !trip.OverBy(now) {
		return 0, since, false
	}
	home := date.NewAt(trip.Home().In(b.Zone()))
	after := int(date.NewAt(now.In(b.Zone())) - home)
	i, _ := slices.BinarySearch(LookDays, after+1)
	if i == 0 || after > HomecomingDays {
		return 0, since, false
	}
	day = LookDays[i-1]
	y, m, d := (home + date.Date(day)).Date()
	since = time.Date(y, m, d, 0, 0, 0, 0, b.Zone())
	soaked := row.Out.After(trip.Home()) && row.Out.Before(since)
	return day, since, soaked && model.Later(row.SignsAt, row.Looked).Before(since)
}

func AfterTripWords(day int) string {
	return fmt.Sprintf("day %d after the trip, and soaked since: look into the heart for rot", day)
}
