package day_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/tests/household"
	"tubside/ui/show"
)

// shelves is a book of some shelves of plants alike, n on each.
func shelves(t interface {
	Helper()
	Fatalf(string, ...any)
}, leaf model.Leaf, n ...int) household.Home {
	h := household.New(t)
	var plants []model.Plant
	for s, count := range n {
		for range count {
			plants = append(plants, model.Plant{
				ID: model.ID(len(plants) + 1), Count: 1, Form: model.Rosette, Leaf: leaf, Size: 12,
				Home: model.Home{Shelf: fmt.Sprintf("S%d", s+1)},
			})
		}
	}
	h.Say(may(1, 8), &model.Add{Plants: plants})
	return h
}

func weekHours(w *day.Week) (hours []float64) {
	for _, d := range w.Days {
		hours = append(hours, d.Needs)
	}
	return hours
}

func TestFiveHundredPlantsAreNotOneSoakDay(t *testing.T) {
	h := shelves(t, model.Intermediate, 50, 50, 50, 50, 50, 50, 50, 50, 50, 50)
	w := day.NewWeek(estimate.New(h.Book), may(8, 9))
	for _, d := range w.Days {
		if !d.Fits || d.Needs > d.Has {
			t.Errorf("%s needs %.1f h of %.1f", d.Day, d.Needs, d.Has)
		}
	}
	if hands := 500 * 60.0 / 3600; math.Abs(sum(weekHours(w))-hands) > 0.01 {
		t.Errorf("the week takes %.2f h, not %.2f: 500 plants at a minute", sum(weekHours(w)), hands)
	}
	if w.Days[5].Needs <= w.Days[0].Needs {
		t.Errorf("Saturday with its five hours takes %.1f, Monday with two %.1f", w.Days[5].Needs, w.Days[0].Needs)
	}
}

func sum(all []float64) (s float64) {
	for _, x := range all {
		s += x
	}
	return s
}

func TestShelfMatesShareADayAndAKeptDayHolds(t *testing.T) {
	h := shelves(t, model.Intermediate, 30, 30, 30)
	h.Say(may(2, 9), &model.ShelfDays{Days: map[string]model.Weekday{"s2": "wed"}})
	w := day.NewWeek(estimate.New(h.Book), may(8, 9))
	if got := w.Turn("S2"); got.Day != "wed" || !got.Kept || got.Plants != 30 {
		t.Errorf("S2: %+v", got)
	}
	if fact := w.Keep(); len(fact.Days) != 2 || fact.Days["S2"] != "" {
		t.Errorf("to be written: %v", fact.Days)
	}
	if ids := w.Plants("wed"); len(ids) < 30 || ids[0] != 31 && ids[len(ids)-1] != 60 {
		t.Errorf("on Wednesday: %v", ids)
	}
	h.Say(may(8, 9), w.Keep())
	if again := day.NewWeek(estimate.New(h.Book), may(8, 9)); again.Keep() != nil {
		t.Error("a kept week is written again")
	}
}

func TestThinLeavesInDryAirHaveTwoTurns(t *testing.T) {
	h := shelves(t, model.Mesic, 20, 20)
	h.Say(may(7, 9), &model.Reading{TempC: 26, RH: 12})
	w := day.NewWeek(estimate.New(h.Book), may(8, 9))
	for _, s := range w.Shelves {
		if s.Twice != 20 || s.Second == "" || s.Second == s.Day {
			t.Fatalf("%+v", s)
		}
		gap := (place(s.Second) - place(s.Day) + 7) % 7
		if gap != 3 && gap != 4 {
			t.Errorf("%s and %s are %d days apart", s.Day, s.Second, gap)
		}
		if ids := w.Plants(s.Second); len(ids) < 20 {
			t.Errorf("on %s, the second day of %s: %v", s.Second, s.Shelf, ids)
		}
	}
	moist := shelves(t, model.Xeric, 20)
	moist.Say(may(7, 9), &model.Reading{TempC: 20, RH: 70})
	if s := day.NewWeek(estimate.New(moist.Book), may(8, 9)).Shelves[0]; s.Rare != 20 || s.Second != "" {
		t.Errorf("xeric leaves in moist air: %+v", s)
	}
}

func TestTheSecondTurnGoesToTheEasierDay(t *testing.T) {
	h := shelves(t, model.Mesic, 20, 60)
	h.Say(may(7, 9), &model.Reading{TempC: 26, RH: 12})
	h.Say(may(2, 9), &model.ShelfDays{Days: map[string]model.Weekday{"S1": "sat", "S2": "tue"}})
	if s := day.NewWeek(estimate.New(h.Book), may(8, 9)).Turn("S1"); s.Second != "wed" {
		t.Errorf("with sixty on Tuesday the second turn is on %s", s.Second)
	}
	h.Say(may(3, 9), &model.ShelfDays{Days: map[string]model.Weekday{"S2": "wed"}})
	if s := day.NewWeek(estimate.New(h.Book), may(8, 9)).Turn("S1"); s.Second != "tue" {
		t.Errorf("with sixty on Wednesday the second turn is on %s", s.Second)
	}
}

