package advice

import (
	"slices"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

// looked places a plant on a look round: the sooner, the worse what is known of
// it.
func (w *walk) looked(row *model.Row) placed {
	if day, since, due := DueAfterTrip(w.book, row, w.now); due {
		return w.from(row, since, because(LookAfterTrip, float64(day)))
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
		return model.Later(row.Rot, row.Looked).In(zone), model.LookRotDays, because(LookAtRot)
	case len(row.Troubles) > 0:
		since, oldest := longestUnseen(row)
		return since.In(zone), model.LookSickDays, because(LookAtTrouble, float64(oldest))
	case !row.Quarantine.IsZero():
		return model.Later(row.Quarantine, row.Looked).In(zone), model.LookNewDays, w.newcomer(row)
	case health == model.Suspect:
		return model.Later(row.Cleared, row.Looked).In(zone), model.LookSickDays, because(TroubleBack)
	}
	if may, should := w.book.MaySeparate(row); may && !row.Looked.After(row.OffsetsAt) {
		why = because(OffsetMay)
		if should {
			why = because(OffsetReady)
		}
		return model.Later(row.OffsetsAt, row.Looked).In(zone), model.LookDays, why
	}
	if row.Looked.IsZero() {
		return time.Time{}, model.LookDays, because(NeverLookedOver)
	}
	return row.Looked.In(zone), model.LookDays, because(LastLookedOver)
}

// longestUnseen is the place of the trouble that was neither found, treated nor looked at for
// the longest time, and since when.
func longestUnseen(row *model.Row) (since time.Time, place int) {
	for i, t := range row.Troubles {
		seen := model.Later(model.Later(t.Since, t.Treated), row.Looked)
		if i == 0 || seen.Before(since) {
			since, place = seen, i
		}
	}
	return since, place
}

func (w *walk) newcomer(row *model.Row) Reason {
	if lacks := w.book.Lacks(row, w.now); len(lacks) > 0 {
		return because(NewcomerLacks)
	}
	return because(NewcomerReady)
}

// LookDays are the days after a trip on which the plants soaked since are looked
// at for rot, which shows three to ten days after a soak. Growers' habit.
var LookDays = []int{3, 7}

// HomecomingDays is how long a trip that is over is spoken of. A choice: until
// the last look, and a few days of being late with it.
const HomecomingDays = 12

// DueAfterTrip is the look for rot that a plant is due after a trip: on which
// of the days, and since when. A plant soaked since coming home is due when
// nobody has looked at it since the last of the days came.
func DueAfterTrip(b *model.Book, row *model.Row, now time.Time) (day int, since time.Time, due bool) {
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
