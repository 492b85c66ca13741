package day

import (
	"cmp"
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/estimate"
)

// Week is the collection spread over the days of a week that repeats: every
// shelf has its day, so that shelf-mates share it, and what wants water twice a
// week is soaked again three or four days on.
type Week struct {
	Made    time.Time
	Air     estimate.ExpectedAir // that the intervals are for
	Days    []WeekDay            // Monday first
	Shelves []ShelfTurn          // in walking order
	Short   []ShortOf            // plants that no rhythm here holds, by number

	rules model.Rules
	house house
	loads [7]visit // what every day is asked for, while shelves are given their days
}

// house is what every day has.
type house struct {
	litres float64 // of all vessels for plain water
	bench  float64 // m²
	hours  float64 // of a day, from the first hands until all must be dry
}

// WeekDay is one day of the week, as an average of the weeks.
type WeekDay struct {
	Day    model.Weekday
	Next   time.Time // the next such day, at the hour the hands are free
	Has    float64   // hours that the grower has, by the house rules
	Needs  float64   // hours it takes: the most of hands and vessels
	Hands  float64   // hours of hands
	Vessel float64   // hours that the vessels are full, at the least
	Plants float64   // that go in
	Bench  float64   // share of the drying places' room and time that is used
	Fits   bool
}

// ShelfTurn is a shelf and its days.
type ShelfTurn struct {
	Shelf  string
	Day    model.Weekday
	Second model.Weekday // for what wants water twice a week; empty when nothing does
	Kept   bool          // the book says so; else it is proposed
	Plants int
	Twice  int     // of them twice a week
	Rare   int     // of them every second week
	Hands  float64 // hours a week

	first, again visit
	ids, twice   model.IDs
}

// visit is what a turn asks of a day, on average.
type visit struct {
	plants float64
	hands  float64 // s
	water  float64 // litre minutes
	bench  float64 // m² hours
}

func (v *visit) add(o visit, times float64) {
	v.plants += times * o.plants
	v.hands += times * o.hands
	v.water += times * o.water
	v.bench += times * o.bench
}

// ShortOf is a plant that wants water more often than any rhythm gives it.
type ShortOf struct {
	ID   model.ID
	Days float64 // until it has lost more than a plant should between two soaks
}

// NewWeek spreads the collection over the week: shelves whose day is in the book
// keep it, the others get the days on which the hours level out best.
func NewWeek(k *estimate.Keeper, now time.Time) *Week {
	now = now.In(k.Book().Zone())
	w := &Week{Made: now, Air: k.ExpectAir(now, now, now.AddDate(0, 0, 7)), rules: k.Book().Rules()}
	w.house = houseOf(k.Book())
	byShelf := map[string]int{}
	dry := estimate.NewDryTimes(k, estimate.RoomNow(k.Book(), now), now)
	for _, id := range k.Book().IDs() {
		row := k.Book().Row(id)
		if row.State == model.Gone || !row.Rot.IsZero() || row.MistOnly {
			continue
		}
		w.count(row, intervalOf(k, row, w.Air.Deficit), dry.Hours(row), w.turnOf(k.Book(), row, byShelf))
	}
	slices.SortStableFunc(w.Shelves, func(a, b ShelfTurn) int { return model.NaturalCompare(a.Shelf, b.Shelf) })
	w.spread()
	w.addUp()
	return w
}

func houseOf(b *model.Book) house {
	var h house
	for _, v := range b.Vessels() {
		if !v.Fed {
			h.litres += v.Litres
		}
	}
	for _, o := range b.Benches() {
		h.bench += o.Room
	}
	r := b.Rules()
	h.hours = math.Max(r[model.DryByHour]-r[model.DayFrom], 1)
	return h
}

// turnOf is the place in the week's shelves of a plant's shelf.
func (w *Week) turnOf(b *model.Book, row *model.Row, byShelf map[string]int) int {
	key := model.ShelfKey(row.Home.Shelf)
	at, known := byShelf[key]
	if !known {
		at = len(w.Shelves)
		byShelf[key] = at
		day, kept := b.ShelfDay(row.Home.Shelf)
		w.Shelves = append(w.Shelves, ShelfTurn{Shelf: row.Home.Shelf, Day: day, Kept: kept})
	}
	return at
}

