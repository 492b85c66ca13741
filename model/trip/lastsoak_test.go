package trip_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/trip"
	"tubside/tests/household"
	"tubside/ui/show"
)

// A trip in the air that the house rules assume is nothing but the days passing:
// the forecast is what the board will say then.
func TestForecastIsTheDaysPassing(t *testing.T) {
	h := household.Greens(t, 1)
	k, now := estimate.New(h.Book), may(3, 9)
	back := may(15, 9)
	got := trip.NewForecast(k, now, now, back, k.ExpectAir(now, now, back)).Plants[0].Return
	want, _ := advice.NeedOf(k, 1, back)
	if math.Abs(got.RWC-want.RWC) > 1e-12 || math.Abs(got.Low-want.Low) > 1e-12 ||
		math.Abs(got.High-want.High) > 1e-12 {
		t.Errorf("forecast %+v, on the day %g (%g to %g)", got, want.RWC, want.Low, want.High)
	}
}

// A plant left in the water comes out when it is due, and begins to lose water
// then: the same as if that had been written down.
func TestForecastOfAPlantInTheWater(t *testing.T) {
	soaking := func() household.Home {
		h := household.Greens(t, 1)
		h.Say(may(10, 9), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: may(10, 12)}, 1)
		return h
	}
	h := soaking()
	k, back := estimate.New(h.Book), may(20, 9)
	got := trip.NewForecast(k, may(10, 10), may(12, 8), back, k.ExpectAir(may(10, 10), may(12, 8), back)).Plants[0]
	h.Say(may(10, 12), &model.Out{Shaken: true}, 1)
	h.Say(may(10, 12), &model.FoundDry{}, 1)
	want, _ := advice.NeedOf(estimate.New(h.Book), 1, back)
	if math.Abs(got.Return.RWC-want.RWC) > 1e-9 {
		t.Errorf("forecast %g, told %g", got.Return.RWC, want.RWC)
	}
	if got.StillWet || got.Last != nil || !strings.Contains(todo(h, got), "dry it and hang it back") {
		t.Errorf("two days before leaving: %+v", got)
	}

	// Due at noon and leaving at two, it will be wet in the heart.
	h = soaking()
	k = estimate.New(h.Book)
	late := trip.NewForecast(k, may(10, 10), may(10, 14), back, estimate.AirGiven(21, 40)).Plants[0]
	if !late.StillWet || !strings.Contains(todo(h, late), "may be wet when you leave") {
		t.Errorf("two hours before leaving: %+v", late)
	}
	h.Say(may(10, 12), &model.Out{Shaken: true}, 1)
	if late := trip.NewForecast(estimate.New(h.Book), may(10, 12), may(10, 14), back,
		estimate.AirGiven(21, 40)).Plants[0]; !late.StillWet {
		t.Errorf("two hours out of the water: %+v", late)
	}
}

func todo(h household.Home, l trip.Left) string {
	_, do := show.LeftAlone(h.Book, &l)
	return strings.Join(do, "; ")
}

// A plant soaked five days ago rests where the house rules say a week; before a
// trip of two weeks it is soaked all the same, so as to leave full.
func TestALastSoakComesBeforeRest(t *testing.T) {
	h := household.Greens(t, 1)
	h.Say(may(2, 9), &model.RuleSet{Name: "rest-days", Value: 7})
	if l := trip.NewForecast(estimate.New(h.Book), may(6, 9), may(7, 8), may(21, 8),
		estimate.AirGiven(21, 40)).Plants[0]; l.Last == nil {
		t.Errorf("left to rest: %s", todo(h, l))
	}
}

// A plant not yet thirsty enough for a soak by the house rules is soaked before
// three weeks as well.
func TestALastSoakComesBeforeThirst(t *testing.T) {
	h := household.Greens(t, 1)
	h.Say(may(2, 9), &model.RuleSet{Name: "soak-from", Value: 30})
	l := trip.NewForecast(estimate.New(h.Book), may(6, 9), may(7, 8), may(28, 8).AddDate(0, 0, 14),
		estimate.AirGiven(21, 40)).Plants[0]
	if gone := 1 - l.Leaving; gone > 0.30 || l.Last == nil {
		t.Errorf("%.3f gone: %s", gone, todo(h, l))
	}
}

func TestSuspectedRotIsNotSoaked(t *testing.T) {
	h := household.Greens(t, 1)
	h.Say(may(4, 9), &model.Rot{}, 1)
	l := trip.NewForecast(estimate.New(h.Book), may(5, 9), may(7, 8), may(28, 8), estimate.AirGiven(21, 40)).Plants[0]
	if l.Last != nil || !strings.Contains(todo(h, l), "decide before you go") {
		t.Errorf("%+v", l)
	}
}

