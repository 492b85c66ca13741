package day_test

import (
	"context"
	"fmt"
	"slices"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/tests/household"
)

// onTime is a hand that does what the plan says when it says so, and writes it down when it
// begins with it, or when it is done.
type onTime struct {
	household.Home
	t     *testing.T
	ended bool
	late  int
	crowd int // that dry at once
}

// at is when a step is written down.
func (h *onTime) at(s day.Step) time.Time {
	if h.ended && s.Do != soak.PutIn && s.Do != soak.Fill {
		return s.Until
	}
	return s.At
}

// A plan that was agreed is kept by hands that are on time: each step done at its time as
// the plan says, nobody is dropped, and nobody is in the water for longer or shorter than
// they may be.
func TestHandsThatAreOnTimeLoseNobody(t *testing.T) {
	scenes, seeds := []string{"homecoming", "soakday", "first", "bench", "rotwatch"}, uint64(3)
	if testing.Short() {
		scenes, seeds = scenes[:1], 1 // which has most in it
	}
	now := time.Date(2026, time.November, 28, 9, 0, 0, 0, time.UTC)
	for seed := uint64(1); seed <= seeds; seed++ {
		for _, scene := range scenes {
			for _, ended := range []bool{false, true} {
				t.Run(fmt.Sprintf("%s/%d/%v", scene, seed, ended), func(t *testing.T) {
					m := household.Moment{Scene: scene, Seed: seed, Now: now}
					h := &onTime{Home: lived(t, m), t: t, ended: ended}
					h.live(proposed(t, m), now)
				})
			}
		}
	}
}

// live lives a day as the sheet printed in the morning has it.
func (h *onTime) live(p *day.Plan, now time.Time) {
	h.late, h.crowd = len(p.Late), p.AtOnce
	h.Say(now, p.Agree(h.Book, now))
	steps := slices.Clone(p.Steps)
	slices.SortStableFunc(steps, func(a, b day.Step) int { return h.at(a).Compare(h.at(b)) })
	for _, s := range steps {
		now = model.Later(now, h.at(s))
		h.look(now)
		does(h.Home, p, s, now)
		h.look(now)
	}
	if n := len(h.OpenLoads()); n > 0 {
		h.t.Errorf("%d loads are in the water", n)
	}
}

// look has the plan as it stands: nobody is dropped, nobody leaves the window, and no more
// dry at once than was planned for, within what a few minutes sooner or later make of it.
func (h *onTime) look(now time.Time) {
	h.t.Helper()
	p, err := day.Kept(context.Background(), h.Keeper(), now)
	if err != nil || p == nil {
		h.t.Fatalf("%v: %v, %v", now, p, err)
	}
	if n := p.News(h.Book); len(n.Lost) > 0 || len(p.Late) > h.late {
		h.t.Fatalf("%s: %d plants are dropped: %v; %d are late, not %d", now.Format("15:04:05"), len(n.Lost), n.Lost, len(p.Late), h.late)
	}
	if p.AtOnce > h.crowd+h.crowd/20 {
		h.t.Fatalf("%s: %d are to dry at once, and %d were planned for", now.Format("15:04:05"), p.AtOnce, h.crowd)
	}
}
