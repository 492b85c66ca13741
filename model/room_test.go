package model_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"tubside/model"
)

// Readings stand in the order of time, whenever they are entered; of two in the
// same second, the one entered first.
func TestReadingsInTheOrderOfTime(t *testing.T) {
	d := blank(t)
	for _, r := range []struct{ minutes, temp float64 }{{10, 20}, {5, 21}, {10, 22}, {20, 23}, {5, 24}} {
		d.at = soakDay.Add(time.Duration(r.minutes-1) * time.Minute)
		d.write(&model.Reading{TempC: r.temp, RH: 40})
	}
	var got []float64
	for _, r := range d.Readings() {
		got = append(got, r.TempC)
	}
	if want := []float64{21, 24, 20, 22, 23}; !cmp.Equal(got, want) {
		t.Errorf("read in the order %v, want %v", got, want)
	}
	want := model.ReadingAt{At: soakDay.Add(20 * time.Minute), TempC: 23, RH: 40}
	if last := d.Readings()[4]; last != want {
		t.Errorf("the last reading is %+v, want %+v", last, want)
	}
}

func TestReadingsOfTheRoomRefused(t *testing.T) {
	d := blank(t)
	nan := math.NaN()
	for _, temp := range []float64{-5.1, 50.1, 72, nan} { // 72 is °F
		d.refuses(refusal{&model.Reading{TempC: temp, RH: 40}, nil, "a room at", "°C or °F"})
	}
	for _, rh := range []float64{0, 0.4, 100.5, nan} { // 0.4 is a share
		d.refuses(refusal{&model.Reading{TempC: 20, RH: rh}, nil, "a humidity of", "in percent, 1 to 100"})
	}
	d.refuses(refusal{&model.Reading{TempC: 20, RH: 40, Fan: "storm"}, nil, `fan "storm"`, "off, low, on or near"})
	for _, edge := range []model.Reading{{TempC: -5, RH: 1}, {TempC: 50, RH: 100}} {
		d.write(&edge)
	}
}

// The fan runs low until somebody says otherwise, and as it was said last
// before the hour asked for, whenever that was entered.
func TestTheFanOverTheDay(t *testing.T) {
	d := blank(t)
	at := func(hour int) time.Time { return soakDay.Add(time.Duration(hour) * time.Hour) }
	set := func(hour int, f model.Fact) {
		d.at = at(hour).Add(-time.Minute)
		d.write(f)
	}
	set(6, &model.FanSet{Fan: model.FanOff})
	set(2, &model.FanSet{Fan: model.FanNear})
	set(4, &model.Reading{TempC: 20, RH: 40, Fan: model.FanOn})
	set(5, &model.Reading{TempC: 20, RH: 40}) // says nothing of the fan
	set(2, &model.FanSet{Fan: model.FanLow})  // set twice in one second: the later counts
	for hour, want := range map[int]model.Fan{0: model.FanLow, 1: model.FanLow, 2: model.FanLow, 4: model.FanOn,
		5: model.FanOn, 6: model.FanOff, 90: model.FanOff} {
		if got := d.Fan(at(hour)); got != want {
			t.Errorf("at hour %d the fan is %s, want %s", hour, got, want)
		}
	}
}

// What stands in the book is one of the four words, not the first letters of
// one.
func TestFanRefused(t *testing.T) {
	d := blank(t)
	for _, word := range []model.Fan{"", "storm", "o", "n", "NEAR"} {
		d.refuses(refusal{&model.FanSet{Fan: word}, nil, "fan \"" + string(word) + "\"", "off, low, on"})
	}
	for _, fan := range model.Fans {
		d.write(&model.FanSet{Fan: fan})
		if got := d.Fan(d.at); got != fan {
			t.Errorf("set to %s, and it is %s", fan, got)
		}
	}
}

