package model

import (
	"fmt"
	"math"
	"slices"
	"time"
)

var _ = register[Readings]("readings")

// Readings is what a logging hygrometer wrote down: many readings in one entry,
// so that a year of them is one line of the book and one strike. The lists are
// of one length and in the order of time.
type Readings struct {
	File    string    `json:"file,omitempty"`
	Start   time.Time `json:"start"`
	Minutes []int     `json:"minutes"` // after Start
	TempC   []float64 `json:"temp_c"`  // degrees Celsius
	RH      []float64 `json:"rh"`      // relative humidity in %
}

// NewReadings packs readings, which must be in the order of time, into an
// entry's fact. Times are kept to the minute, temperatures to 0.01 °C and
// humidities to 0.1 %: finer than any household sensor.
func NewReadings(file string, log []ReadingAt) *Readings {
	f := &Readings{File: file}
	for i, r := range log {
		at := r.At.UTC().Truncate(time.Minute)
		if i == 0 {
			f.Start = at
		}
		f.Minutes = append(f.Minutes, int(at.Sub(f.Start)/time.Minute))
		f.TempC = append(f.TempC, math.Round(r.TempC*100)/100)
		f.RH = append(f.RH, math.Round(r.RH*10)/10)
	}
	return f
}

// Kind implements [Fact].
func (Readings) Kind() Kind { return "readings" }

// Len is the number of readings.
func (f Readings) Len() int { return len(f.Minutes) }

// At is one of the readings, from 0.
func (f Readings) At(i int) ReadingAt {
	return ReadingAt{At: f.Start.Add(time.Duration(f.Minutes[i]) * time.Minute), TempC: f.TempC[i], RH: f.RH[i]}
}

// clockSlack is how far ahead a logger's clock may be. A choice: an hour of
// summer time forgotten.
const clockSlack = time.Hour

func (f Readings) check(b *Book, e Entry) error {
	if f.Len() == 0 || len(f.TempC) != f.Len() || len(f.RH) != f.Len() {
		return &Problem{
			What: "readings without a time, a temperature or a humidity",
			Do:   "each reading needs all three",
		}
	}
	for i := range f.Minutes {
		r := f.At(i)
		if i > 0 && f.Minutes[i] <= f.Minutes[i-1] {
			return &Problem{What: "readings out of order at " + r.At.In(b.zone).Format(MomentLayout)}
		}
		if err := (Reading{TempC: r.TempC, RH: r.RH}).check(b, e); err != nil {
			return fmt.Errorf("reading of %s: %w", r.At.In(b.zone).Format(MomentLayout), err)
		}
	}
	return nil
}

// allow refuses readings that are still to come.
func (f Readings) allow(b *Book, e Entry) error {
	if last := f.At(f.Len() - 1).At; last.After(e.At.Add(clockSlack)) {
		return &Problem{
			What: "a reading of " + last.In(b.zone).Format(MomentLayout) + ", which is to come",
			Do:   "set the logger's clock, or check the order of day and month",
		}
	}
	return nil
}

// Readings may be older than much that is in the book, so the whole history is
// sorted once instead of finding each its place.
func (f Readings) apply(b *Book, e Entry) {
	for i := range f.Minutes {
		b.readings = append(b.readings, f.At(i))
	}
	slices.SortStableFunc(b.readings, func(x, y ReadingAt) int { return x.At.Compare(y.At) })
}

// LoggedHours are the hours, counted from 1970 in UTC, of which the book holds
// a logger's reading. Struck entries do not count.
func (b *Book) LoggedHours() map[int64]bool {
	hours := map[int64]bool{}
	for _, e := range b.entries {
		f, ok := e.Fact.(*Readings)
		if !ok || b.struck[e.Seq] {
			continue
		}
		for i := range f.Minutes {
			hours[HourOf(f.At(i).At)] = true
		}
	}
	return hours
}

// HourOf is the hour of a time, counted from 1970 in UTC.
func HourOf(t time.Time) int64 { return t.Unix() / 3600 }
