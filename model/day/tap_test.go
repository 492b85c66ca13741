package day_test

import (
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/tests/household"
)

// One tap fills one vessel: while water runs into one, the plan opens it for no other.
func TestATapThatRunsIsNotOpenedAgain(t *testing.T) {
	h := household.Greens(t, 150)
	h.Say(may(2, 9), &model.RuleSet{Name: "day-loads", Value: 6})
	h.Say(may(2, 9), &model.RuleSet{Name: "tap-flow", Value: 2})
	now := may(8, 8)
	agreed(t, h, now, day.Ask{From: now, Until: may(8, 18), DryBy: may(8, 21)})
	var shut time.Time
	fills := 0
	for ; now.Before(may(8, 10)); now = now.Add(time.Minute) {
		p := current(t, h, now)
		for _, s := range p.Steps {
			if s.Do != soak.Fill || s.Done {
				continue
			}
			if s.At.Before(shut) {
				t.Fatalf("at %s: %s is to be filled at %s, and the tap runs until %s", now.Format("15:04"), s.Vessel, s.At.Format("15:04"), shut.Format("15:04"))
			}
			if !s.At.After(now) {
				v, _ := h.Vessel(s.Vessel)
				h.Say(now, &model.Fill{Vessel: s.Vessel})
				shut = now.Add(time.Duration(h.Rules().FillMinutes(v) * float64(time.Minute)))
				fills++
			}
			break
		}
	}
	if fills < 2 {
		t.Errorf("%d vessels were filled", fills)
	}
}

// Who plans just as the water should begin to stand opens the taps then, and not before.
func TestATapOfTheEveningBeforeIsNotOpenedInThePast(t *testing.T) {
	h := household.Greens(t, 150)
	now := may(7, 20)
	taps := 0
	for _, s := range planned(t, h, now, day.Ask{}).Steps {
		if s.Do == soak.Fill && s.At.Before(may(8, 0)) {
			taps++
		}
		if s.At.Before(now) {
			t.Errorf("%v %s at %s", s.Do, s.Vessel, s.At.Format("15:04"))
		}
	}
	if taps == 0 {
		t.Error("no tap is opened the evening before")
	}
}
