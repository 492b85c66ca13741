package care

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
	Plants      model.IDs   // only these; none: every plant that is due
	Turn        model.IDs   // the same, but none of them is missed when it is not due
	Shelf       string      // only this shelf; empty: every shelf
	Bands       []soak.Band // only these; none: every band in water
	Feed        bool        // plants due a feed soak in fed water
	Night       bool        // a load may soak over night after the hours; so it is where Until is left to the house rules
	Effort      soak.Effort // how long to look for a better plan; zero: [PlanWork]
}

// Stretch is a piece of time.
type Stretch struct{ From, Until time.Time }

// PlanWork is the work spent on a plan where the grower asks for no other: some
// tenth of a second. Our own.
const PlanWork = 900_000

// shortDay is the least that must be left of a day for a plan to begin on it.
// Our own.
const shortDay = 30 * time.Minute

// filled puts the house rules where the grower has said nothing. A time that is
// past is now. The error is a [model.Problem].
func (a Ask) filled(rules model.Rules, now time.Time) (Ask, error) {
	byRule := func(day time.Time, l model.Limit) time.Time { return HourOf(day, rules[l]) }
	if a.From.IsZero() {
		day := now
		if !a.Until.IsZero() {
			day = a.Until.In(now.Location())
		} else if now.Add(shortDay).After(byRule(now, model.DayUntil)) {
			day = now.AddDate(0, 0, 1)
		}
		a.From = byRule(day, model.DayFrom)
	}
	a.From = later(a.From, nextMinute(now)).In(now.Location()).Round(0).Truncate(time.Second)
	if a.Until.IsZero() {
		a.Until, a.Night = byRule(a.From, model.DayUntil), true
	}
	if a.DryBy.IsZero() {
		a.DryBy = DryBy(rules, a.From)
	}
	a.Until, a.DryBy = a.Until.In(now.Location()).Truncate(time.Second), a.DryBy.In(now.Location()).Truncate(time.Second)
	return a, a.check()
}

// longestDay bounds the hours of one plan. Our own: a day and its night.
const longestDay = 24 * time.Hour

func (a Ask) check() error {
	clock := func(t time.Time) string { return t.Format("15:04") }
	switch {
	case !a.Until.After(a.From):
		return &model.Problem{What: fmt.Sprintf("hours from %s until %s", clock(a.From), clock(a.Until)), Do: "give an hour to end that is still to come"}
	case a.Until.Sub(a.From) > longestDay:
		return &model.Problem{What: "a plan for more than a day", Do: "plan one day, and see the week for more"}
	case !a.DryBy.After(a.From):
		return &model.Problem{What: fmt.Sprintf("dry by %s, before the first plant goes in", clock(a.DryBy)), Do: "give a later hour, or start earlier"}
	}
	for _, p := range a.Pauses {
		if !p.Until.After(p.From) {
			return &model.Problem{What: fmt.Sprintf("a pause from %s until %s", clock(p.From), clock(p.Until)), Do: "let it end after it begins"}
		}
	}
	if len(a.hands()) == 0 {
		return &model.Problem{What: "the pauses leave no time for the hands", Do: "shorten one"}
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
		if end := earlier(p.From, a.Until); end.After(from) {
			free = append(free, Stretch{from, end})
		}
		from = later(from, p.Until)
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
	shelf := model.ShelfKey(a.Shelf)
	return func(row *model.Row) bool {
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

// HourOf is an hour of a day, given as 14.5 for half past two.
func HourOf(day time.Time, hour float64) time.Time {
	y, m, d := day.Date()
	return time.Date(y, m, d, 0, int(hour*60+0.5), 0, 0, day.Location())
}

func nextMinute(t time.Time) time.Time {
	if whole := t.Truncate(time.Minute); !whole.Equal(t) {
		return whole.Add(time.Minute)
	}
	return t
}
