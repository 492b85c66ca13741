package day_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/tests/household"
)

// What is next stays so, and keeps its beginning, for as long as the hands are at it: whoever
// ticks it off is not told by the next beat of the clock that it was something else. Only
// what is late to leave the water goes before it.
func TestWhatIsNextStaysNextUntilItIsTickedOff(t *testing.T) {
	scenes := []string{"homecoming", "soakday", "bench"}
	if testing.Short() {
		scenes = scenes[:1]
	}
	now := time.Date(2026, time.November, 28, 9, 0, 0, 0, time.UTC)
	for _, scene := range scenes {
		t.Run(scene, func(t *testing.T) {
			m := household.Moment{Scene: scene, Seed: 1, Now: now}
			h := &onTime{Home: lived(t, m), t: t, ended: true}
			h.staysNext(proposed(t, m), now)
		})
	}
}

// comesOut reports whether a step takes out of the water what is late to leave it.
func (h *onTime) comesOut(p *day.Plan, s day.Step, at time.Time) bool {
	if s.Do != soak.GetOut {
		return false
	}
	l := h.Book.Load(p.Loads[s.Load].Load)
	return l != nil && at.Sub(l.Due) >= time.Minute
}

// staysNext lives a day as the board has it: what is next is looked at while it is done, and
// ticked off when it is done.
func (h *onTime) staysNext(p *day.Plan, now time.Time) {
	h.Say(now, p.Agree(h.Book, now))
	kept := func(at time.Time) (*day.Plan, day.Step) {
		p, err := day.Kept(context.Background(), h.Keeper(), at)
		if err != nil {
			h.t.Fatal(err)
		}
		n := p.Next()
		if n < 0 {
			return p, day.Step{}
		}
		return p, p.Steps[n]
	}
	for range 16 {
		p, step := kept(now)
		if step.At.IsZero() {
			return
		}
		takes := step.Until.Sub(step.At)
		if !step.Do.Hands() {
			takes = time.Minute
		}
		if step.Do == soak.Hang { // is for hands that wait, and who does not begin at once has no time for it
			now = model.Later(step.At, now)
			does(h.Home, p, step, now)
			continue
		}
		done := model.Later(step.At, now).Add(takes)
		for at := now; !at.After(done.Add(90 * time.Second)); at = at.Add(20*time.Second + takes/11) {
			q, is := kept(at)
			if h.comesOut(q, is, at) || is.Do == soak.GetOut && step.Do.Hands() { // it may have to, for its window
				continue
			}
			if said := fmt.Sprint(is.Do, is.Vessel, is.Plants); said != fmt.Sprint(step.Do, step.Vessel, step.Plants) {
				h.t.Fatalf("%s: next is %v %s, %d plants; at %s it was %v %s, %d plants, until %s", at.Format("15:04:05"), is.Do, is.Vessel, len(is.Plants),
					now.Format("15:04:05"), step.Do, step.Vessel, len(step.Plants), done.Format("15:04:05"))
			}
			if is.Do.Hands() && is.Until.Sub(is.At) != takes {
				h.t.Fatalf("%s: %v %s takes from %s until %s, and it takes %v", at.Format("15:04:05"), is.Do, is.Vessel, is.At.Format("15:04:05"), is.Until.Format("15:04:05"), takes)
			}
		}
		if now = done; step.Do == soak.PutIn {
			does(h.Home, p, step, step.At)
			continue
		}
		does(h.Home, p, step, now)
	}
}
