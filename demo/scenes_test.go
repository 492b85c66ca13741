package demo_test

import (
	"testing"
	"time"

	"tubside/demo"
	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/trip"
)

// look opens a scene and gives what the board would see.
func look(t *testing.T, name string) (*model.Book, *advice.Outlook) {
	t.Helper()
	b, _ := build(t, demo.Options{Scene: name, Seed: 1, Now: now})
	inOrder(t, b, now)
	if tally := b.Tally(); !tally.Adds() {
		t.Errorf("%s: %+v does not add up", name, tally)
	}
	return b, advice.Look(estimate.New(b), now)
}

func TestHomecoming(t *testing.T) {
	b, o := look(t, "")
	loads := b.OpenLoads()
	if len(loads) != 1 || loads[0].Vessel != "tub" || !loads[0].Due.After(now) {
		t.Errorf("loads in the water: %v", loads)
	}
	drying := map[model.LoadID]int{}
	for _, d := range o.Drying {
		drying[d.Load]++
	}
	if len(drying) != 1 || len(o.Drying) < 10 {
		t.Errorf("drying, by load: %v", drying)
	}
	if tally := b.Tally(); tally.Waiting == 0 {
		t.Error("nothing is pulled")
	}
	atHome, longAgo := 0, 0
	for _, n := range o.Needs {
		if r := b.Row(n.ID); r.State == model.AtHome && r.Rot.IsZero() {
			atHome++
			count(&longAgo, n.DaysSince > 11)
		}
	}
	if longAgo < atHome*95/100 {
		t.Errorf("%d of %d plants at home were last soaked before the trip", longAgo, atHome)
	}
}

// The trip is told: twelve days, home today, and soaked the day before leaving.
func TestTheTripIsTold(t *testing.T) {
	b, _ := look(t, "homecoming")
	away, ok := b.LastTrip()
	if !ok || away.Until.Sub(away.From) != 12*24*time.Hour || !away.OverBy(now) || now.Sub(away.Back) > 4*time.Hour {
		t.Fatalf("away %+v, %t", away, ok)
	}
	dayBefore := away.From.AddDate(0, 0, -1).Format(time.DateOnly)
	soaked := 0
	for _, e := range b.Entries() {
		if e.Fact.Kind() == "soak" && e.At.Format(time.DateOnly) == dayBefore {
			soaked += len(e.Plants)
		}
	}
	if soaked < 200 {
		t.Errorf("%d plants were soaked on %s, the day before leaving", soaked, dayBefore)
	}
	h, ok := trip.NewHomecoming(estimate.New(b), now)
	if !ok || h.Day != 0 || len(h.Forecast) < 400 || len(h.Looks) > 0 {
		t.Errorf("%+v, %t", h, ok)
	}
}

func TestRotwatch(t *testing.T) {
	b, _ := look(t, "rotwatch")
	h, ok := trip.NewHomecoming(estimate.New(b), now)
	if !ok || h.Day != 4 || len(h.Looks) < 300 {
		t.Fatalf("%t, %+v", ok, h)
	}
	if h.Looks[0].Day != advice.LookDays[0] {
		t.Errorf("the look of day %d is due", h.Looks[0].Day)
	}
	if b.Tally().Open() {
		t.Errorf("something is away from home: %+v", b.Tally())
	}
}

// Nobody was there for twelve days but the hygrometer.
func TestTheTripIsSilent(t *testing.T) {
	b, _ := look(t, "homecoming")
	days := map[string]int{}
	for _, e := range b.Entries() {
		if e.At.Before(now.AddDate(0, 0, -11)) || e.At.After(now.Add(-3*time.Hour)) {
			continue
		}
		if e.Fact.Kind() != "reading" {
			t.Errorf("%s at %v", e.Fact.Kind(), e.At)
		}
		days[e.At.Format(time.DateOnly)]++
	}
	for day, n := range days {
		if n > 1 {
			t.Errorf("%d readings on %s", n, day)
		}
	}
	if len(days) < 3 {
		t.Errorf("readings on %d days", len(days))
	}
}

func TestSoakday(t *testing.T) {
	b, _ := look(t, "soakday")
	loads := b.OpenLoads()
	if len(loads) != 3 {
		t.Fatalf("%d loads in the water", len(loads))
	}
	if overdue := now.Sub(loads[0].Due); overdue < 10*time.Minute {
		t.Errorf("the first load is overdue by %v", overdue)
	}
	if !loads[1].Due.Equal(now) {
		t.Errorf("the second load is due at %v", loads[1].Due)
	}
	if !loads[2].Due.After(now) {
		t.Errorf("the third load was due at %v", loads[2].Due)
	}
	for _, l := range loads {
		v, _ := b.Vessel(l.Vessel)
		full := 0.0
		for _, id := range b.StillIn(l) {
			full += estimate.Bulk(b.Row(id).Plant)
		}
		if full < v.Litres*0.8 || full > v.Litres {
			t.Errorf("%s holds %.1f of %.0f L", v.Name, full, v.Litres)
		}
	}
	if n := len(b.Waiting()); n < 30 {
		t.Errorf("%d plants pulled", n)
	}
}

func TestBench(t *testing.T) {
	b, o := look(t, "bench")
	if len(o.Drying) != 150 {
		t.Errorf("%d plants out to dry", len(o.Drying))
	}
	var overdue, inTime, damp, dry int
	for _, d := range o.Drying {
		r := b.Row(d.ID)
		count(&overdue, d.Overdue)
		count(&inTime, !d.Overdue && r.State == model.Drying)
		count(&damp, r.DampAt.After(r.Out))
		count(&dry, r.State == model.Dry)
	}
	if overdue < 20 || inTime < 20 || damp < 20 || dry < 20 {
		t.Errorf("%d overdue, %d in time, %d marked damp, %d dry", overdue, inTime, damp, dry)
	}
	if o.Air.RH < 70 || len(b.OpenLoads()) > 0 {
		t.Errorf("%v %% humidity, %d loads in the water", o.Air.RH, len(b.OpenLoads()))
	}
}

func TestQuiet(t *testing.T) {
	b, _ := look(t, "quiet")
	if b.Tally().Open() {
		t.Errorf("something is away from home: %+v", b.Tally())
	}
}

func TestFirst(t *testing.T) {
	b, o := look(t, "First") // in any case
	if n := len(b.Entries()); n != 1 || b.Entries()[0].Fact.Kind() != "import" {
		t.Errorf("%d entries", n)
	}
	for _, n := range o.Needs {
		if n.DaysSince >= 0 {
			t.Fatalf("plant %d was soaked %v days ago", n.ID, n.DaysSince)
		}
	}
}
