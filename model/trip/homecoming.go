package trip

import (
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
)

// Homecoming is what there is to do after a trip.
type Homecoming struct {
	Trip     model.Absence
	Day      int                         // days of the calendar since coming home, from 0
	Order    model.IDs                   // every plant not gone, in walking order
	Forecast map[model.ID]estimate.Stand // as it was forecast for the return; only plants not in water since leaving
	Looks    []LookDue                   // due now, in walking order
}

// LookDue is one look for rot after a trip.
type LookDue struct {
	ID  model.ID
	Day int // after coming home: one of [advice.LookDays]
}

// NewHomecoming is what there is to do after the last trip. It returns false when
// there was none, while it lasts, and when it is long over.
func NewHomecoming(k *estimate.Keeper, now time.Time) (*Homecoming, bool) {
	trip, ok := k.Book().LastTrip()
	if !ok || !trip.OverBy(now) {
		return nil, false
	}
	zone := k.Book().Zone()
	h := &Homecoming{Trip: trip, Day: int(date.NewAt(now.In(zone)) - date.NewAt(trip.Home().In(zone)))}
	if h.Day > advice.HomecomingDays {
		return nil, false
	}
	for _, id := range k.Book().IDs() {
		if k.Book().Row(id).State != model.Gone {
			h.Order = append(h.Order, id)
		}
	}
	h.Order = k.Book().Walk(h.Order)
	h.Forecast = asForecast(k, trip)
	h.Looks = looksDue(k, h, now)
	return h, true
}

// asForecast is what was expected of each plant on return, from what was known
// when the grower left.
func asForecast(k *estimate.Keeper, trip model.Absence) map[model.ID]estimate.Stand {
	water := k.Project(trip.From, k.ExpectAir(trip.From, trip.From, trip.Home()), nil)
	stands := map[model.ID]estimate.Stand{}
	for _, id := range k.Book().IDs() {
		row := k.Book().Row(id)
		if row.State == model.Gone {
			continue
		}
		if c, ok := water.CourseAsLeft(row, trip.From); ok {
			stands[id] = c.Stand(trip.Home())
		}
	}
	return stands
}

// looksDue lists the plants to look at for rot now.
func looksDue(k *estimate.Keeper, h *Homecoming, now time.Time) []LookDue {
	var due []LookDue
	for _, id := range h.Order {
		if day, _, ok := advice.DueAfterTrip(k.Book(), k.Book().Row(id), now); ok {
			due = append(due, LookDue{id, day})
		}
	}
	return due
}
