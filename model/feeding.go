package model

import (
	"fmt"
	"slices"
	"time"
)

var (
	_ = register[Feed]("feed")
	_ = register[Bottle]("bottle")
)

// Feed is plants fed outside a load: sprayed, dipped, or in a bath that was not
// entered as a load. A load in fed water feeds its plants by itself: see [Soak].
type Feed struct {
	How Feeding `json:"how"`
	Mix
	Litres float64 `json:"litres,omitempty"` // how much was mixed; 0 not said
}

// Kind implements [Fact].
func (Feed) Kind() Kind { return "feed" }

func (f Feed) check(b *Book, e Entry) error {
	switch {
	case !slices.Contains(Feedings, f.How):
		return &Problem{What: fmt.Sprintf("fed by %q", f.How), Do: "say mist, dip or bath"}
	case !(f.Litres >= 0 && f.Litres <= maxLitres):
		return &Problem{
			What: fmt.Sprintf("%g litres of fed water", f.Litres),
			Do:   fmt.Sprintf("give up to %d litres", maxLitres),
		}
	}
	if err := f.Mix.check(); err != nil {
		return err
	}
	return b.present(e.Plants)
}

func (f Feed) allow(b *Book, e Entry) error { return f.Mix.allow(b.rules) }

func (f Feed) apply(b *Book, e Entry) {
	b.each(e.Plants, func(r *Row) {
		r.feed(e.At, f.How, f.Mix)
		if f.How != ByBath {
			r.Misted = Later(r.Misted, e.At) // the leaves were wetted
		}
	})
}

// Bottle says what is in the mist bottle from now on: fed water, plain water,
// or nothing.
type Bottle struct {
	Fed   *Mix   `json:"fed,omitempty"`   // nil: plain
	Of    Source `json:"of,omitempty"`    // the water; empty: not said
	Empty bool   `json:"empty,omitempty"` // rinsed out and left empty
}

// Kind implements [Fact].
func (Bottle) Kind() Kind { return "bottle" }

func (f Bottle) check(b *Book, e Entry) error {
	if f.Empty && (f.Fed != nil || f.Of != "") {
		return &Problem{What: "an empty bottle with something in it"}
	}
	if err := f.Of.check(); err != nil {
		return err
	}
	return f.Fed.check()
}

func (f Bottle) allow(b *Book, e Entry) error { return f.Fed.allow(b.rules) }

func (f Bottle) apply(b *Book, e Entry) { b.bottle = BottleAt{f, e.At} }

// BottleAt is what the mist bottle holds, and since when. The zero value is a
// bottle that nobody told of: taken to be plain.
type BottleAt struct {
	Bottle
	At time.Time
}

// Bottle is what the mist bottle holds.
func (b *Book) Bottle() BottleAt { return b.bottle }

// checkPlain refuses a plain misting from a bottle that holds fed water: it
// would feed the plants, and nobody would know.
func (b *Book) checkPlain() error {
	if b.bottle.Fed == nil {
		return nil
	}
	return &Problem{
		What: fmt.Sprintf("the mist bottle has held fed water since %s", b.bottle.At.In(b.zone).Format(DayLayout)),
		Do:   "say that it was refilled with plain water, or enter this as a feed",
	}
}
