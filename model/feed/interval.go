package feed

import "time"

// NextFeed is the day from which a plant may be fed again: the given number of days after the day it was last fed. Days
// are those of last's own calendar (its time zone), counted one by one, so that a day of 23 or 25 hours is a day. The
// answer is a day, written as its midnight in UTC. Less than one day counts as none.
func NextFeed(last time.Time, days int) time.Time { return day(last).AddDate(0, 0, max(days, 0)) }

// TooSoon reports whether today is before NextFeed, and that day. A plant never fed (the zero last) is never too soon,
// and there is no day. Where today is before last, as after a clock was set back, it is too soon.
func TooSoon(last time.Time, days int, today time.Time) (until time.Time, refused bool) {
	if last.IsZero() {
		return time.Time{}, false
	}
	until = NextFeed(last, days)
	return until, days > 0 && day(today).Before(until)
}

// day is the calendar day of a time in its own zone. UTC has every midnight; a zone that changes its clocks at midnight
// has not.
func day(t time.Time) time.Time {
	year, month, d := t.Date()
	return time.Date(year, month, d, 0, 0, 0, 0, time.UTC)
}
