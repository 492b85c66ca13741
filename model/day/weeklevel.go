package day

import (
	"fmt"
	"math"
	"slices"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/leaf"
)

// secondAfter are the days after its own on which a shelf may have its second
// turn: then none of its plants waits more than four days.
var secondAfter = []int{3, 4}

// spread gives every shelf without a day one, and every shelf its second day:
// the busiest first, each where the week's hours stay most level, then one by
// one and two by two for as long as that levels them further. It is the usual
// way to level machines (longest first: Graham 1969, SIAM Journal on Applied
// Mathematics 17:416-429) with a search by single moves and swaps after it.
func (w *Week) spread() {
	var free []*ShelfTurn
	w.loads = w.sums()
	for i := range w.Shelves {
		t := &w.Shelves[i]
		if t.Kept {
			w.put(t, dayIndex(t.Day))
		} else {
			free = append(free, t)
		}
	}
	slices.SortStableFunc(free, busiest)
	for _, t := range free {
		w.settle(t)
	}
	for range mostRounds {
		w.loads = w.sums() // without what rounding left
		before := w.uneven()
		for _, t := range free {
			w.settle(t)
		}
		w.swap(free)
		if w.uneven() >= before {
			break
		}
	}
}

// mostRounds ends the search for a more level week. A choice; it rarely takes
// three.
const mostRounds = 20

// settle puts a shelf on the day that leaves the week most level, and leaves it
// where it is when none is better.
func (w *Week) settle(t *ShelfTurn) {
	best, least := dayIndex(t.Day), math.Inf(1)
	if best >= 0 {
		w.put(t, best)
		least = w.uneven()
	}
	for d := range model.Weekdays {
		w.put(t, d)
		if u := w.uneven(); u < least-levelEnough {
			best, least = d, u
		}
	}
	w.put(t, max(best, 0))
}

// levelEnough is too little to move a shelf for. A choice.
const levelEnough = 1e-9

// put gives a shelf a day, and the better second one.
func (w *Week) put(t *ShelfTurn, d int) {
	w.load(t, -1)
	t.Day, t.Second = model.Weekdays[d], ""
	w.load(t, 1)
	if t.Twice == 0 {
		return
	}
	least, without := math.Inf(1), w.loads
	var best [7]visit
	for _, after := range secondAfter {
		second := (d + after) % len(model.Weekdays)
		w.loads = without
		w.loads[second].add(t.again, 1)
		if u := w.uneven(); u < least-levelEnough {
			t.Second, best, least = model.Weekdays[second], w.loads, u
		}
	}
	w.loads = best
}

// load adds a shelf's turns to the days it has, or takes them away with -1.
func (w *Week) load(t *ShelfTurn, times float64) {
	if d := dayIndex(t.Day); d >= 0 {
		w.loads[d].add(t.first, times)
	}
	if d := dayIndex(t.Second); d >= 0 {
		w.loads[d].add(t.again, times)
	}
}

// swap makes two shelves change days where that levels the week.
func (w *Week) swap(free []*ShelfTurn) {
	for i, a := range free {
		for _, b := range free[:i] {
			if a.Day == b.Day {
				continue
			}
			was, loads, wasA, wasB := w.uneven(), w.loads, *a, *b
			w.put(a, dayIndex(wasB.Day))
			w.put(b, dayIndex(wasA.Day))
			if w.uneven() >= was-levelEnough {
				*a, *b, w.loads = wasA, wasB, loads
			}
		}
	}
}

// leastHours stands for the hours of a day that has none, so that work there
// weighs heavily, yet not without end. A choice.
const leastHours = 0.05

// uneven is how far the week is from level: the squares of the days' loads as
// mass of their hours, each by its hours, so that a perfectly level week is
// the least.
func (w *Week) uneven() float64 {
	sums := &w.loads
	total := 0.0
	for d, day := range model.Weekdays {
		has := math.Max(w.rules[day.Limit()], leastHours)
		hands := sums[d].hands / 3600
		vessel := share(sums[d].water, w.house.litres) / 60
		load := math.Min(math.Max(hands, vessel)/has, 1e6)
		bench := math.Min(share(sums[d].bench, w.house.bench*w.house.hours), 1e6)
		over := math.Max(bench-1, 0)
		total += has * (load*load + over*over)
	}
	return total
}

// Moved is what moving a shelf to another day does to a week.
type Moved struct {
	Was, Is ShelfTurn
	Days    []DayChange // that are different by a word's worth
}

// DayChange is a day of the week before and after.
type DayChange struct{ Was, Is WeekDay }

