package command

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

// tripDates is when a trip begins and ends.
type tripDates struct{ from, until time.Time }

func (q *tripQuestion) dates(now time.Time) (d tripDates, err error) {
	d.from = now
	if q.from != "" {
		if d.from, err = dayOrTime(q.from, now.Location()); err != nil {
			return d, fmt.Errorf("--from: %w", err)
		}
		if date.NewAt(d.from.In(now.Location())) == date.NewAt(now) {
			d.from = later(d.from, now) // today, though its noon may be over
		}
	}
	switch {
	case (q.away == "") == (q.until == ""):
		return d, errors.New("forecast: give --away, or --until with or without --from")
	case q.temp.given != q.rh.given:
		return d, errors.New("forecast: give --temp and --rh together")
	case q.away != "":
		d.until, err = after(d.from, q.away)
	default:
		if d.until, err = dayOrTime(q.until, now.Location()); err != nil {
			err = fmt.Errorf("--until: %w", err)
		}
	}
	switch {
	case err != nil:
		return d, err
	case d.until.Before(d.from):
		return d, &model.Problem{What: "a trip that ends before it begins", Do: "check the two dates"}
	case d.until.Sub(d.from) > model.MaxTrip:
		return d, &model.Problem{What: "a trip of more than a year", Do: "check the year"}
	case d.from.Before(now):
		return d, &model.Problem{What: "a trip that has begun", Do: "give a day to come, or leave --from out to leave now"}
	}
	return d, nil
}

// dayOrTime reads a day, as its noon, or a day with an hour.
func dayOrTime(text string, zone *time.Location) (time.Time, error) {
	for _, layout := range []string{time.RFC3339, "2006-01-02T15:04", "2006-01-02 15:04"} {
		if t, err := time.ParseInLocation(layout, text, zone); err == nil {
			return t, nil
		}
	}
	d, err := model.ParseDay(text, model.ISO)
	if err != nil {
		return time.Time{}, &model.Problem{What: fmt.Sprintf("%q is not a date", text), Do: "write it as 2026-01-31, or with an hour as 2026-01-31T08:00"}
	}
	return model.NoonOf(d, zone), nil
}

// mostAway bounds the number in --away, whatever its unit. Our own: a year of
// hours.
const mostAway = 9000

// after reads a length of days, weeks or hours from a moment. Days are those of
// the calendar, so that the clocks may change on the way.
func after(from time.Time, text string) (time.Time, error) {
	words := strings.ToLower(strings.ReplaceAll(text, " ", ""))
	for _, unit := range []struct {
		ends []string
		add  func(n int) time.Time
	}{
		{[]string{"days", "day", "d"}, func(n int) time.Time { return from.AddDate(0, 0, n) }},
		{[]string{"weeks", "week", "w"}, func(n int) time.Time { return from.AddDate(0, 0, 7*n) }},
		{[]string{"hours", "hour", "h"}, func(n int) time.Time { return from.Add(time.Duration(n) * time.Hour) }},
	} {
		for _, end := range unit.ends {
			if n, err := strconv.Atoi(strings.TrimSuffix(words, end)); err == nil && n >= 0 && n <= mostAway && strings.HasSuffix(words, end) {
				return unit.add(n), nil
			}
		}
	}
	return time.Time{}, &model.Problem{What: fmt.Sprintf("--away %q", text), Do: "write 12d, 2w or 36h"}
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}
