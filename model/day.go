package model

import (
	"fmt"
	"strings"
	"time"

	"github.com/rickb777/date/v2"
)

// DayOrder says how to read a day written with the month as a number and the
// year last.
type DayOrder string

// The orders of day and month in a written date. ISO reads only 2026-01-31.
const (
	ISO DayOrder = ""
	DMY DayOrder = "dmy"
	MDY DayOrder = "mdy"
)

// How a day and a moment stand wherever a person reads them. Files, JSON and what is
// typed keep ISO dates.
const (
	DayLayout    = "2 Jan 2006"
	MomentLayout = "2 Jan 2006 15:04"
)

// DayWords is a day as a person reads it, "31 Jan 2026".
func DayWords(d date.Date) string { return d.Format(DayLayout) }

// ParseDay reads a date. ISO dates are always read, and those that a person reads here,
// 31 Jan 2026; 31.1.2026, 31/1/26 and the like only when order says which part is the
// day. A day that does not exist, such as 30 February, is an error: the date library
// alone would roll it over.
func ParseDay(s string, order DayOrder) (date.Date, error) {
	s = strings.TrimSpace(s)
	layouts := []string{"2006-01-02", "2006-1-2"}
	switch order {
	case DMY:
		layouts = append(layouts, "2/1/2006", "2/1/06")
	case MDY:
		layouts = append(layouts, "1/2/2006", "1/2/06")
	}
	same := strings.NewReplacer(".", "/", " ", "").Replace(s)
	if order != ISO && strings.Count(same, "-") == 2 && !isoYearFirst(same) {
		same = strings.ReplaceAll(same, "-", "/")
	}
	if t, err := time.Parse(DayLayout, PlainDay(s)); err == nil {
		return date.NewAt(t), nil
	}
	for _, layout := range layouts {
		if t, err := time.Parse(layout, same); err == nil {
			return date.NewAt(t), nil
		}
	}
	return 0, &Problem{What: fmt.Sprintf("%q is not a date", s), Do: "write it as 2026-01-31"}
}

// isoYearFirst tells 2026-1-31 from 31-1-2026.
func isoYearFirst(s string) bool {
	return strings.IndexByte(s, '-') == 4
}

// NoonOf is noon of a day in the grower's zone: the hour to give an act of
// which only the day is known. It goes through time.Date because the date
// library's own clock is an hour off on days when the clocks change.
func NoonOf(d date.Date, zone *time.Location) time.Time {
	y, m, day := d.Date()
	return time.Date(y, m, day, 12, 0, 0, 0, zone)
}

// AtHour is an hour of a day, given as 14.5 for half past two.
func AtHour(day time.Time, hour float64) time.Time {
	y, m, d := day.Date()
	return time.Date(y, m, d, 0, int(hour*60+0.5), 0, 0, day.Location())
}

// DryBy is the hour of a day's evening by which the house rules want all to be dry.
func (r Rules) DryBy(day time.Time) time.Time { return AtHour(day, r[DryByHour]) }

// Later is the later of two times.
func Later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

// Earlier is the earlier of two times.
func Earlier(a, b time.Time) time.Time {
	if a.Before(b) {
		return a
	}
	return b
}

// Hours is a length of time in hours.
func Hours(h float64) time.Duration { return time.Duration(h * float64(time.Hour)) }
