package day_test

import (
	"context"
	"slices"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/tests/household"
)

// numbers are the loads of a plan by their number.
func numbers(p *day.Plan) map[int]model.IDs {
	all := map[int]model.IDs{}
	for _, l := range p.Loads {
		all[l.Number] = append(all[l.Number], l.IDs()...)
	}
	return all
}

// A load keeps its number for the day, whatever becomes of the others: one that is left for
// another day leaves a gap, and what goes in beside the plan comes after them all.
func TestALoadKeepsItsNumberForTheDay(t *testing.T) {
	m := household.Moment{Scene: "homecoming", Now: may(8, 9)}
	h, now := lived(t, m), m.Now
	p := proposed(t, m)
	if len(p.Loads) < 4 {
		t.Fatalf("%d loads: it shows nothing", len(p.Loads))
	}
	for n, l := range p.Loads {
		if l.Number != n+1 {
			t.Fatalf("load %d of a new plan is numbered %d", n+1, l.Number)
		}
	}
	h.Say(now, p.Agree(h.Book, now))
	was := numbers(p)
	keeps := func(now time.Time, gone ...int) {
		t.Helper()
		p := current(t, h, now)
		for number, ids := range numbers(p) {
			for _, id := range ids {
				if !slices.Contains(was[number], id) {
					t.Errorf("plant %d is in load %d, and was not", id, number)
				}
			}
		}
		for _, n := range gone {
			if len(p.Numbered(n)) > 0 || !slices.Contains(p.Gone(), n) {
				t.Errorf("load %d is left for another day: %v, gone are %v", n, p.Numbered(n), p.Gone())
			}
		}
	}
	toCome := slices.IndexFunc(p.Loads, day.Load.ToCome)
	skipped := p.Loads[toCome+1].Number
	keeps(now)
	leave := func(load int) {
		is := current(t, h, now)
		h.Say(now, is.Skip(h.Book, now, is.Loads[load].IDs()...))
	}
	leave(toCome + 1)
	keeps(now, skipped)
	last := current(t, h, now).Loads[len(p.Loads)-2].Number
	leave(len(p.Loads) - 2)
	keeps(now, skipped, last)
	h.Say(now, current(t, h, now).Later(h.Book, now, 15*time.Minute))
	keeps(now.Add(time.Minute), skipped, last)
	if n := h.Book.AgreedPlan(now).LastNumber(); n != len(p.Loads) {
		t.Errorf("the last number is %d, not %d", n, len(p.Loads))
	}
	late, err := day.Current(context.Background(), h.Keeper(), now.Add(3*time.Hour))
	if err != nil {
		t.Fatal(err)
	}
	h.Say(now.Add(3*time.Hour), late.Agree(h.Book, now.Add(3*time.Hour)))
	keeps(now.Add(3 * time.Hour))
}
