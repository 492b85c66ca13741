// Package feed is the arithmetic of feeding: how much powder for how much water, how strong that is, when to feed
// again, and what is in the water to begin with. It knows numbers only.
package feed

import (
	"fmt"
)

// Caution is what to say wherever a dose is shown.
const Caution = "Read the fertiliser's label first; it and local rules come before this dose. Weigh on a separate scale with gloves on, " +
	"never with kitchen spoons; keep dust out of your face; add powder to water; keep children and pets away from the bath."

// RichestN is the most nitrogen a solid fertiliser has, % by mass: pure urea, CO(NH2)2, 46.6 %.
const RichestN = 47.0

// MostLitres is the largest bath a dose is worked out for, L: anything larger is a slip of the comma.
const MostLitres = 1000.0

// Powder is a dry fertiliser as its label and the grower's scale describe it.
type Powder struct {
	N         float64 // nitrogen, % by mass: the first of the three numbers of the label, 0 to RichestN
	TeaspoonG float64 // one level teaspoon of it as the grower weighed it, g; 0 where it was not weighed
}

// Valid returns nil for a powder that can exist, and otherwise an error that names the number and its range. The
// methods that return an error call it.
func (p Powder) Valid() error {
	if !(p.N >= 0 && p.N <= RichestN) {
		return fmt.Errorf("nitrogen %v %%: give the first number of the label, 0 to %v", p.N, RichestN)
	}
	if !(p.TeaspoonG >= 0) || p.TeaspoonG > 20 {
		return fmt.Errorf("teaspoon %v g: give what one level teaspoon weighs, up to 20 g, or 0", p.TeaspoonG)
	}
	return nil
}

// PPM is the strength of a powder with n % nitrogen by mass, in mg of nitrogen per litre, at grams of powder per litre.
// Standard arithmetic: g/L x %N x 10.
func PPM(gramsPerLitre, n float64) float64 { return gramsPerLitre * n * 10 }

// GramsPerLitre is the inverse of PPM. Without nitrogen there is no answer, and it is +Inf for any strength above 0.
func GramsPerLitre(ppm, n float64) float64 { return ppm / (n * 10) }