// Whom to move: from a shelf that dries plants out faster, when half the water
// would go; from anywhere, when the plant would be past mending.
func TestWhomToMove(t *testing.T) {
	for name, c := range map[string]struct {
		factor float64
		days   int
		move   bool
		why    string
	}{
		"nothing to fear":     {1.4, 10, false, ""},
		"half gone elsewhere": {1, 65, false, ""},
		"half gone over heat": {1.4, 65, true, "shelf A dries plants out 1.4 times as fast"},
		"past mending":        {1, 200, true, "away from heaters"},
	} {
		h := household.Greens(t, 1)
		h.Say(may(2, 9), &model.ShelfSet{Name: "A", Factor: c.factor})
		l := trip.NewForecast(estimate.New(h.Book), may(5, 9), may(7, 8), may(7, 8).AddDate(0, 0, c.days),
			estimate.AirGiven(21, 40)).Plants[0]
		if (l.Move != trip.Stay) != c.move || !strings.Contains(todo(h, l), c.why) {
			at, lines := l.AtReturn()
			t.Errorf("%s: move %v: %s (%+v %+v)", name, l.Move, todo(h, l), at, lines)
		}
	}
}

// Out by: as many hours before the evening on which all must be dry as the board
// gives such a plant that is out of the water in this room, shaken, at the upper
// end of its range.
func TestOutInTimeToDry(t *testing.T) {
	h := household.Greens(t, 1)
	h.Say(may(4, 9), &model.Reading{TempC: 20, RH: 45, Fan: model.FanLow})
	l := trip.NewForecast(estimate.New(h.Book), may(5, 9), may(7, 8), may(28, 8), estimate.AirGiven(21, 40)).Plants[0]
	if why := todo(h, l); !strings.Contains(why, "to dry here: shake it hard") {
		t.Error(why)
	}
	h.Say(may(5, 9), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: may(5, 10)}, 1)
	h.Say(may(5, 10), model.TakenOut(true), 1)
	out := advice.Look(estimate.New(h.Book), may(5, 10)).Drying[0]
	got, want := may(6, 21).Sub(l.Last.OutBy).Hours(), out.High.Sub(out.OutAt).Hours()
	if math.Abs(got/want-1) > 0.05 || got <= 4 {
		t.Errorf("%.2f h before the evening, %.2f h to dry", got, want)
	}
}

// A plant that dries fast still gets the hours of the house rule; many in one
// room get more, and are told why.
func TestManyLastSoaksMakeTheRoomDamp(t *testing.T) {
	h := household.Greens(t, 400)
	h.Say(may(2, 9), &model.WindowSet{Window: model.WindowShut})
	h.Say(may(4, 9), &model.Reading{TempC: 26, RH: 25, Fan: model.FanNear})
	from, back := may(7, 8), may(28, 8)
	away := trip.NewForecast(estimate.New(h.Book), may(5, 9), from, back, estimate.AirGiven(21, 40))
	if away.Damp < 1.2 || !strings.Contains(strings.Join(show.Trip(h.Book, away), "\n"), "times as long to dry") {
		t.Errorf("damp %g", away.Damp)
	}
	one := household.Greens(t, 1)
	one.Say(may(2, 9), &model.WindowSet{Window: model.WindowShut})
	one.Say(may(4, 9), &model.Reading{TempC: 26, RH: 25, Fan: model.FanNear})
	alone := trip.NewForecast(estimate.New(one.Book), may(5, 9), from, back, estimate.AirGiven(21, 40))
	if got := may(6, 21).Sub(alone.Plants[0].Last.OutBy); alone.Damp != 1 || got != 4*time.Hour {
		t.Errorf("alone: damp %g, out %s before the evening", alone.Damp, got)
	}
	if away.Plants[0].Last.OutBy.After(alone.Plants[0].Last.OutBy) {
		t.Error("more plants, and later out")
	}
}

// A sitter is asked for plants of which one in ten would be past mending, though
// most would not; the driest are the ones, and a week lies between two soaks.
func TestWhoNeedsASitter(t *testing.T) {
	h := household.Greens(t, 30)
	h.Say(may(4, 9), &model.Look{Signs: model.Signs{Curl: 3, Tips: 2, Shift: model.NotSeen}}, 29, 30)
	k := estimate.New(h.Book)
	away := trip.NewForecast(k, may(5, 9), may(7, 8), may(7, 8).AddDate(0, 0, 90), estimate.AirGiven(21, 50))
	if at, lines := away.Plants[0].AtReturn(); !lines.Injury.IsZero() || at.Low > 0.25 {
		t.Fatalf("a plant that most likely lives: %+v", at)
	}
	j := trip.SitterJob(k, away)
	if len(j.Plants) != 24 || j.Left != 6 || !j.Plants.Has(29) || !j.Plants.Has(30) {
		t.Errorf("%s, %d left out", j.Plants, j.Left)
	}
	for i, d := range j.Days {
		if gap := d.Sub(append([]time.Time{away.From}, j.Days...)[i]).Hours() / 24; gap < 7 {
			t.Errorf("a soak on %s, %.1f days after the last", d, gap)
		}
	}
}