// count adds a plant to its shelf's turn.
func (w *Week) count(row *model.Row, i interval, dryHours float64, at int) {
	t := &w.Shelves[at]
	r, holds := i.rhythm()
	one := w.visit(row, i.soak(r.gap()), dryHours)
	t.Plants++
	t.ids = append(t.ids, row.ID)
	switch r {
	case fortnightly:
		t.Rare++
		t.first.add(one, 0.5)
	case weekly:
		t.first.add(one, 1)
	case twiceWeekly:
		t.Twice++
		t.twice = append(t.twice, row.ID)
		t.first.add(one, 1)
		t.again.add(one, 1)
	}
	if !holds {
		w.Short = append(w.Short, ShortOf{row.ID, i.until})
	}
}

// visit is what one soak of a plant asks of a day.
func (w *Week) visit(row *model.Row, minutes, dryHours float64) visit {
	in, out := estimate.HandSeconds(row.Plant, w.rules)
	bulk := estimate.Bulk(row.Plant)
	return visit{
		plants: 1,
		hands:  in + out,
		water:  bulk * (minutes + out/60),
		bench:  estimate.BenchRoom(row.Plant) * dryHours,
	}
}

// addUp adds up the days.
func (w *Week) addUp() {
	sums := w.sums()
	w.Days = make([]WeekDay, len(model.Weekdays))
	for d, day := range model.Weekdays {
		v := sums[d]
		wd := WeekDay{
			Day: day, Next: w.next(d), Has: w.rules[day.Limit()], Plants: v.plants,
			Hands: v.hands / 3600,
			Bench: share(v.bench, w.house.bench*w.house.hours),
		}
		wd.Vessel = share(v.water, w.house.litres) / 60
		wd.Needs = math.Max(wd.Hands, wd.Vessel)
		wd.Fits = wd.Needs <= wd.Has && wd.Bench <= 1
		w.Days[d] = wd
	}
	for i := range w.Shelves {
		t := &w.Shelves[i]
		t.Hands = (t.first.hands + t.again.hands) / 3600
	}
}

// share is a part of a whole; nothing of nothing is 0, something of nothing far
// too much.
func share(part, whole float64) float64 {
	switch {
	case part <= 0:
		return 0
	case whole <= 0:
		return math.Inf(1)
	}
	return part / whole
}

// sums is what every day is asked for.
func (w *Week) sums() [7]visit {
	var all Week
	for i := range w.Shelves {
		all.load(&w.Shelves[i], 1)
	}
	return all.loads
}

// dayIndex is the place of a day in the week, -1 for none.
func dayIndex(d model.Weekday) int { return slices.Index(model.Weekdays, d) }

// next is when the next such day begins for the hands; today if it is not over.
func (w *Week) next(d int) time.Time {
	for ahead := range 8 {
		day := w.Made.AddDate(0, 0, ahead)
		if dayIndex(model.WeekdayOf(day)) == d && model.AtHour(day, w.rules[model.DayUntil]).After(w.Made) {
			return model.AtHour(day, w.rules[model.DayFrom])
		}
	}
	return w.Made
}

// Turn is a shelf's turn, or nil when there is no such shelf.
func (w *Week) Turn(shelf string) *ShelfTurn {
	i := slices.IndexFunc(w.Shelves, func(t ShelfTurn) bool { return model.ShelfKey(t.Shelf) == model.ShelfKey(shelf) })
	if i < 0 {
		return nil
	}
	return &w.Shelves[i]
}

// Plants are those whose turn is on a day: all of the shelves whose day it is,
// and of those that have their second turn then, what wants it.
func (w *Week) Plants(day model.Weekday) model.IDs {
	var ids model.IDs
	for _, t := range w.Shelves {
		switch day {
		case t.Day:
			ids = append(ids, t.ids...)
		case t.Second:
			ids = append(ids, t.twice...)
		}
	}
	return ids
}

// Keep is the entry that writes the week into the book, nil when it is there.
func (w *Week) Keep() *model.ShelfDays {
	days := map[string]model.Weekday{}
	for _, t := range w.Shelves {
		if !t.Kept {
			days[t.Shelf] = t.Day
		}
	}
	if len(days) == 0 {
		return nil
	}
	return &model.ShelfDays{Days: days}
}

// busiest sorts turns by their work, the most first.
func busiest(a, b *ShelfTurn) int {
	return cmp.Or(
		cmp.Compare(b.first.hands+b.again.hands, a.first.hands+a.again.hands),
		model.NaturalCompare(a.Shelf, b.Shelf),
	)
}
