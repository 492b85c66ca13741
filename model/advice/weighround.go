package advice

import (
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/estimate"
)

// WeighRound is the walk to the scale with the ten. It is no walk past every plant, and not
// among the [RoundJobs]: only the ten stand on it.
const WeighRound RoundJob = "weigh"

// weighedLately is how many days a weight before a soak holds when the soak is put off. A
// choice: what goes in a day is less than a scale can tell of it.
const weighedLately = 2

// weighRound places the ten, in walking order.
func (w *walk) weighRound(r *Round) {
	ten := w.book.Ten(w.now)
	if ten == nil {
		r.Notes = append(r.Notes, because(NobodyWeighed))
		return
	}
	for _, id := range w.book.Walk(ten.Plants) {
		if row := w.book.Row(id); row.State != model.Gone {
			r.place(w.weigh(row))
		}
	}
	day := math.Floor(w.now.Sub(ten.Since).Hours()/24) + 1
	r.Notes = append(r.Notes, because(ScaleCaution), because(WeighingDay, day, 7*model.WeighingWeeks))
	if slices.ContainsFunc(ten.Plants, func(id model.ID) bool { return w.book.Row(id).WetWeight.At.Before(ten.Since) }) {
		r.Notes = append(r.Notes, because(FirstSoakLong))
	}
}

// weigh places one of the ten. It is weighed before each soak, again when it is dry to the
// heart, and once half way to the next soak.
func (w *walk) weigh(row *model.Row) placed {
	switch row.State {
	case model.Soaking:
		return w.from(row, w.book.Load(row.Load).Due, because(WeighAfterSoak))
	case model.Drying:
		return later(row, because(WeighWhenDry))
	case model.Dry:
		if row.WetWeight.At.Before(row.Out) {
			return w.from(row, row.DryAt, because(WeighFull))
		}
		return later(row, because(WeighedFull, row.WetWeight.Grams))
	}
	fresh := row.Weight.At.After(row.DrySince())
	switch {
	case w.pulled[row.ID] || w.look.Need(row).Band.InWater():
		if fresh && w.now.Sub(row.Weight.At).Hours() < 24*weighedLately {
			return later(row, because(WeighedOnce, row.Weight.Grams))
		}
		if row.SignsAt.Before(model.AtHour(w.now, 0)) {
			return w.from(row, time.Time{}, because(WeighAndLook))
		}
		return w.from(row, time.Time{}, because(WeighBefore))
	case fresh:
		return later(row, because(WeighedOnce, row.Weight.Grams))
	}
	rhythm := Rhythm(row.Plant, w.keeper.Plant(row.ID, w.now).Draw, w.rules)
	return w.from(row, row.DrySince().Add(time.Duration(rhythm)*12*time.Hour), because(WeighHalfWay))
}

// later is a stop that waits for something other than a day.
func later(row *model.Row, why Reason) placed {
	return placed{Stop{ID: row.ID, Reasons: []Reason{why}}, listLater}
}

// ToBeWeighed counts the plants to weigh now: before they go in, dry and not hung
// yet, and half way to their soak.
func ToBeWeighed(k *estimate.Keeper, now time.Time) (before, full, halfWay int) {
	if k.Book().Ten(now) == nil {
		return 0, 0, 0
	}
	for _, s := range NewRound(k, WeighRound, now).Due {
		switch s.Reasons[0].Code {
		case WeighBefore, WeighAndLook:
			before++
		case WeighFull:
			full++
		default:
			halfWay++
		}
	}
	return before, full, halfWay
}
