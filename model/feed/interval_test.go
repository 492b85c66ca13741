package feed_test

import (
	"testing"
	"time"
	_ "time/tzdata"

	"pgregory.net/rapid"

	"tubside/model/feed"
)

func in(t interface{ Fatal(...any) }, zone string) *time.Location {
	place, err := time.LoadLocation(zone)
	if err != nil {
		t.Fatal(err)
	}
	return place
}

// Once a month in growth (common practice, no source), counted as 30 days.
func TestFedAMonthAgo(t *testing.T) {
	at := func(month time.Month, day, hour int) time.Time {
		return time.Date(2026, month, day, hour, 0, 0, 0, in(t, "Europe/Tallinn"))
	}
	last := at(time.October, 1, 21) // the clocks go back on 25 October
	for _, c := range []struct {
		today   time.Time
		refused bool
	}{
		{at(time.October, 1, 22), true}, {at(time.October, 30, 23), true}, {at(time.October, 31, 0), false},
		{at(time.November, 20, 8), false}, {at(time.September, 20, 8), true},
	} {
		until, refused := feed.TooSoon(last, 30, c.today)
		if refused != c.refused || until.Format(time.DateOnly) != "2026-10-31" {
			t.Errorf("on %v: until %v, refused %v", c.today, until, refused)
		}
	}
}

// A grower who flew from Tallinn to Auckland feeds by the calendar on the wall there.
func TestTheCalendarOnTheWallCounts(t *testing.T) {
	last := time.Date(2026, time.October, 1, 21, 0, 0, 0, in(t, "Europe/Tallinn"))
	today := time.Date(2026, time.October, 31, 1, 0, 0, 0, in(t, "Pacific/Auckland"))
	if until, refused := feed.TooSoon(last, 30, today); refused {
		t.Errorf("refused until %v", until)
	}
}

// 4 November 2018 had no midnight in São Paulo; it was a day all the same.
func TestADayWithoutMidnight(t *testing.T) {
	last := time.Date(2018, time.October, 5, 9, 0, 0, 0, in(t, "America/Sao_Paulo"))
	if until := feed.NextFeed(last, 30); until.Format(time.DateTime) != "2018-11-04 00:00:00" {
		t.Errorf("until %v", until)
	}
}

func TestNeverFedIsNeverTooSoon(t *testing.T) {
	today := time.Date(2026, 4, 5, 9, 0, 0, 0, time.UTC)
	if until, refused := feed.TooSoon(time.Time{}, 30, today); refused || !until.IsZero() {
		t.Errorf("until %v, refused %v", until, refused)
	}
	for _, days := range []int{0, -3} {
		if until, refused := feed.TooSoon(today, days, today); refused || until.Format(time.DateOnly) != "2026-04-05" {
			t.Errorf("every %d days: until %v, refused %v", days, until, refused)
		}
		if _, refused := feed.TooSoon(today, days, today.AddDate(0, 0, -1)); refused {
			t.Errorf("every %d days: refused the day before", days)
		}
	}
}

// The day before is too soon and the day itself is not, whatever the hours and wherever the clocks jump, midnight
// included.
func TestTheDayItselfIsNotTooSoon(t *testing.T) {
	zones := []string{"Europe/Tallinn", "America/Havana", "Africa/Cairo", "Pacific/Auckland", "America/Sao_Paulo",
		"Pacific/Apia"}
	rapid.Check(t, func(t *rapid.T) {
		place := in(t, rapid.SampledFrom(zones).Draw(t, "zone"))
		year, days := rapid.IntRange(2015, 2030).Draw(t, "year"), rapid.IntRange(1, 120).Draw(t, "days")
		dayOfYear := rapid.IntRange(1, 365).Draw(t, "day of year")
		hour := func(name string) int { return rapid.IntRange(4, 23).Draw(t, name) }
		last := time.Date(year, 1, dayOfYear, hour("fed at"), 0, 0, 0, place)
		due := time.Date(year, 1, dayOfYear+days, hour("due at"), 0, 0, 0, place)
		before := time.Date(year, 1, dayOfYear+days-1, hour("before at"), 0, 0, 0, place)
		until, refused := feed.TooSoon(last, days, due)
		if refused || until.Format(time.DateOnly) != due.Format(time.DateOnly) {
			t.Fatalf("on %v: until %v, refused %v", due, until, refused)
		}
		if _, refused := feed.TooSoon(last, days, before); !refused {
			t.Fatalf("not refused on %v", before)
		}
	})
}