// A drying place typed with a space or in capitals is the one that stands there.
func TestDryingPlaces(t *testing.T) {
	d := blank(t)
	d.write(&model.BenchSet{Bench: model.Bench{Name: " Rack", Room: 2, Fan: model.FanOn}})
	d.write(&model.BenchSet{Bench: model.Bench{Name: "towels ", Room: 1}})
	want := []model.Bench{{Name: "rack", Room: 2, Fan: model.FanOn}, {Name: "towels", Room: 1}}
	if diff := cmp.Diff(want, d.Benches()); diff != "" {
		t.Errorf("the drying places:\n%s", diff)
	}
	d.refuses(
		refusal{&model.BenchSet{Bench: model.Bench{Room: 1}}, nil, "without a name", "rack or towels"},
		refusal{&model.BenchSet{Bench: model.Bench{Name: "roof"}, Away: true}, nil, `no drying place "roof"`, "they are rack, towels"},
		refusal{&model.BenchSet{Bench: model.Bench{Name: "rack"}}, nil, "room of 0 m²", "square metres"},
		refusal{&model.BenchSet{Bench: model.Bench{Name: "rack", Room: 201}}, nil, "room of 201 m²", "up to 200"},
		refusal{&model.BenchSet{Bench: model.Bench{Name: "rack", Room: 1, Factor: 11}}, nil, "11 times as long", "0.1 to 10"},
		refusal{&model.BenchSet{Bench: model.Bench{Name: "rack", Room: 1, Factor: 0.05}}, nil, "0.05 times as long", "0.1 to 10"},
		refusal{&model.BenchSet{Bench: model.Bench{Name: "rack", Room: 1, Fan: "n"}}, nil, `fan "n"`, "off, low, on or near"},
	)
	for _, factor := range []float64{0, model.MinBenchFactor, model.MaxBenchFactor} {
		d.write(&model.BenchSet{Bench: model.Bench{Name: "rack", Room: model.MaxBenchRoom, Factor: factor}})
	}
	d.write(&model.BenchSet{Bench: model.Bench{Name: " RACK"}, Away: true})
	if len(d.Benches()) != 1 {
		t.Errorf("%d drying places with the rack put away", len(d.Benches()))
	}
}

// A shelf's day is one of the seven words, and none of its neighbours'.
func TestShelfDays(t *testing.T) {
	d := shelved(t)
	d.write(&model.ShelfDays{Days: map[string]model.Weekday{"A": "sat", "b": "sun"}})
	d.write(&model.ShelfDays{Days: map[string]model.Weekday{"B": ""}})
	if day, ok := d.ShelfDay("a"); !ok || day != "sat" {
		t.Errorf("shelf A is soaked on %q, %t", day, ok)
	}
	if day, ok := d.ShelfDay("B"); ok {
		t.Errorf("shelf B has no day, and yet %q", day)
	}
	d.refuses(
		refusal{&model.ShelfDays{}, nil, "days for no shelf", "name a shelf"},
		refusal{&model.ShelfDays{Days: map[string]model.Weekday{"Z": "sat"}}, nil, `no plants on shelf "Z"`, ""},
		refusal{&model.ShelfDays{Days: map[string]model.Weekday{"A": "tu"}}, nil, `no day "tu"`, "mon, tue"},
	)
}

func TestDaysOfTheWeek(t *testing.T) {
	for text, want := range map[string]model.Weekday{"mo": "mon", "Saturday": "sat", " SUN ": "sun", "thurs": "thu"} {
		if got, err := model.ParseWeekday(text); err != nil || got != want {
			t.Errorf("%q read as %q, %v; want %q", text, got, err, want)
		}
	}
	for _, text := range []string{"", "t", "s", "someday"} { // t is Tuesday or Thursday
		if got, err := model.ParseWeekday(text); err == nil || !strings.Contains(err.Error(), "use mon, tue") {
			t.Errorf("%q read as %q, %v", text, got, err)
		}
	}
	hours := map[model.Limit]bool{}
	for _, day := range model.Weekdays {
		hours[day.Limit()] = true
		if name := model.LimitTable[day.Limit()].Name; !strings.Contains(name, string(day)) {
			t.Errorf("the hours of %s are the rule %s", day, name)
		}
	}
	if len(hours) != 7 || model.WeekdayOf(soakDay) != "sat" || model.WeekdayOf(soakDay.AddDate(0, 0, 2)) != "mon" {
		t.Errorf("%d rules for seven days; soak day is a %s", len(hours), model.WeekdayOf(soakDay))
	}
}
