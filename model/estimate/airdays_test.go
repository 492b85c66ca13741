package estimate_test

import (
	"math"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/tests/household"
	"tubside/ui/show"
)

// A day read hourly counts no more than a day read once, and the day is the
// grower's.
func TestAirByDayAndMonth(t *testing.T) {
	h := household.New(t)
	for hour := range 24 {
		h.Say(may(1, hour), &model.Reading{TempC: 20, RH: 40})
	}
	h.Say(may(2, 9), &model.Reading{TempC: 26, RH: 60})
	h.Say(time.Date(2026, 6, 3, 9, 0, 0, 0, time.UTC), &model.Reading{TempC: 28, RH: 70})
	days := estimate.AirDays(h.Book, may(1, 0), may(90, 0))
	if len(days) != 3 || days[0].Readings != 24 || days[0].TempC.Mean != 20 || days[1].RH.Mean != 60 {
		t.Fatalf("%+v", days)
	}
	months := estimate.AirMonths(days)
	if len(months) != 2 || months[0].Days != 2 || months[0].Readings != 25 {
		t.Fatalf("%+v", months)
	}
	if may := months[0]; math.Abs(may.TempC.Mean-23) > 1e-9 || may.TempC.Min != 20 || may.TempC.Max != 26 {
		t.Errorf("May: %+v", may.TempC)
	}
	if all, ok := estimate.AirOver(days); !ok || all.Days != 3 || all.RH.Max != 70 ||
		math.Abs(all.RH.Mean-(40+60+70)/3.0) > 1e-9 {
		t.Errorf("all: %+v", all)
	}
	berlin := household.NewIn(time.FixedZone("CEST", 7200), t)
	berlin.Say(may(2, 23), &model.Reading{TempC: 20, RH: 40})
	if days := estimate.AirDays(berlin.Book, may(1, 0), may(9, 0)); len(days) != 1 ||
		days[0].First.String() != "2026-05-03" {
		t.Errorf("an hour after midnight: %+v", days)
	}
	if _, ok := estimate.AirOver(nil); ok {
		t.Error("air of no days")
	}
	if days := estimate.AirDays(h.Book, may(1, 12), may(2, 9)); len(days) != 1 || days[0].Readings != 12 {
		t.Errorf("from noon until before nine: %+v", days)
	}
}

// Heating dries a home: 21 °C at 20 % takes 1.6 times what it takes at 50 %, as
// the vapour pressure deficits of 1.99 and 1.24 kPa say. A week becomes four
// days.
func TestAirCompared(t *testing.T) {
	h := household.New(t)
	read := func(month time.Month, d int, rh float64) {
		h.Say(time.Date(2025, month, d, 9, 0, 0, 0, time.UTC), &model.Reading{TempC: 21, RH: rh})
	}
	now := time.Date(2025, 12, 20, 12, 0, 0, 0, time.UTC)
	if _, ok := estimate.CompareAir(h.Book, now); ok {
		t.Error("nothing to compare, and compared")
	}
	for _, d := range []int{5, 12, 19} {
		read(9, d, 65)
		read(10, d, 50)
		read(11, d, 22)
	}
	read(12, 1, 50)
	read(12, 15, 20)
	read(12, 19, 20)
	c, ok := estimate.CompareAir(h.Book, now)
	if !ok || math.Abs(c.Ratio-1.6) > 0.01 {
		t.Fatalf("%+v", c)
	}
	if got := show.AirCompared(c); got != "your air is 1.6 times as thirsty as in October" {
		t.Error(got)
	}
	if got := show.AirInterval(c); got != "what lasted 7 days then lasts about 4 days now" {
		t.Error(got)
	}

	// A month of one reading is not spoken of.
	h.Say(time.Date(2025, 11, 30, 9, 0, 0, 0, time.UTC), &model.Strike{Seq: 8})
	h.Say(time.Date(2025, 11, 30, 9, 0, 0, 0, time.UTC), &model.Strike{Seq: 5})
	if c, ok := estimate.CompareAir(h.Book, now); !ok || c.Then.First.Month() != time.September {
		t.Errorf("one reading in October: %+v", c)
	}

	// Where no month was clearly different, the last one is told.
	same := household.New(t)
	for _, d := range []int{5, 12, 19} {
		same.Say(time.Date(2025, 11, d, 9, 0, 0, 0, time.UTC), &model.Reading{TempC: 21, RH: 20})
	}
	same.Say(time.Date(2025, 12, 19, 9, 0, 0, 0, time.UTC), &model.Reading{TempC: 21, RH: 20})
	if c, ok := estimate.CompareAir(same.Book, now); !ok ||
		show.AirCompared(c) != "your air is about as thirsty as in November" {
		t.Errorf("%t, %s", ok, show.AirCompared(c))
	}
}

// A logger's file read in late puts the past right, and a book opened anew says
// the same as one that was open all along.
func TestLateReadingsPutThePastRight(t *testing.T) {
	h := household.Greens(t, 1)
	h.Say(may(10, 9), &model.Look{Signs: model.Signs{Curl: 2, Tips: 1, Shift: model.NotSeen}}, 1)
	h.Say(may(10, 9), &model.Reading{TempC: 22, RH: 45})
	k := estimate.New(h.Book)
	before, _ := advice.NeedOf(k, 1, may(12, 9))
	var log []model.ReadingAt
	for hour := range 9 * 24 {
		log = append(log, model.ReadingAt{At: may(1, hour), TempC: 24, RH: 15})
	}
	f := model.NewReadings("log.csv", log)
	h.Say(may(12, 9), f)
	k.Follow(h.Entries()[len(h.Entries())-1])
	running, _ := advice.NeedOf(k, 1, may(12, 9))
	opened, _ := advice.NeedOf(estimate.New(h.Book), 1, may(12, 9))
	if running.RWC != opened.RWC || running.Low != opened.Low {
		t.Errorf("running on %g, opened anew %g", running.RWC, opened.RWC)
	}
	if running.RWC >= before.RWC {
		t.Errorf("nine days of desert air and the plant is at %g, was %g", running.RWC, before.RWC)
	}
}

// A logger's hours are joined for what plants lose, and nothing is lost by it: a
// room that swings by 8 °C and 30 % from day to night gives the same thirst as
// if each hour had been entered by hand, to a hundredth of it.
func TestJoinedHoursGiveTheSameThirst(t *testing.T) {
	logged, byHand := household.New(t), household.New(t)
	var log []model.ReadingAt
	for hour := -30 * 24; hour < 20*24; hour++ { // from long before the first soak
		swing := math.Sin(2 * math.Pi * float64(hour) / 24)
		r := model.ReadingAt{At: may(1, hour), TempC: 21 + 4*swing, RH: 45 - 15*swing}
		log = append(log, r)
		byHand.Say(r.At, &model.Reading{TempC: r.TempC, RH: r.RH})
	}
	logged.Say(may(21, 0), model.NewReadings("log.csv", log))
	logged.AddGreens(1)
	byHand.AddGreens(1) // with the whole past of the air known, as a log's is
	a, b := estimate.New(logged.Book), estimate.New(byHand.Book)
	for hour := 30; hour < 19*24; hour += 5 {
		x, _ := advice.NeedOf(a, 1, may(1, hour))
		y, _ := advice.NeedOf(b, 1, may(1, hour))
		if math.Abs(x.Thirst()/y.Thirst()-1) > 0.01 {
			t.Errorf("after %d hours: %.5f joined, %.5f by hand", hour, x.Thirst(), y.Thirst())
		}
	}
}
