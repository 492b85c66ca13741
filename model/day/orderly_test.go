package day_test

import (
	"fmt"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/tests/household"
)

// disorder is what two hands could not do of a plan, or should not: two things at once, or
// let the water out from under plants; "" when there is nothing.
func disorder(p *day.Plan) string {
	var last *day.Step
	out := map[int]time.Time{} // loads, when they are out
	for i := range p.Steps {
		if s := &p.Steps[i]; s.Do == soak.GetOut {
			out[s.Load] = s.Until
		}
	}
	for i := range p.Steps {
		s := &p.Steps[i]
		if s.Done || !s.Do.Hands() {
			continue
		}
		if last != nil && last.Hands == s.Hands && last.Until.After(s.At) {
			return fmt.Sprintf("%v %s until %s, and %v %s from %s", last.Do, last.Vessel, last.Until.Format("15:04:05"), s.Do, s.Vessel, s.At.Format("15:04:05"))
		}
		last = s
		if s.Do != soak.Empty {
			continue
		}
		for n, l := range p.Loads {
			if l.Vessel == s.Vessel && l.Start.Before(s.At) && out[n].After(s.At) {
				return fmt.Sprintf("%s is emptied at %s, and %d plants are in it until %s", s.Vessel, s.At.Format("15:04:05"), len(l.Plants), out[n].Format("15:04:05"))
			}
		}
	}
	return ""
}

// What is in the water comes out by hands that are free then, also where the hours are
// short: the plan puts in less, or the hands stay on, and it says so.
func TestNoTwoThingsAtOnceWhenTheHoursAreShort(t *testing.T) {
	for _, until := range []int{16, 17, 18} {
		for _, in := range []int{13, 15} {
			h := household.Greens(t, 150)
			ids := h.IDs()
			h.Say(may(8, in), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: may(8, 15).Add(36 * time.Minute)}, ids[:60]...)
			h.Say(may(8, in), &model.Soak{Load: h.NextLoad(), Vessel: "bucket 1", Due: may(8, 15).Add(40 * time.Minute)}, ids[60:70]...)
			now := may(8, 15).Add(10 * time.Minute)
			p := planned(t, h, now, day.Ask{From: now, Until: may(8, until), DryBy: may(8, 23)})
			if what := disorder(p); what != "" {
				t.Errorf("in at %d:00, hours until %d:00: %s", in, until, what)
			}
			h.Say(now, p.Agree(h.Book, now))
			if what := disorder(current(t, h, now.Add(20*time.Minute))); what != "" {
				t.Errorf("in at %d:00, hours until %d:00, followed: %s", in, until, what)
			}
		}
	}
}

// What is overdue comes out at once where there is time for it, also before a load that must
// come out to the minute later on: the hands do not wait for that one first.
func TestWhatIsOverdueIsNotWaitedWith(t *testing.T) {
	m := household.Moment{Scene: "soakday", Seed: 1, Now: time.Date(2026, time.November, 28, 8, 50, 0, 0, time.UTC)}
	h, p := lived(t, m), proposed(t, m)
	overdue := func(s day.Step) bool {
		l := h.Load(p.Loads[max(s.Load, 0)].Load)
		return s.Do == soak.GetOut && l != nil && !l.Due.After(m.Now)
	}
	if s := p.Steps[p.Next()]; !overdue(s) || s.At.After(m.Now) {
		t.Errorf("the day begins at %s with %v %s", s.At.Format("15:04"), s.Do, s.Vessel)
	}
	in := false
	for _, s := range p.Steps {
		if in = in || s.Do == soak.PutIn; in && overdue(s) {
			t.Errorf("%s, which is overdue, comes out at %s, after others went in", s.Vessel, s.At.Format("15:04"))
		}
	}
}