func TestShelvesChangeDaysUntilTheWeekIsLevel(t *testing.T) {
	h := shelves(t, model.Intermediate, 30, 30, 20, 20, 20) // the longest first would be 70 and 50
	for _, d := range model.Weekdays[:5] {
		h.Say(may(2, 9), &model.RuleSet{Name: "soak-" + string(d), Value: 0})
	}
	w := day.NewWeek(estimate.New(h.Book), may(8, 9))
	if sat, sun := w.Days[5].Plants, w.Days[6].Plants; sat != 60 || sun != 60 {
		t.Errorf("%.0f on Saturday, %.0f on Sunday", sat, sun)
	}
}

func place(d model.Weekday) int {
	for i, o := range model.Weekdays {
		if o == d {
			return i
		}
	}
	return -1
}

func TestWhatNoRhythmHoldsIsSaid(t *testing.T) {
	h := shelves(t, model.Mesic, 3)
	h.Say(may(2, 9), &model.ShelfSet{Name: "S1", Factor: 4})
	h.Say(may(7, 9), &model.Reading{TempC: 35, RH: 10})
	w := day.NewWeek(estimate.New(h.Book), may(8, 9))
	if len(w.Short) != 3 || w.Short[0].Days >= 4 || !strings.HasPrefix(show.WantsOften(w.Short[0]), "wants a soak every ") {
		t.Errorf("over a stove: %+v", w.Short)
	}
}

func TestMovingAShelfSaysWhatItDoes(t *testing.T) {
	h := shelves(t, model.Intermediate, 200, 200, 200)
	for i, d := range []model.Weekday{"sat", "sun", "sat"} {
		h.Say(may(2, 9), &model.ShelfDays{Days: map[string]model.Weekday{fmt.Sprintf("S%d", i+1): d}})
	}
	w := day.NewWeek(estimate.New(h.Book), may(8, 9))
	moved, m, err := w.Move("s3", "sun")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Join(show.Moved(m), "\n")
	for _, want := range []string{"S3: Sun instead of Sat", "Sat: 3 h 20 min instead of 6 h 40 min, of 5 h", "Sun: 6 h 40 min instead of 3 h 20 min, of 5 h"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	if w.Turn("S3").Day != "sat" || moved.Turn("S3").Day != "sun" {
		t.Error("the week itself was changed")
	}
	if _, m, _ := w.Move("S3", "mon"); !strings.Contains(strings.Join(show.Moved(m), "\n"), "now it fits") && w.Days[5].Fits != true {
		t.Errorf("to Monday: %+v", m)
	}
	if _, m, _ := w.Move("S1", "tue"); !strings.Contains(strings.Join(show.Moved(m), "\n"), "Tue: 3 h 20 min instead of 0 min, of 2 h") {
		t.Errorf("to Tuesday: %+v", m)
	}
	if _, _, err := w.Move("attic", "sun"); err == nil {
		t.Error("moved a shelf that is not there")
	}
	if _, _, err := w.Move("S1", "someday"); err == nil {
		t.Error("moved to a day that is not there")
	}
}

func TestNoSingleMoveLevelsAWeekFurther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.SliceOfN(rapid.IntRange(1, 30), 1, 8).Draw(t, "plants")
		h := shelves(t, rapid.SampledFrom(model.Leaves).Draw(t, "leaf"), n...)
		for _, d := range model.Weekdays {
			h.Say(may(2, 9), &model.RuleSet{Name: "soak-" + string(d), Value: float64(rapid.IntRange(0, 5).Draw(t, string(d)))})
		}
		k := estimate.New(h.Book)
		w := day.NewWeek(k, may(8, 9))
		if again := day.NewWeek(k, may(8, 9)); fmt.Sprint(again.Days) != fmt.Sprint(w.Days) {
			t.Fatal("two weeks of one book differ")
		}
		worst := overfull(w)
		for _, s := range w.Shelves {
			for _, d := range model.Weekdays {
				moved, _, err := w.Move(s.Shelf, d)
				if err != nil {
					t.Fatal(err)
				}
				if got := overfull(moved); got < worst-1e-6 {
					t.Fatalf("%s on %s: %g under %g", s.Shelf, d, got, worst)
				}
				if math.Abs(sum(handsOf(moved))-sum(handsOf(w))) > 1e-6 {
					t.Fatalf("%s on %s: the work of the week changed", s.Shelf, d)
				}
			}
		}
	})
}

// overfull is the sum of the squares of the days' loads, each by its hours.
func overfull(w *day.Week) (total float64) {
	for _, d := range w.Days {
		has := math.Max(d.Has, 0.05)
		total += d.Needs * d.Needs / has
	}
	return total
}

func handsOf(w *day.Week) (hours []float64) {
	for _, d := range w.Days {
		hours = append(hours, d.Hands)
	}
	return hours
}

func TestADayIsTheNextOfItsName(t *testing.T) {
	h := shelves(t, model.Mesic, 1)
	w := day.NewWeek(estimate.New(h.Book), may(8, 19)) // a Friday evening, hands done at 18
	for i, d := range w.Days {
		if model.WeekdayOf(d.Next) != model.Weekdays[i] || d.Next.Before(may(8, 19)) || d.Next.Sub(may(8, 19)) > 7*24*time.Hour {
			t.Errorf("%s is %v", d.Day, d.Next)
		}
	}
}

// A week of 50,000 plants on 625 shelves; the budget of the whole command is 2 s.
func BenchmarkWeek50000(b *testing.B) {
	h := shelves(b, model.Mesic, slices.Repeat([]int{80}, 625)...)
	k := estimate.New(h.Book)
	for b.Loop() {
		day.NewWeek(k, may(8, 9))
	}
}
