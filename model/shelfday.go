package model

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"
)

var _ = register[ShelfDays]("shelfdays")

// Weekday is a day of the week as the book writes it: "mon". Empty is none.
type Weekday string

// Weekdays lists the days of the week, Monday first.
var Weekdays = []Weekday{"mon", "tue", "wed", "thu", "fri", "sat", "sun"}

// WeekdayOf is the day of the week of a time, in the time's own zone.
func WeekdayOf(t time.Time) Weekday { return Weekdays[(int(t.Weekday())+6)%len(Weekdays)] }

// ParseWeekday reads a day by its English name or its first letters.
func ParseWeekday(s string) (Weekday, error) {
	s = strings.ToLower(strings.TrimSpace(s))
	for i, w := range Weekdays {
		name := strings.ToLower(time.Weekday((i + 1) % len(Weekdays)).String())
		if len(s) >= 2 && strings.HasPrefix(name, s) {
			return w, nil
		}
	}
	return "", &Problem{What: fmt.Sprintf("there is no day %q", s), Do: "use mon, tue, wed, thu, fri, sat or sun"}
}

// Limit is the house rule with the hours for soaking on the day.
func (w Weekday) Limit() Limit {
	for i, o := range Weekdays {
		if o == w {
			return SoakMon + Limit(i)
		}
	}
	return SoakMon
}

// ShelfDays says on which day of the week shelves are soaked. Shelves it does
// not name keep their day.
type ShelfDays struct {
	Days map[string]Weekday `json:"days"` // by shelf; an empty day is none
}

// Kind implements [Fact].
func (ShelfDays) Kind() Kind { return "shelfdays" }

func (f ShelfDays) check(b *Book, e Entry) error {
	if len(f.Days) == 0 {
		return &Problem{What: "days for no shelf", Do: "name a shelf and its day"}
	}
	for shelf, day := range f.Days {
		if day == "" {
			continue
		}
		if !slices.Contains(Weekdays, day) {
			return &Problem{What: fmt.Sprintf("there is no day %q", day), Do: "use mon, tue, wed, thu, fri, sat or sun"}
		}
		if !b.hasShelf(shelf) {
			return &Problem{What: fmt.Sprintf("no plants on shelf %q", shelf)}
		}
	}
	return nil
}

func (f ShelfDays) apply(b *Book, e Entry) {
	days := maps.Clone(b.week)
	if days == nil {
		days = map[string]Weekday{}
	}
	for shelf, day := range f.Days {
		if day == "" {
			delete(days, ShelfKey(shelf))
			continue
		}
		days[ShelfKey(shelf)] = day
	}
	b.week = days
}

// ShelfDay is the day of the week on which a shelf is soaked; false when nobody
// has said.
func (b *Book) ShelfDay(shelf string) (Weekday, bool) {
	day, ok := b.week[ShelfKey(shelf)]
	return day, ok
}
