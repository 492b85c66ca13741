package model

import (
	"fmt"
	"slices"
	"time"
)

var _ = register[Outside]("outside")

// Outside is what the air outdoors is: what comes in by an open window.
type Outside struct {
	TempC float64 `json:"temp_c"` // degrees Celsius
	RH    float64 `json:"rh"`     // relative humidity in %
}

// Kind implements [Fact].
func (Outside) Kind() Kind { return "outside" }

func (f Outside) check(b *Book, e Entry) error {
	switch {
	case !(f.TempC >= -45 && f.TempC <= 50):
		return &Problem{What: fmt.Sprintf("%.1f °C outdoors", f.TempC), Do: "check the reading and its unit (°C or °F)"}
	case !(f.RH >= 1 && f.RH <= 100):
		return &Problem{What: fmt.Sprintf("a humidity of %g %% outdoors", f.RH), Do: "give it in percent, 1 to 100"}
	}
	return nil
}

func (f Outside) apply(b *Book, e Entry) {
	i, _ := slices.BinarySearchFunc(b.outside, e.At, func(r ReadingAt, t time.Time) int {
		if r.At.After(t) {
			return 1
		}
		return -1
	})
	b.outside = slices.Insert(b.outside, i, ReadingAt{e.At, f.TempC, f.RH})
}

// outsideHolds is how long a reading of the air outdoors stands. A choice:
// weather changes from day to day.
const outsideHolds = 24 * time.Hour

// Outside is the air outdoors as last read by a time; false where that is longer
// ago than weather holds.
func (b *Book) Outside(at time.Time) (ReadingAt, bool) {
	for i := len(b.outside) - 1; i >= 0; i-- {
		if r := b.outside[i]; !r.At.After(at) {
			return r, r.StandsOutside(at)
		}
	}
	return ReadingAt{}, false
}

// StandsOutside reports whether a reading of the air outdoors still stands for it
// at a time.
func (r ReadingAt) StandsOutside(at time.Time) bool {
	return !r.At.IsZero() && at.Sub(r.At) <= outsideHolds
}
