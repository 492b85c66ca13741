package model

import (
	"fmt"
	"time"
)

var _ = register[Weigh]("weight")

// Weigh is one plant, clump or tray on a kitchen scale. Wet is the weight after a soak, shaken and
// blotted, at best when it is dry to the heart and not hung yet: what later weights
// are held against. Taken while it soaks, it says how fast the plant drinks.
type Weigh struct {
	Grams float64 `json:"g"`
	Wet   bool    `json:"wet,omitempty"`
}

// Questionable says what may be wrong with a weight of a plant in grams, "" when nothing
// looks wrong: it is far over or under what it weighed full. A plant with no water
// left weighs a fifth of that, a fifth is more than one grows by in a season (choices).
func (r *Row) Questionable(grams float64) string {
	full, last := r.WetWeight.Grams, r.Weight.Grams
	switch {
	case full == 0 && last > 0 && (grams > 2*last || grams < last/2):
		return fmt.Sprintf("it weighed %g g last time", last)
	case full == 0:
		return ""
	case grams > 1.2*full:
		return fmt.Sprintf("it weighed %g g when full", full)
	case grams < 0.25*full:
		return fmt.Sprintf("it weighed %g g when full: less than a quarter is left", full)
	}
	return ""
}

// MaxGrams bounds a weight. A choice: more than two hands carry is a slip.
const MaxGrams = 20000.0

// Kind implements [Fact].
func (Weigh) Kind() Kind { return "weight" }

func (f Weigh) check(b *Book, e Entry) error {
	if err := b.present(e.Plants); err != nil {
		return err
	}
	if len(e.Plants) > 1 {
		return &Problem{What: "one weight for several plants", Do: "weigh one plant at a time"}
	}
	if !(f.Grams > 0 && f.Grams <= MaxGrams) {
		return &Problem{
			What: fmt.Sprintf("a weight of %g g", f.Grams),
			Do:   fmt.Sprintf("give grams, up to %.0f", MaxGrams),
		}
	}
	if f.Wet {
		return b.presentIn(e.Plants, "the wet weight is taken when it comes out of the water, shaken and blotted",
			Soaking, Drying, Dry)
	}
	return b.presentIn(e.Plants, "weigh it dry, at home, or enter it as a wet weight", AtHome, Dry)
}

func (f Weigh) apply(b *Book, e Entry) {
	at := WeightAt{e.At, f.Grams}
	b.each(e.Plants, func(r *Row) {
		switch {
		case f.Wet && r.State == Soaking: // on its way to full
		case f.Wet && !e.At.Before(r.WetWeight.At):
			r.WetWeight = at
		case !f.Wet && !e.At.Before(r.Weight.At):
			r.Weight = at
		}
	})
}

// WeightAt is what a row weighed, and when.
type WeightAt struct {
	At    time.Time
	Grams float64 // 0 when it was never weighed
}
