package care

import (
	"fmt"
	"slices"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

// LookDays are the days after a trip on which the plants soaked since are looked
// at for rot, which shows three to ten days after a soak. Growers' habit.
var LookDays = []int{3, 7}

// homecomingDays is how long a trip that is over is spoken of. Our own: until
// the last look, and a few days of being late with it.
const homecomingDays = 12

// Homecoming is what there is to do after a trip.
type Homecoming struct {
	Trip     model.Absence
	Day      int                // days of the calendar since coming home, from 0
	Order    model.IDs          // every plant not gone, in walking order
	Forecast map[model.ID]Stand // as it was forecast for the return; only plants not in water since leaving
	Looks    []LookDue          // due now, in walking order
}

// LookDue is one look for rot after a trip.
type LookDue struct {
	ID     model.ID
	Day    int // after coming home: one of LookDays
	Reason string
}

// Homecoming is what there is to do after the last trip. It returns false when
// there was none, while it lasts, and when it is long over.
func (k *Keeper) Homecoming(now time.Time) (*Homecoming, bool) {
	trip, ok := k.book.LastTrip()
	if !ok || !trip.OverBy(now) {
		return nil, false
	}
	zone := k.book.Zone()
	h := &Homecoming{Trip: trip, Day: int(date.NewAt(now.In(zone)) - date.NewAt(trip.Home().In(zone)))}
	if h.Day > homecomingDays {
		return nil, false
	}
	for _, id := range k.book.IDs() {
		if k.book.Row(id).State != model.Gone {
			h.Order = append(h.Order, id)
		}
	}
	h.Order = k.book.Walk(h.Order)
	h.Forecast = k.asForecast(trip)
	h.Looks = k.looksDue(h, now)
	return h, true
}

// asForecast is what was expected of each plant on return, from what was known
// when the grower left.
func (k *Keeper) asForecast(trip model.Absence) map[model.ID]Stand {
	t := &Trip{Now: trip.From, From: trip.From, Until: trip.Home(), Air: k.ExpectAir(trip.From, trip.From, trip.Home())}
	f := forecaster{Keeper: k, Trip: t}
	stands := map[model.ID]Stand{}
	for _, id := range k.book.IDs() {
		row, w := k.book.Row(id), k.water[id]
		if row.State == model.Gone || w.wet || w.dry.After(trip.From) || row.LastSoak().After(trip.From) {
			continue
		}
		s := &w.stretch
		if w.misted.After(trip.From) {
			if w.left == nil || !w.left.from.Equal(trip.From) {
				continue
			}
			s = &w.left.stretch
		}
		c := f.courseOf(row, s)
		if w.seen != nil && w.seen.look.After(trip.From) {
			c.shares = k.lossBeforeLook(k.plants[id])
		}
		stands[id] = c.stand(t.Until)
	}
	return stands
}

// looksDue lists the plants to look at for rot now.
func (k *Keeper) looksDue(h *Homecoming, now time.Time) []LookDue {
	var due []LookDue
	for _, id := range h.Order {
		if day, _, ok := k.lookAfterTrip(k.book.Row(id), now); ok {
			due = append(due, LookDue{id, day, afterTripWords(day)})
		}
	}
	return due
}

// lookAfterTrip is the look for rot that a plant is due after a trip: on which
// of the days, and since when. A plant soaked since coming home is due when
// nobody has looked at it since the last of the days came.
func (k *Keeper) lookAfterTrip(row *model.Row, now time.Time) (day int, since time.Time, due bool) {
	trip, ok := k.book.LastTrip()
	if !ok || !trip.OverBy(now) {
		return 0, since, false
	}
	home := date.NewAt(trip.Home().In(k.book.Zone()))
	after := int(date.NewAt(now.In(k.book.Zone())) - home)
	i, _ := slices.BinarySearch(LookDays, after+1)
	if i == 0 || after > homecomingDays {
		return 0, since, false
	}
	day = LookDays[i-1]
	y, m, d := (home + date.Date(day)).Date()
	since = time.Date(y, m, d, 0, 0, 0, 0, k.book.Zone())
	soaked := row.Out.After(trip.Home()) && row.Out.Before(since)
	return day, since, soaked && later(row.SignsAt, row.Looked).Before(since)
}

func afterTripWords(day int) string {
	return fmt.Sprintf("day %d after the trip, and soaked since: look into the heart for rot", day)
}
