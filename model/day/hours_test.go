package day_test

import (
	"context"
	"slices"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/tests/household"
)

// The hours of a plan that is agreed end where the grower said: nothing goes in any more that
// could not be out by then, whoever is left out is offered an hour more, and what is in comes
// out whenever that is.
func TestTheHoursEndWhereTheGrowerSaid(t *testing.T) {
	for _, slow := range []time.Duration{10 * time.Minute, 15 * time.Minute} {
		h := household.Greens(t, 150)
		h.Say(may(2, 9), &model.RuleSet{Name: "day-loads", Value: 6})
		until := may(8, 10).Add(30 * time.Minute)
		p := agreed(t, h, may(8, 8), day.Ask{From: may(8, 8), Until: until, DryBy: may(8, 21)})
		now, dropped, offered := may(8, 8), false, false
		for range 100 {
			i := p.Next()
			if i < 0 {
				break
			}
			s := p.Steps[i]
			now = model.Later(now, s.At).Add(slow)
			does(h, p, s, now)
			now = model.Later(now, s.Until)
			p = current(t, h, now)
			for _, l := range p.Loads {
				if l.ToCome() && l.End.After(until.Add(10*time.Minute)) {
					t.Fatalf("%v late, at %s: a load that is to go in at %s is out at %s", slow, now.Format("15:04"), l.Start.Format("15:04"), l.End.Format("15:04"))
				}
			}
			if left, _ := p.Dropped(); len(left) > 0 && !dropped {
				dropped = true
				offers := day.Offers(context.Background(), estimate.New(h.Book), now, p)
				if n := slices.IndexFunc(offers, func(o day.Offer) bool { return o.What == day.LongerHours }); n >= 0 {
					offered = offers[n].Plan.Count() >= p.Count()+3 && offers[n].Plan.Ask.Until.Equal(until.Add(time.Hour))
				}
			}
		}
		if n := len(h.OpenLoads()); n > 0 || !dropped || !offered {
			t.Errorf("%v late: %d loads still in the water; dropped: %v, an hour more offered: %v", slow, n, dropped, offered)
		}
		if late := now.Sub(until); late > time.Hour {
			t.Errorf("%v late: the hands are free %v after their hours", slow, late)
		}
	}
}

// A few minutes past the hours leave nobody out.
func TestAFewMinutesPastTheHoursLeaveNobodyOut(t *testing.T) {
	h := household.Greens(t, 150)
	h.Say(may(2, 9), &model.RuleSet{Name: "day-loads", Value: 6})
	p := agreed(t, h, may(8, 8), day.Ask{From: may(8, 8), Until: may(8, 13), DryBy: may(8, 21)})
	spare := may(8, 13).Sub(p.DayFree)
	for _, past := range []time.Duration{time.Minute, 5 * time.Minute, 9 * time.Minute} {
		q := current(t, h, may(8, 8).Add(spare+past))
		if left, _ := q.Dropped(); len(left) > 0 || past > time.Minute && !q.PastHours() {
			t.Errorf("%v past the hours: %d are left out, free at %s", past, len(left), q.DayFree.Format("15:04"))
		}
	}
}
