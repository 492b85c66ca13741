package model

import "time"

var (
	_ = register[Look]("signs")
	_ = register[Rot]("rot")
	_ = register[Mist]("mist")
	_ = register[Note]("note")
)

var zeroTime time.Time

// Look is signs seen on plants, the same on each.
type Look struct {
	Signs
}

// Kind implements [Fact].
func (Look) Kind() Kind { return "signs" }

func (f Look) check(b *Book, e Entry) error {
	if err := f.Signs.check(); err != nil {
		return err
	}
	return b.present(e.Plants)
}

func (f Look) apply(b *Book, e Entry) {
	b.each(e.Plants, func(r *Row) {
		r.seenAfterSoak(e.At, b.zone)
		if !e.At.Before(r.SignsAt) { // an old note says nothing of what was seen since
			r.Signs, r.SignsAt = f.Signs, e.At
		}
	})
}

// Rot says plants may be rotting, or that they turned out sound.
type Rot struct {
	Over bool `json:"over,omitempty"`
}

// Kind implements [Fact].
func (Rot) Kind() Kind { return "rot" }

func (f Rot) check(b *Book, e Entry) error { return b.present(e.Plants) }

func (f Rot) apply(b *Book, e Entry) {
	b.each(e.Plants, func(r *Row) { r.rot(f, e) })
	b.spoilWater(e)
}

func (r *Row) rot(f Rot, e Entry) {
	if f.Over && !r.Rot.IsZero() {
		r.Cleared = e.At
	}
	r.Rot, r.CleanFrom = sinceOrOver(r.Rot, e.At, f.Over), zeroTime
}

// sinceOrOver keeps the first day of what is going on, or ends it.
func sinceOrOver(since, at time.Time, over bool) time.Time {
	switch {
	case over:
		return zeroTime
	case since.IsZero():
		return at
	}
	return since
}

// Mist is a misting of plants where they hang, with plain water. Fed water on
// the leaves is a [Feed].
type Mist struct {
	Of Source `json:"of,omitempty"` // the water; empty: not said
}

// Kind implements [Fact].
func (Mist) Kind() Kind { return "mist" }

func (f Mist) check(b *Book, e Entry) error {
	if err := f.Of.check(); err != nil {
		return err
	}
	return b.present(e.Plants)
}

func (f Mist) allow(b *Book, e Entry) error { return b.checkPlain() }

func (f Mist) apply(b *Book, e Entry) {
	b.each(e.Plants, func(r *Row) { r.Misted = Later(r.Misted, e.At) })
}

// Note is anything worth writing down about plants, or about the day when it
// names none.
type Note struct {
	Text string `json:"text"`
}

// Kind implements [Fact].
func (Note) Kind() Kind { return "note" }

func (f Note) check(b *Book, e Entry) error {
	switch {
	case f.Text == "":
		return &Problem{What: "a note with nothing in it"}
	case TooLong(f.Text):
		return &Problem{What: "a note of more than 2000 characters", Do: "make two of it"}
	case len(e.Plants) == 0:
		return nil
	}
	return b.present(e.Plants)
}

func (f Note) apply(*Book, Entry) {}
