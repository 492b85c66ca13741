package model

import (
	"time"
)

var (
	_ = register[Trip]("trip")
	_ = register[Back]("back")
)

// Trip says the grower will be, is or was away, and what was planned for it.
type Trip struct {
	From  time.Time `json:"from"`
	Until time.Time `json:"until"`
	Note  string    `json:"note,omitempty"`
}

// Kind implements [Fact].
func (Trip) Kind() Kind { return "trip" }

// MaxTrip bounds a trip. A choice: longer than any that plants can be left for,
// short enough to catch a year slipped.
const MaxTrip = 366 * 24 * time.Hour

func (f Trip) check(b *Book, e Entry) error {
	switch d := f.Until.Sub(f.From); {
	case f.From.IsZero() || f.Until.IsZero():
		return &Problem{What: "a trip without its days", Do: "say from when and until when"}
	case d <= 0:
		return &Problem{What: "a trip that ends before it begins", Do: "check the two dates"}
	case d > MaxTrip:
		return &Problem{What: "a trip of more than a year", Do: "check the year"}
	case TooLong(f.Note):
		return &Problem{What: "a note of more than 2000 characters", Do: "shorten it"}
	}
	return nil
}

// A trip told before the last one is over replaces it: the plan has changed.
func (f Trip) apply(b *Book, e Entry) {
	told := Absence{From: f.From, Until: f.Until, Note: f.Note}
	if last := len(b.trips) - 1; last >= 0 && !b.trips[last].OverBy(e.At) {
		b.trips[last] = told
		return
	}
	b.trips = append(b.trips, told)
}

// Back says the grower is home again.
type Back struct{}

// Kind implements [Fact].
func (Back) Kind() Kind { return "back" }

func (f Back) check(b *Book, e Entry) error {
	trip, ok := b.LastTrip()
	switch {
	case !ok || !trip.Back.IsZero():
		return &Problem{What: "there is no trip to come back from", Do: "enter the trip first, with its dates"}
	case e.At.Before(trip.From):
		return &Problem{
			What: "the trip begins on " + trip.From.In(b.zone).Format(MomentLayout),
			Do:   "undo it, or enter it again with other dates",
		}
	}
	return nil
}

func (f Back) apply(b *Book, e Entry) { b.trips[len(b.trips)-1].Back = e.At }

// Absence is one trip in the book's history.
type Absence struct {
	From, Until time.Time // as planned
	Note        string
	Back        time.Time // when the grower said to be home; zero not yet
}

// Home is when the grower is home again: when that was said, or when it was
// planned.
func (a Absence) Home() time.Time {
	if a.Back.IsZero() {
		return a.Until
	}
	return a.Back
}

// OverBy reports whether the trip is over at a time.
func (a Absence) OverBy(t time.Time) bool { return !t.Before(a.Home()) }

// Under reports whether the grower is away at a time.
func (a Absence) Under(t time.Time) bool { return !t.Before(a.From) && !a.OverBy(t) }

// LastTrip is the trip told last: to come, under way or over. It returns false
// when there is none.
func (b *Book) LastTrip() (Absence, bool) {
	if len(b.trips) == 0 {
		return Absence{}, false
	}
	return b.trips[len(b.trips)-1], true
}

// Trips lists all trips in the order told. The caller must not change it.
func (b *Book) Trips() []Absence { return b.trips }