// Move moves a shelf to another day, and finds what it does. The week itself
// stays as it is. The error is a [model.Problem].
func (w *Week) Move(shelf string, day model.Weekday) (*Week, Moved, error) {
	moved := *w
	moved.Shelves = slices.Clone(w.Shelves)
	t := moved.Turn(shelf)
	if t == nil {
		return nil, Moved{}, &model.Problem{What: fmt.Sprintf("no plants on shelf %q", shelf)}
	}
	d := dayIndex(day)
	if d < 0 {
		return nil, Moved{}, &model.Problem{
			What: fmt.Sprintf("there is no day %q", day),
			Do:   "use mon, tue, wed, thu, fri, sat or sun",
		}
	}
	moved.put(t, d)
	t.Kept = false
	moved.addUp()
	return &moved, moved.against(w, shelf), nil
}

// against is how a week differs from the one before a shelf was moved.
func (w *Week) against(was *Week, shelf string) Moved {
	m := Moved{Was: *was.Turn(shelf), Is: *w.Turn(shelf)}
	for d := range w.Days {
		a, b := was.Days[d], w.Days[d]
		if math.Abs(a.Needs-b.Needs)*60 >= worthAWord || a.Fits != b.Fits {
			m.Days = append(m.Days, DayChange{a, b})
		}
	}
	return m
}

// interval is how often a plant wants a soak in some air.
type interval struct {
	house int     // the house rule's days from soak to soak
	from  float64 // days after a soak from which it is soaked, by that or by its thirst
	until float64 // days after which it has lost more than a plant should between two soaks
	soak  func(days float64) float64
}

// longestInterval is how far ahead an interval is looked for, days. A choice: what
// lasts longer is soaked every second week all the same.
const longestInterval = 60.0

// mostBetween is the thirst that a plant should not pass between two soaks: edges
// begin to lift about there. A choice.
const mostBetween = 0.30

// intervalOf works out a plant from its pace as learned, the air as expected, and
// a soak that brings it to the house rule's share.
func intervalOf(k *estimate.Keeper, row *model.Row, deficit float64) interval {
	b := k.Book()
	rules, traits := b.Rules(), k.Traits(row.ID)
	pace, _ := k.LossMass(row.ID).Range(0)
	rate := traits.LossRate * pace * k.OnShelf(row.ID)
	full := rules[model.SoakTarget] / 100
	left := func(days float64) float64 { return leaf.Remaining(full, rate, leaf.Dose(0, days, deficit)) }
	tau := k.Tau(row.ID)
	minutes := func(days float64) float64 { return leaf.MinutesTo(left(days), full, tau) }
	house := advice.Rhythm(row.Plant, leaf.Draw(deficit), rules)
	return interval{
		house: house,
		from: math.Min(
			float64(house),
			firstDay(func(days float64) bool { return 1-left(days) >= rules[model.SoakFrom]/100 }),
		),
		until: firstDay(func(days float64) bool { return 1-left(days) >= mostBetween }),
		soak:  func(days float64) float64 { return advice.RoutineLeast(row.Plant, minutes(days), rules) },
	}
}

// firstDay is when something that stays so first is so, in days, to a hundredth.
func firstDay(so func(days float64) bool) float64 {
	low, high := 0.0, longestInterval
	if !so(high) {
		return high
	}
	for high-low > 0.01 {
		if middle := (low + high) / 2; so(middle) {
			high = middle
		} else {
			low = middle
		}
	}
	return high
}

// rhythm is how often a plant is soaked in a week that repeats.
type rhythm int

// The rhythms. A choice: what wants more is misted in between.
const (
	fortnightly rhythm = iota
	weekly
	twiceWeekly
)

// gap is the longest time between two soaks, days.
func (r rhythm) gap() float64 { return [...]float64{fortnightly: 14, weekly: 7, twiceWeekly: 4}[r] }

// tooSlow is the house rule's days from soak to soak, under which once a week is
// too rare: a day or so less is what dry air takes from a weekly rhythm, and a
// mist in between makes up for it. A choice.
const tooSlow = 5

// rhythm is the rarest that holds the plant's interval, and whether any does.
// What is thirsty within a week is soaked every week: growers' habit.
func (i interval) rhythm() (r rhythm, holds bool) {
	switch {
	case i.from > weekly.gap() && i.until >= fortnightly.gap():
		return fortnightly, true
	case i.house > tooSlow && i.until >= weekly.gap():
		return weekly, true
	}
	return twiceWeekly, i.until >= twiceWeekly.gap()
}
