package command

import (
	"encoding/json"
	"testing"
	"time"
)

// Whoever plans the evening before gives hours of the day that the plan is for.
func TestHoursGivenTheEveningBeforeAreOfTheDayPlannedFor(t *testing.T) {
	book := demoBook(t, "homecoming")
	evening := time.Date(2026, 1, 31, 20, 0, 0, 0, time.UTC)
	at := func(hour int) time.Time { return time.Date(2026, 2, 1, hour, 0, 0, 0, time.UTC) }
	type action struct {
		At, Until time.Time
		Do        string
		Hands     int
	}
	actions := func(args ...string) []action {
		t.Helper()
		var p struct{ Actions []action }
		out := must(t, book, "", append([]string{"--now", evening.Format(time.RFC3339), "plan", "--json"}, args...)...)
		if err := json.Unmarshal([]byte(out), &p); err != nil {
			t.Fatal(err)
		}
		return p.Actions
	}
	after := 0
	for _, a := range actions("--pause", "10:00-11:00") {
		if a.Do != "fill" && a.At.Before(at(11)) && a.Until.After(at(10)) {
			t.Errorf("away, and at work: %s from %s until %s", a.Do, a.At.Format("15:04"), a.Until.Format("15:04"))
		}
		if !a.At.Before(at(11)) {
			after++
		}
	}
	if after == 0 {
		t.Error("nothing is to be done after the pause: it shows nothing")
	}
	helps := func(of []action) (n int) {
		for _, a := range of {
			if a.Do != "fill" && a.Hands == 2 {
				n++
			}
		}
		return n
	}
	if helps(actions("--help-from", "08:00-12:00")) == 0 {
		t.Error("the second pair of hands has nothing to do")
	}
	must(t, book, "", "--now", evening.Format(time.RFC3339), "enter", "plan", "--help-from", "08:00-12:00")
	if helps(actions()) == 0 {
		t.Error("the second pair of hands has nothing to do in the agreed plan")
	}
}
