package estimate

import (
	"slices"
	"sort"
	"time"

	"tubside/model"
	"tubside/model/drying"
)

// Ahead is the hours to come in the room of the drying plants.
type Ahead struct {
	Humidity []AirMoment // from the moment the room was solved from until all is dry, oldest first
	PeakRH   float64     // % at its highest
	AllDry   time.Time   // when the last plant is expected to be dry
	Opened   time.Time   // the same if a window were opened now; zero when one is open already
	MayCome  int         // medium plants that may still come out now without one on the bench missing the dry-by hour; MostMayCome stands for as many or more
}

// AirMoment is the room's humidity at one time.
type AirMoment struct {
	At time.Time
	RH float64 // %
}

// MostMayCome is as far as plants that may still come out are counted. A choice:
// more than a tub holds.
const MostMayCome = 300

// Ahead looks at the hours to come with what is drying now. It returns false
// when nothing is.
func (k *Keeper) Ahead(now time.Time) (Ahead, bool) {
	rows := k.stillDrying()
	if len(rows) == 0 {
		return Ahead{}, false
	}
	d := k.room(now)
	a := Ahead{PeakRH: 100 * d.peakRH, AllDry: k.allDry(d, rows)}
	for _, m := range d.forecast.Moments {
		a.Humidity = append(a.Humidity, AirMoment{d.bench.at.Add(model.Hours(m.Hours)), 100 * m.RH})
	}
	if k.book.Window(now).Window != model.WindowOpen {
		a.Opened = k.allDry(d.bench.aired(now, d.bench.opened).solve(), rows)
	}
	a.MayCome = k.mayCome(d, rows, now)
	return a, true
}

// stillDrying lists the plants that are out and not found dry.
func (k *Keeper) stillDrying() []*model.Row {
	var rows []*model.Row
	for _, id := range k.book.IDs() {
		if row := k.book.Row(id); row.State == model.Drying {
			rows = append(rows, row)
		}
	}
	return rows
}

// allDry is when the last of some plants is expected to be dry in a solved
// room.
func (k *Keeper) allDry(d *dryingRoom, rows []*model.Row) time.Time {
	var last time.Time
	for _, row := range rows {
		p := k.plants[row.ID]
		key := d.bench.keyOf(row, *p.traits)
		takes := k.thisTime(p, row, k.drying.groups[key].hours())
		last = model.Later(last, d.groups[key].after(row.Out, takes.middle))
	}
	return last
}

// aired is the same bench with the room aired otherwise from a time on.
func (b onBench) aired(from time.Time, as drying.Airing) onBench {
	as.Hours = max(0, from.Sub(b.at).Hours())
	b.room.Airings = append(
		slices.DeleteFunc(slices.Clone(b.room.Airings), func(a drying.Airing) bool { return a.Hours >= as.Hours }),
		as,
	)
	return b
}

// mayCome counts by halving how many medium plants, shaken and laid upside
// down, may come out now so that they and all that is on the bench are expected
// to be dry by the dry-by hour.
func (k *Keeper) mayCome(d *dryingRoom, rows []*model.Row, now time.Time) int {
	by := k.book.Rules().DryBy(now.In(k.book.Zone()))
	inTime := func(n int) bool {
		more := d.bench.with(n, now)
		room := more.solve()
		newcomers := room.groups[more.order[len(more.order)-1]]
		return !newcomers.after(now, 1).After(by) && !k.allDry(room, rows).After(by)
	}
	return sort.Search(MostMayCome, func(n int) bool { return !inTime(n + 1) })
}

// with is the same bench with n medium plants more that come out at a time.
func (b onBench) with(n int, at time.Time) onBench {
	out := model.TakenOut(true)
	handled := drying.Handling{Shaken: out.Shaken, Inverted: out.Inverted}
	plant := drying.Typical()
	speed := fanSpeed(b.fan)
	b.order = append(slices.Clone(b.order), dryKey{out: at.Unix(), plant: bareOf(plant), handling: handled, speed: speed})
	b.groups = append(
		slices.Clone(b.groups),
		drying.Group{Plant: plant, Handling: handled, Count: n, Speed: speed, MinutesOut: b.at.Sub(at).Minutes()},
	)
	return b
}
