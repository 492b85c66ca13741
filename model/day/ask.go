package day

import (
	"fmt"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// Ask is what the grower wants of a soak day. The zero Ask is a day by the house
// rules, from now or from the next morning on.
type Ask struct {
	From, Until time.Time   // the hours that the hands have; zero: the house rules'
	DryBy       time.Time   // when all must be dry; zero: the house rule's hour
	Pauses      []Stretch   // when the hands are away
	Help        []Stretch   // when another pair of hands is there
	Plants      model.IDs   // only these; none: every plant that is due
	Turn        model.IDs   // the same, but none of them is missed when it is not due
	Shelf       string      // only this shelf; empty: every shelf
	Bands       []soak.Band // only these; none: every band in water
	Feed        bool        // plants due a feed soak in fed water
	Without     model.IDs   // not these
	Skipped     model.IDs   // nor these, which the grower has left for another day: the plan says so
	NotShelf    string      // not this shelf; empty: every shelf
	MoreLoads   int         // than the house rule
	Small       bool        // loads of any size, where the house rule has none under a few plants
	Airy        bool        // a window or the door stands open until they are dry
	Effort      soak.Effort // how long to look for a better plan; zero: as [soak.DefaultWork] says
	followed    bool        // it is of a plan that is agreed: its hours may be past
}

// Stretch is a piece of time.
type Stretch struct{ From, Until time.Time }

// shortDay is the least that must be left of a day for a plan to begin on it.
// A choice.
const shortDay = 30 * time.Minute

// Filled puts the house rules where the grower has said nothing. A time that is
// past is now. The error is a [model.Problem].
func (a Ask) Filled(rules model.Rules, now time.Time) (Ask, error) {
	if a.From.IsZero() {
		a.From = a.usualFrom(rules, now)
	}
	a.From = model.Later(a.From, nextMinute(now)).In(now.Location()).Round(0).Truncate(time.Second)
	if a.Until.IsZero() {
		a.Until = model.AtHour(a.From, rules[model.DayUntil])
	}
	if a.DryBy.IsZero() { // in the evening it may be past: then only what soaks over night has a place
		a.DryBy = rules.DryBy(a.From)
	} else if !a.DryBy.After(a.From) && !a.followed {
		return a, &model.Problem{What: "dry by " + clockOf(a.DryBy) + ", before the first plant goes in", Do: "give a later hour, or start earlier"}
	}
	a.Until, a.DryBy = a.Until.In(now.Location()).
		Truncate(time.Second),
		a.DryBy.In(now.Location()).
			Truncate(time.Second)
	return a, a.check()
}

// usualFrom is when the house rules begin the day that the plan is for: that of
// its end, or this one if enough of it is left, or the next; of those, the first with
// hours for soaking.
func (a Ask) usualFrom(rules model.Rules, now time.Time) time.Time {
	from := func(day time.Time) time.Time { return model.AtHour(day, rules[model.DayFrom]) }
	switch {
	case !a.Until.IsZero():
		until := a.Until.In(now.Location())
		if from(until).Before(until) {
			return from(until)
		}
		return from(until.AddDate(0, 0, -1))
	case now.Add(shortDay).After(model.AtHour(now, rules[model.DayUntil])):
		return from(withHours(rules, now.AddDate(0, 0, 1)))
	}
	return from(withHours(rules, now))
}

// withHours is the first day from one on for which the house rules have hours for
// soaking; that one where none has.
func withHours(rules model.Rules, first time.Time) time.Time {
	for n := range len(model.Weekdays) {
		if day := first.AddDate(0, 0, n); rules[model.WeekdayOf(day).Limit()] > 0 {
			return day
		}
	}
	return first
}

// longestDay bounds the hours of one plan. A choice: a day and its night.
const longestDay = 24 * time.Hour

func (a Ask) check() error {
	switch {
	case !a.Until.After(a.From):
		return &model.Problem{
			What: fmt.Sprintf("hours from %s until %s", clockOf(a.From), clockOf(a.Until)),
			Do:   "give an hour to end that is still to come",
		}
	case a.Until.Sub(a.From) > longestDay:
		return &model.Problem{What: "a plan for more than a day", Do: "plan one day, and see the week for more"}
	}
	for _, p := range a.Pauses {
		if !p.Until.After(p.From) {
			return &model.Problem{
				What: fmt.Sprintf("a pause from %s until %s", clockOf(p.From), clockOf(p.Until)),
				Do:   "let it end after it begins",
			}
		}
	}
	if len(a.hands()) == 0 {
		return &model.Problem{What: "the pauses leave no time to work", Do: "shorten one"}
	}
	return nil
}

// hands is the hours cut by the pauses, in order.
func (a Ask) hands() []Stretch {
	pauses := slices.Clone(a.Pauses)
	slices.SortFunc(pauses, func(x, y Stretch) int { return x.From.Compare(y.From) })
	var free []Stretch
	from := a.From
	for _, p := range pauses {
		if end := model.Earlier(p.From, a.Until); end.After(from) {
			free = append(free, Stretch{from, end})
		}
		from = model.Later(from, p.Until)
	}
	if a.Until.After(from) {
		free = append(free, Stretch{from, a.Until})
	}
	return free
}

// asked reports whether the plant is one of those asked for. Lists are turned
// into sets: they may name every plant.
func (a Ask) asked() func(*model.Row) bool {
	named, turn := setOf(a.Plants), setOf(a.Turn)
	without, skipped, shelf, spared := setOf(a.Without), setOf(a.Skipped), model.ShelfKey(a.Shelf), model.ShelfKey(a.NotShelf)
	return func(row *model.Row) bool {
		if without[row.ID] || skipped[row.ID] || spared != "" && model.ShelfKey(row.Home.Shelf) == spared {
			return false
		}
		return (named == nil || named[row.ID]) && (turn == nil || turn[row.ID]) && (shelf == "" || model.ShelfKey(row.Home.Shelf) == shelf)
	}
}

func setOf(ids model.IDs) map[model.ID]bool {
	if len(ids) == 0 {
		return nil
	}
	set := make(map[model.ID]bool, len(ids))
	for _, id := range ids {
		set[id] = true
	}
	return set
}

// wants reports whether plants of a band are to be soaked.
func (a Ask) wants(b soak.Band) bool {
	return b.InWater() && (len(a.Bands) == 0 || slices.Contains(a.Bands, b))
}

func clockOf(t time.Time) string { return t.Format("15:04") }

func nextMinute(t time.Time) time.Time {
	if whole := t.Truncate(time.Minute); !whole.Equal(t) {
		return whole.Add(time.Minute)
	}
	return t
}
