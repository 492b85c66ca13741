package paper_test

import (
	"regexp"
	"strings"
	"testing"
	"time"

	"tubside/model/day"
	"tubside/model/soak"
	"tubside/ui/paper"
)

// eventOf takes an event out of a calendar by its UID; "" where it is not there.
func eventOf(calendar, uid string) string {
	for _, event := range strings.Split(calendar, "BEGIN:VEVENT")[1:] {
		if strings.Contains(event, "UID:"+uid+"@tubside") {
			return event
		}
	}
	return ""
}

// A phone rings when the tub is due, and an event keeps its UID when a step before it
// is done: taken in again it moves, and does not stand twice.
func TestThePhoneRingsWhenTheTubIsDue(t *testing.T) {
	b := shelves(t, 3)
	due := may(2, 9).Add(40 * time.Minute)
	out := func(at time.Time) day.Step {
		return day.Step{At: at, Until: at.Add(10 * time.Minute), Do: soak.GetOut, Vessel: "tub", Load: 0, Plants: b.IDs()}
	}
	p := &day.Plan{Made: may(2, 8), Ask: day.Ask{From: may(2, 8)},
		Loads: []day.Load{{Vessel: "tub", Start: may(2, 9), Out: due}}, Steps: []day.Step{
			{At: may(2, 8), Until: may(2, 9), Do: soak.Hang, Load: -1}, out(due), out(due.Add(time.Hour)),
		}}
	first, err := paper.PlanCalendar(b, p).ICS()
	if err != nil {
		t.Fatal(err)
	}
	event := eventOf(first, "plan-20260502-tub-out-1")
	if !strings.Contains(event, "DTSTART:20260502T094000Z") || strings.Count(event, "BEGIN:VALARM") != 1 ||
		!regexp.MustCompile(`TRIGGER:-?PT0M`).MatchString(event) {
		t.Errorf("no ring at 9:40:\n%s", first)
	}
	p.Steps[1].Done = true
	again, err := paper.PlanCalendar(b, p).ICS()
	if err != nil {
		t.Fatal(err)
	}
	if eventOf(again, "plan-20260502-tub-out-1") != "" || eventOf(first, "plan-20260502-tub-out-2") == "" ||
		eventOf(again, "plan-20260502-tub-out-2") != eventOf(first, "plan-20260502-tub-out-2") {
		t.Errorf("the second load has another UID than before:\n%s", again)
	}
}
