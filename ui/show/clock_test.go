package show_test

import (
	"testing"
	"time"

	"tubside/ui/show"
)

func TestDuration(t *testing.T) {
	for _, c := range []struct {
		d    time.Duration
		want string
	}{
		{0, "0 min"},
		{29 * time.Second, "0 min"},
		{45 * time.Minute, "45 min"},
		{2 * time.Hour, "2 h"},
		{2*time.Hour + 10*time.Minute, "2 h 10 min"},
		{59*time.Minute + 40*time.Second, "1 h"},
		{47*time.Hour + 20*time.Minute, "47 h 20 min"},
		{76 * time.Hour, "3 d 4 h"},
		{-10 * time.Minute, "0 min"},
		{-20 * time.Second, "0 min"},
	} {
		if got := show.Duration(c.d); got != c.want {
			t.Errorf("Duration(%s) = %q, want %q", c.d, got, c.want)
		}
	}
}

func TestTimer(t *testing.T) {
	for d, want := range map[time.Duration]string{
		4*time.Minute + 5*time.Second:             "4:05",
		time.Hour + 2*time.Minute + 9*time.Second: "1:02:09",
		-30 * time.Second:                         "-0:30",
		900 * time.Millisecond:                    "0:00",
	} {
		if got := show.Timer(d); got != want {
			t.Errorf("Timer(%s) = %q, want %q", d, got, want)
		}
	}
}

func berlin(t *testing.T) *time.Location {
	t.Helper()
	zone, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	return zone
}

func TestClockAndAgo(t *testing.T) {
	zone := berlin(t)
	now := time.Date(2026, 3, 29, 20, 0, 0, 0, zone) // the clocks went forward this morning, a Sunday
	for _, c := range []struct {
		name       string
		t          time.Time
		clock, ago string
	}{
		{"never", time.Time{}, "", "never"},
		{"the same day, told in UTC", time.Date(2026, 3, 29, 12, 20, 0, 0, time.UTC), "14:20", "today"},
		{"the day before, 21 hours ago by the sun", time.Date(2026, 3, 28, 22, 0, 0, 0, zone), "Sat 22:00", "yesterday"},
		{"Tuesday", time.Date(2026, 3, 24, 14, 20, 0, 0, zone), "Tue 14:20", "5 days ago"},
		{"tomorrow", time.Date(2026, 3, 30, 0, 5, 0, 0, zone), "Mon 00:05", "tomorrow"},
		{"in a week", time.Date(2026, 4, 5, 9, 0, 0, 0, zone), "5 Apr 2026 09:00", "in 7 days"},
		{"long ago", time.Date(2026, 1, 31, 9, 0, 0, 0, zone), "31 Jan 2026 09:00", "57 days ago"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := show.Clock(c.t, now, zone); got != c.clock {
				t.Errorf("Clock = %q, want %q", got, c.clock)
			}
			if got := show.Ago(c.t, now, zone); got != c.ago {
				t.Errorf("Ago = %q, want %q", got, c.ago)
			}
		})
	}
	if got := show.Date(time.Date(2026, 3, 28, 23, 30, 0, 0, time.UTC), zone); got != "29 Mar 2026" {
		t.Errorf("Date = %q", got)
	}
}

func TestDays(t *testing.T) {
	for days, want := range map[float64]string{-1: "unknown", 0: "today", 0.9: "today", 1.2: "1 day", 12.9: "12 days"} {
		if got := show.Days(days); got != want {
			t.Errorf("Days(%g) = %q, want %q", days, got, want)
		}
	}
}

func TestSoak(t *testing.T) {
	for _, c := range []struct {
		least, most float64
		want        string
	}{
		{0, 0, ""},
		{15, 20, "15 to 20 min"},
		{30, 180, "30 min to 3 h"},
		{135, 720, "2 h 15 to 12 h"},
		{10, 10, "10 min"},
	} {
		if got := show.Soak(c.least, c.most); got != c.want {
			t.Errorf("Soak(%g, %g) = %q, want %q", c.least, c.most, got, c.want)
		}
	}
}

func TestWindow(t *testing.T) {
	for _, c := range []struct {
		from, to float64
		want     string
	}{
		{0, 0, ""},
		{2, 20, "2 – 20 min"},
		{20, 60, "20 min – 1 h"},
		{60, 90, "1 h – 1 h 30"},
		{59.8, 60.2, "1 h"},
		{10, 10, "10 min"},
		{480, 720, "8 h – 12 h"},
		{65, 70, "1 h 05 – 1 h 10"},
	} {
		if got := show.Window(c.from, c.to); got != c.want {
			t.Errorf("Window(%g, %g) = %q, want %q", c.from, c.to, got, c.want)
		}
	}
}
