package show

import (
	"fmt"
	"math"
	"strconv"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

// Duration says a length of time, as [Minutes] does: "45 min", "2 h 10
// min", "3 d 4 h".
func Duration(d time.Duration) string { return Minutes(d.Minutes()) }

// Timer is a length of time as a running clock shows it, to the second:
// "4:05", "1:02:09". A negative length has a minus before it.
func Timer(d time.Duration) string {
	if d = d.Truncate(time.Second); d < 0 {
		return "-" + Timer(-d)
	}
	h, m, s := int(d/time.Hour), int(d%time.Hour/time.Minute), int(d%time.Minute/time.Second)
	if h == 0 {
		return fmt.Sprintf("%d:%02d", m, s)
	}
	return fmt.Sprintf("%d:%02d:%02d", h, m, s)
}

// Clock is a time of day in the zone: "14:20" when it is the day of now, "Tue
// 14:20" within six days of it, else with the date. A zero time is "".
func Clock(t, now time.Time, zone *time.Location) string {
	if t.IsZero() {
		return ""
	}
	t = t.In(zone)
	switch days := daysBetween(t, now.In(zone)); {
	case days == 0:
		return t.Format("15:04")
	case days > -7 && days < 7:
		return t.Format("Mon 15:04")
	}
	return t.Format(model.MomentLayout)
}

// Date is a date in the zone as it is said, "31 Jan 2026"; a zero time is "".
func Date(t time.Time, zone *time.Location) string {
	if t.IsZero() {
		return ""
	}
	return t.In(zone).Format(model.DayLayout)
}

// Ago says how many midnights lie between t and now: "today", "yesterday",
// "12 days ago", and "never" for a zero time. A day to come is "tomorrow" or
// "in 3 days".
func Ago(t, now time.Time, zone *time.Location) string {
	if t.IsZero() {
		return "never"
	}
	switch days := daysBetween(t.In(zone), now.In(zone)); {
	case days == 0:
		return "today"
	case days == 1:
		return "yesterday"
	case days > 1:
		return fmt.Sprintf("%d days ago", days)
	case days == -1:
		return "tomorrow"
	default:
		return fmt.Sprintf("in %d days", -days)
	}
}

// daysBetween counts days of the calendar, so that a day on which the clocks
// change counts as one.
func daysBetween(from, to time.Time) int { return int(date.NewAt(to) - date.NewAt(from)) }

// Days says an age in days, counting full ones: "today", "1 day", "12 days".
// Negative means nobody knows, and is "unknown".
func Days(days float64) string {
	switch n := int(days); {
	case days < 0:
		return "unknown"
	case n == 0:
		return "today"
	default:
		return Count(n, "day")
	}
}

// Soak says how long a plant soaks, by the shortest soak that does it and the
// longest it may have, in minutes: "30 min to 3 h", and one length when both
// are the same to the minute. No time at all is "".
func Soak(least, most float64) string {
	low, high := columnMinutes(least), columnMinutes(most)
	switch {
	case most <= 0:
		return ""
	case low == high:
		return high
	case most < 59.5:
		return strconv.Itoa(int(least+0.5)) + " to " + high
	}
	return low + " to " + high
}

// Window says a length from-to in minutes, for a column: "20 – 45 min", "1 h –
// 1 h 30", and one length when both are the same to the minute. No time at all
// is "".
func Window(from, to float64) string {
	low, high := columnMinutes(from), columnMinutes(to)
	switch {
	case to <= 0:
		return ""
	case low == high:
		return high
	case to < 59.5:
		return strconv.Itoa(int(from+0.5)) + " – " + high
	}
	return low + " – " + high
}

// columnMinutes is a length where room is dear: "45 min", "1 h", "1 h 30".
func columnMinutes(m float64) string {
	whole := int(m + 0.5)
	switch h, rest := whole/60, whole%60; {
	case h == 0:
		return strconv.Itoa(rest) + " min"
	case rest == 0:
		return strconv.Itoa(h) + " h"
	default:
		return fmt.Sprintf("%d h %02d", h, rest)
	}
}

// fullDays rounds down as people do: yesterday evening is 0 days.
func fullDays(days float64) string {
	if int(days) == 0 {
		return "less than a day"
	}
	return Count(int(days), "day")
}

// longAgo is a length of time in minutes as people say it: minutes and hours on
// the same day, else whole days.
func longAgo(minutes float64) string {
	if minutes < 24*60 {
		return Minutes(minutes)
	}
	return fullDays(minutes / (24 * 60))
}

// Minutes says a length of time, given in minutes, to the minute: "45 min",
// "2 h 10 min", and from two days on to the hour, "3 d 4 h". Nothing lasts less
// than no time: where a clock was set back it is "0 min". Every sentence says
// lengths in this way.
func Minutes(minutes float64) string {
	m := int(math.Round(max(0, minutes)))
	switch h := m / 60; {
	case h >= 48:
		return withRest(h/24, "d", h%24, "h")
	case h > 0:
		return withRest(h, "h", m%60, "min")
	}
	return fmt.Sprintf("%d min", m)
}

func withRest(n int, unit string, rest int, restUnit string) string {
	if rest == 0 {
		return fmt.Sprintf("%d %s", n, unit)
	}
	return fmt.Sprintf("%d %s %d %s", n, unit, rest, restUnit)
}
