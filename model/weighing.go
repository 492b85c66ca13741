package model

import (
	"slices"
	"time"
)

var _ = register[Weighing]("weighing")

// Weighing names some plants, mostly ten, that are put on the scale for four weeks,
// so that the book learns from them what all such plants in this home do. Named
// again, other plants take their place and the days go on. Over ends it.
type Weighing struct {
	Over bool `json:"over,omitempty"`
}

// WeighingWeeks is how long the ten are weighed. A choice: four soaks and the days
// between them.
const WeighingWeeks = 4

// Kind implements [Fact].
func (Weighing) Kind() Kind { return "weighing" }

func (f Weighing) check(b *Book, e Entry) error {
	switch {
	case f.Over && b.ten == nil:
		return &Problem{What: "no plants are being weighed"}
	case f.Over && len(e.Plants) == 0:
		return nil
	}
	return b.present(e.Plants)
}

func (f Weighing) apply(b *Book, e Entry) {
	if f.Over {
		b.ten = nil
		return
	}
	ten := Ten{Since: e.At, Plants: slices.Clone(e.Plants)}
	if b.ten != nil && e.At.Before(b.ten.Until()) {
		ten.Since = b.ten.Since
	}
	b.ten = &ten
}

// Ten is the plants that are being weighed, and since when. It is never changed.
type Ten struct {
	Since  time.Time
	Plants IDs
}

// Until is when their weeks are over.
func (t *Ten) Until() time.Time { return t.Since.AddDate(0, 0, 7*WeighingWeeks) }

// Ten is the plants that are being weighed at a time, nil when none are. The
// caller must not change it.
func (b *Book) Ten(at time.Time) *Ten {
	if b.ten == nil || !at.Before(b.ten.Until()) {
		return nil
	}
	return b.ten
}
