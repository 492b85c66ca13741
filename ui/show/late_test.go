package show_test

import (
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/ui/show"
)

// Who cannot come out in time is named, with in time for what, and what to do.
func TestWhoIsLateIsNamedAndSaidWhatToDo(t *testing.T) {
	at := time.Date(2026, time.May, 23, 10, 0, 0, 0, time.UTC)
	b := shelf(t)
	p := &day.Plan{Ask: day.Ask{From: at, DryBy: at.Add(11 * time.Hour)}, Loads: []day.Load{{Vessel: "tub"}}}
	for i := range 4 {
		id := model.ID(i + 1)
		p.Loads[0].Plants = append(p.Loads[0].Plants, day.Plant{ID: id, In: at, Most: 3600})
		p.Late = append(p.Late, day.LeftOut{ID: id, Late: &soak.Late{Over: 60 * (i + 1)}})
	}
	p.Late[0].Late, p.Late[1].Late.NoHands = &soak.Late{NotDry: 2400}, true
	p.Ask.Until, p.Loads[0].Plants[1].Out = at.Add(8*time.Hour), at.Add(time.Hour)
	got := strings.Join(show.TooLate(b, p), "\n")
	for _, want := range []string{"and 1 more up to 4 min too long in the water: begin to take out tub by 11:00",
		"must come out in your break: take them out sooner", "may be damp at 21:00 for up to 40 min: open a window"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q does not say %q", got, want)
		}
	}
}
