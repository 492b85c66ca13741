package model_test

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"tubside/model"
)

// journal is a book in the making.
type journal struct {
	*model.Book
	t *testing.T
}

func begin(t *testing.T) journal { return journal{model.NewBook(time.UTC), t} }

func (j journal) next(at time.Time, f model.Fact, ids ...model.ID) model.Entry {
	e := model.NewEntry(at, f, ids...)
	e.Seq = model.Seq(len(j.Entries()) + 1)
	return e
}

// say writes an entry that must be taken.
func (j journal) say(at time.Time, f model.Fact, ids ...model.ID) {
	j.t.Helper()
	e := j.next(at, f, ids...)
	if err := j.Check(e); err != nil {
		j.t.Fatalf("%s: %v", f.Kind(), err)
	}
	if err := j.Apply(e); err != nil {
		j.t.Fatalf("%s: %v", f.Kind(), err)
	}
}

// refuses holds that an entry is not taken, and why.
func (j journal) refuses(at time.Time, f model.Fact, why string) {
	j.t.Helper()
	err := j.Check(j.next(at, f))
	if err == nil || !strings.Contains(err.Error(), why) {
		j.t.Errorf("%s: got %v, want a refusal with %q", f.Kind(), err, why)
	}
}

func may(day, hour int) time.Time { return time.Date(2026, 5, day, hour, 0, 0, 0, time.UTC) }

func TestTrip(t *testing.T) {
	j := begin(t)
	j.refuses(may(1, 9), &model.Back{}, "no trip to come back from")
	j.say(may(1, 9), &model.Trip{From: may(4, 8), Until: may(16, 8)})
	j.refuses(may(2, 9), &model.Back{}, "the trip begins on 4 May 2026 08:00")

	// The plan changes before it begins: one trip, not two.
	j.say(may(2, 9), &model.Trip{From: may(5, 8), Until: may(17, 8), Note: "the islands"})
	want := model.Absence{From: may(5, 8), Until: may(17, 8), Note: "the islands"}
	if got, ok := j.LastTrip(); !ok || !cmp.Equal(got, want) || len(j.Trips()) != 1 {
		t.Errorf("got %+v, %t of %d, want %+v", got, ok, len(j.Trips()), want)
	}
	if want.Under(may(5, 7)) || !want.Under(may(5, 8)) || want.Under(may(17, 8)) {
		t.Error("away from the first hour to the last, and no longer")
	}

	// Home a day early: the dates told, and when it was over.
	j.say(may(16, 20), &model.Back{})
	if got, _ := j.LastTrip(); got.Home() != may(16, 20) || got.Until != may(17, 8) || !got.OverBy(may(16, 20)) {
		t.Errorf("got %+v", got)
	}
	j.refuses(may(16, 21), &model.Back{}, "no trip to come back from")

	// The next trip is another one; one that nobody came back from is over by its date.
	j.say(may(20, 9), &model.Trip{From: may(21, 8), Until: may(22, 8)})
	j.say(may(23, 9), &model.Trip{From: may(24, 8), Until: may(25, 8)})
	if len(j.Trips()) != 3 {
		t.Errorf("%d trips, want 3", len(j.Trips()))
	}

	// Struck, a homecoming did not happen.
	j.say(may(24, 9), &model.Back{})
	j.say(may(24, 10), &model.Strike{Seq: j.Entries()[len(j.Entries())-1].Seq})
	if got, _ := j.LastTrip(); !got.Back.IsZero() {
		t.Errorf("struck, and still home: %+v", got)
	}
}

func TestTripRefused(t *testing.T) {
	j := begin(t)
	for why, trip := range map[string]model.Trip{
		"without its days":          {From: may(1, 8)},
		"ends before it begins":     {From: may(2, 8), Until: may(1, 8)},
		"more than a year":          {From: may(1, 8), Until: may(1, 8).AddDate(2, 0, 0)},
		"more than 2000 characters": {From: may(1, 8), Until: may(2, 8), Note: strings.Repeat("x", 2001)},
	} {
		j.refuses(may(1, 8), &trip, why)
	}
}

// A year of a logger's readings is one entry that reads back as it was.
func TestReadings(t *testing.T) {
	j := begin(t)
	j.say(may(1, 10), &model.Reading{TempC: 20, RH: 40})
	log := []model.ReadingAt{
		{At: may(1, 8), TempC: 20.123, RH: 41.26},
		{At: may(1, 9).Add(30*time.Minute + 20*time.Second), TempC: 21, RH: 39},
		{At: may(3, 9), TempC: 22, RH: 45},
	}
	f := model.NewReadings("log.csv", log)
	j.say(may(4, 9), f)
	text, err := json.Marshal(j.Entries()[1])
	if err != nil {
		t.Fatal(err)
	}
	const want = `{"v":1,"at":"2026-05-04T09:00:00Z","kind":"readings","fact":{"file":"log.csv","start":"2026-05-01T08:00:00Z","minutes":[0,90,2940],"temp_c":[20.12,21,22],"rh":[41.3,39,45]}}`
	if string(text) != want {
		t.Errorf("on disk\n%s\nwant\n%s", text, want)
	}
	var e model.Entry
	if err := json.Unmarshal(text, &e); err != nil || !cmp.Equal(e.Fact, model.Fact(f)) {
		t.Errorf("read back %+v, %v", e.Fact, err)
	}

	// The room's past is in order, hand and logger together.
	var hours []int
	for _, r := range j.Readings() {
		hours = append(hours, r.At.Day()*100+r.At.Hour())
	}
	if !cmp.Equal(hours, []int{108, 109, 110, 309}) {
		t.Errorf("the room's past is %v", hours)
	}
	if h := j.LoggedHours(); len(h) != 3 || h[model.HourOf(may(1, 10))] || !h[model.HourOf(may(1, 9))] {
		t.Errorf("logged hours %v", h)
	}
	j.say(may(4, 10), &model.Strike{Seq: 2})
	if len(j.LoggedHours()) != 0 || len(j.Readings()) != 1 {
		t.Error("struck readings count")
	}
}

func TestReadingsRefused(t *testing.T) {
	j := begin(t)
	at := func(m int, temp, rh float64) *model.Readings {
		return &model.Readings{Start: may(1, 8), Minutes: []int{m}, TempC: []float64{temp}, RH: []float64{rh}}
	}
	j.refuses(may(1, 9), &model.Readings{}, "without a time")
	j.refuses(may(1, 9), &model.Readings{Start: may(1, 8), Minutes: []int{0}, TempC: []float64{20}}, "without a time")
	j.refuses(may(1, 9), at(0, 70, 40), "check the reading and its unit")
	j.refuses(may(1, 9), at(0, 20, 0), "reading of 1 May 2026 08:00")
	j.refuses(may(1, 9), at(121, 20, 40), "which is to come")
	j.say(may(1, 9), at(120, 20, 40)) // an hour of summer time forgotten
	j.refuses(may(1, 9), &model.Readings{Start: may(1, 8), Minutes: []int{5, 5}, TempC: []float64{20, 20},
		RH: []float64{40, 40}}, "out of order")
}
