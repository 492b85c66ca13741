package model_test

import (
	"testing"
	"time"
	_ "time/tzdata" // the same clock changes on every machine

	"github.com/rickb777/date/v2"
	"pgregory.net/rapid"

	"tubside/model"
)

func zone(t rapid.TB, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

func TestDaysRead(t *testing.T) {
	newYear := date.New(2026, time.January, 31)
	for _, c := range []struct {
		text  string
		order model.DayOrder
		want  date.Date
	}{
		{"2026-01-31", model.ISO, newYear},
		{" 2026-1-31 ", model.ISO, newYear},
		{"2026-01-31\t", model.ISO, newYear}, // out of a sheet
		{"2026-01-31", model.DMY, newYear},   // ISO is read whatever the order
		{"31 Jan 2026", model.ISO, newYear},  // as it is written for people
		{"31st January 2026", model.MDY, newYear},
		{"2026-01-31", model.MDY, newYear},
		{"31.1.2026", model.DMY, newYear},
		{"31. 1. 2026", model.DMY, newYear},
		{"31/01/2026", model.DMY, newYear},
		{"31/1/26", model.DMY, newYear},
		{"31-01-2026", model.DMY, newYear},
		{"31-1-2026", model.DMY, newYear},
		{"1/31/2026", model.MDY, newYear},
		{"1-31-26", model.MDY, newYear},
		{"1.2.2026", model.DMY, date.New(2026, time.February, 1)},
		{"1.2.2026", model.MDY, date.New(2026, time.January, 2)},
		{"1-2-2026", model.DMY, date.New(2026, time.February, 1)},
		{"1-12-26", model.MDY, date.New(2026, time.January, 12)},
		{"29.2.2024", model.DMY, date.New(2024, time.February, 29)},
		{"1/1/68", model.DMY, date.New(2068, time.January, 1)}, // two digits are of 1969 to 2068
		{"1/1/69", model.DMY, date.New(1969, time.January, 1)},
	} {
		if got, err := model.ParseDay(c.text, c.order); err != nil || got != c.want {
			t.Errorf("%q in order %q read as %v, %v; want %v", c.text, c.order, got, err, c.want)
		}
	}
}

func TestDaysRefused(t *testing.T) {
	for _, c := range []struct {
		text  string
		order model.DayOrder
	}{
		{"2026-02-30", model.ISO}, // the date library alone makes 2 March of it
		{"2025-02-29", model.ISO},
		{"2026-13-01", model.ISO},
		{"2026-00-10", model.ISO},
		{"2026-01-05T10:00:00Z", model.ISO},
		{"05/01/2026", model.ISO}, // 5 January or 1 May
		{"5.1.2026", model.ISO},
		{"5-1-2026", model.ISO},
		{"last Sunday", model.ISO},
		{"", model.ISO},
		{"31.4.2026", model.DMY},
		{"1.31.2026", model.DMY},
		{"31/1/2026", model.MDY},
		{"29/2/25", model.DMY},
		{"1/2", model.DMY},
		{"3.1-2026", model.DMY},
		{"2026/01/31", model.DMY},
	} {
		got, err := model.ParseDay(c.text, c.order)
		p, told := model.AsProblem(err)
		switch {
		case !told || got != 0:
			t.Errorf("%q in order %q read as %v, %v", c.text, c.order, got, err)
		case p.Do != "write it as 2026-01-31":
			t.Errorf("%q in order %q: told to %q", c.text, c.order, p.Do)
		}
	}
}

// Every day reads back as that day, written in either order with any of the
// usual marks between.
func TestADayWrittenReadsBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		first := date.New(1969, time.January, 1)
		d := first + date.Date(rapid.IntRange(0, 36523).Draw(rt, "days")) // to the end of 2068
		for layout, order := range map[string]model.DayOrder{
			"2006-01-02": model.ISO, "2006-1-2": model.ISO,
			"2.1.2006": model.DMY, "02/01/06": model.DMY, "2-1-2006": model.DMY, "02-01-06": model.DMY,
			"1/2/2006": model.MDY, "1.2.06": model.MDY, "1-2-2006": model.MDY, "01-02-2006": model.MDY,
		} {
			text := d.Format(layout)
			if got, err := model.ParseDay(text, order); err != nil || got != d {
				rt.Errorf("%q in order %q read as %v, %v; want %v", text, order, got, err, d)
			}
		}
	})
}

// Noon is noon also on days of 23 and 25 hours. In Tallinn the clocks change on
// the last Sundays of March and October (EU directive 2000/84/EC).
func TestNoonOnDaysWhenTheClocksChange(t *testing.T) {
	tallinn := zone(t, "Europe/Tallinn")
	for day, utcHour := range map[date.Date]int{
		date.New(2026, time.March, 28):   10,
		date.New(2026, time.March, 29):   9,
		date.New(2026, time.October, 24): 9,
		date.New(2026, time.October, 25): 10,
	} {
		got := model.NoonOf(day, tallinn)
		if got.UTC().Hour() != utcHour || got.Hour() != 12 || got.Minute() != 0 {
			t.Errorf("noon of %v is %v, want %d:00 UTC", day, got, utcHour)
		}
	}
	// Zones that change their clocks at midnight, in the southern half, and by half an hour.
	for _, name := range []string{"America/Havana", "America/Sao_Paulo", "Africa/Cairo", "Pacific/Auckland",
		"Australia/Lord_Howe"} {
		z := zone(t, name)
		for d := date.New(2010, time.January, 1); d < date.New(2028, time.January, 1); d++ {
			got := model.NoonOf(d, z)
			if got.Hour() != 12 || got.Minute() != 0 || date.NewAt(got) != d {
				t.Fatalf("noon of %v in %s is %v", d, name, got)
			}
		}
	}
}
