package model

import (
	"regexp"
	"strings"
	"time"

	"github.com/rickb777/date/v2"
)

// Exact is how exactly it is known when a plant came. The empty one is to the day.
type Exact string

// What is known of when a plant came, where it is no day. The day kept beside it is the
// last one it can have been, so that no newcomer counts as here for longer than it may be.
const (
	ToMonth Exact = "month"
	ToYear  Exact = "year"
)

// Came is when the plant came, as exactly as it is known: "2026-01-31", "Mar 2024",
// "2021"; "" when it is not known. [ParseCame] reads it.
func (p Plant) Came() string {
	switch {
	case p.Acquired == 0:
		return ""
	case p.AcquiredTo == ToYear:
		return p.Acquired.Format("2006")
	case p.AcquiredTo == ToMonth:
		return p.Acquired.Format("Jan 2006")
	}
	return p.Acquired.String()
}

// ParseCame reads when a plant came: a day written as 2026-01-31, a month with its name,
// or a year that has begun by today.
func ParseCame(s string, today date.Date) (date.Date, Exact, error) {
	if day, exact, ok := ParsePeriod(s, today); ok {
		return day, exact, nil
	}
	day, err := ParseDay(s, ISO)
	return day, "", err
}

// ParsePeriod reads a month with its name or a year, as growers remember when they bought
// a plant; false for anything else, and for one that is still to come.
func ParsePeriod(s string, today date.Date) (date.Date, Exact, bool) {
	text := PlainDay(s)
	for _, p := range []struct {
		layout string
		months int
		exact  Exact
	}{{"Jan 2006", 1, ToMonth}, {"2006", 12, ToYear}} {
		t, err := time.Parse(p.layout, text)
		if first := date.NewAt(t); err == nil && first <= today && first >= longAgo {
			return min(date.NewAt(t.AddDate(0, p.months, -1)), today), p.exact, true
		}
	}
	return 0, "", false
}

// longAgo is before any plant that is still kept: a year before it is some other number.
var longAgo = date.New(1900, time.January, 1)

var (
	dayOrdinal = regexp.MustCompile(`(?i)\b([0-9]{1,2})(st|nd|rd|th)\b`)
	dayMarks   = strings.NewReplacer(",", " ", ".", " ", "-", " ", "/", " ")
)

// PlainDay is a day or a month with its name, written one way: without the marks between
// its parts, and the month by its first three letters, "1 Sep 2023".
func PlainDay(s string) string {
	words := strings.Fields(dayMarks.Replace(dayOrdinal.ReplaceAllString(s, "$1")))
	for i, word := range words {
		for m := time.January; m <= time.December; m++ {
			if name := m.String(); len(word) >= 3 && len(word) <= len(name) && strings.EqualFold(word, name[:len(word)]) {
				words[i] = name[:3]
			}
		}
	}
	return strings.Join(words, " ")
}
