package day_test

import (
	"context"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/tests/household"
)

// What an offer says is what comes of taking it: the open window gives as many plants as it
// says, and who goes in instead of others is counted apart.
func TestAnOfferIsWhatComesOfTakingIt(t *testing.T) {
	traded := 0
	for _, m := range []household.Moment{
		{Scene: "homecoming", Seed: 1, Now: time.Date(2026, 3, 14, 15, 0, 0, 0, time.UTC)},
		{Scene: "homecoming", Seed: 1, Now: time.Date(2026, 7, 8, 8, 0, 0, 0, time.UTC)},
	} {
		p := proposed(t, m)
		for _, o := range day.Offers(context.Background(), household.Of(m.Book(t), t).Keeper(), m.Now, p) {
			more, others := p.Trades(o.Plan)
			if more-others != o.Plan.Count()-p.Count() {
				t.Errorf("offer %d: %d more and %d others not, and %d instead of %d", o.What, more, others, o.Plan.Count(), p.Count())
			}
			if others > 0 {
				traded++
			}
		}
	}
	if traded == 0 {
		t.Error("no offer has others in place of some: it shows nothing")
	}
}

// An open window is offered while it is not open, and gives as many plants as it says once it
// is.
func TestAnOpenWindowGivesWhatItIsOfferedFor(t *testing.T) {
	h := household.Greens(t, 160)
	now := may(8, 8)
	ask := day.Ask{From: now, Until: may(8, 12), DryBy: may(8, 12)}
	h.Say(now, &model.WindowSet{Window: model.WindowShut})
	offered := func(p *day.Plan) *day.Plan {
		for _, o := range day.Offers(context.Background(), h.Keeper(), now, p) {
			if o.What == day.RoomAired {
				return o.Plan
			}
		}
		return nil
	}
	open := offered(planned(t, h, now, ask))
	if open == nil {
		t.Fatal("no open window is offered: it shows nothing")
	}
	h.Say(now, &model.WindowSet{Window: model.WindowOpen})
	if p := planned(t, h, now, ask); p.Count() != open.Count() || !p.AllDry.Equal(open.AllDry) || offered(p) != nil {
		t.Errorf("offered are %d, dry by %v; with the window open %d, dry by %v", open.Count(), open.AllDry, p.Count(), p.AllDry)
	}
}
