package feed

import (
	"fmt"
	"math"
)

// Dose is the powder for one bath.
type Dose struct {
	Grams     float64
	Teaspoons float64 // level US teaspoons; 0 where no spoon of the powder was weighed
	Litres    float64 // the bath
	PPM       float64 // nitrogen, mg/L
}

// GramsPerLitre is the powder in each litre of the bath, g.
func (d Dose) GramsPerLitre() float64 { return d.Grams / d.Litres }

// Dose works out the powder for a bath of litres at a strength in ppm of nitrogen. It fails for a powder without
// nitrogen, which can only be dosed by its label, and for numbers that cannot be. It does not judge the strength: see
// Limits.
func (p Powder) Dose(ppm, litres float64) (Dose, error) {
	if !(ppm >= 0) || math.IsInf(ppm, 1) {
		return Dose{}, fmt.Errorf("strength %v ppm: give 0 or more", ppm)
	}
	if p.N == 0 {
		return Dose{}, fmt.Errorf("nitrogen 0 %%: a powder without nitrogen has no ppm of it; dose by its label")
	}
	return p.Weighed(GramsPerLitre(ppm, p.N)*litres, litres)
}

// AtLabel works out the powder for a bath of litres at a part of the label's rate: 0.25 of 2 g/L is a quarter strength.
// Part is above 0 and at most 1; more than the label is not for a plant that is fed through its leaves.
func (p Powder) AtLabel(gramsPerLitre, part, litres float64) (Dose, error) {
	if !(gramsPerLitre > 0) || math.IsInf(gramsPerLitre, 1) {
		return Dose{}, fmt.Errorf("label's rate %v g/L: give more than 0", gramsPerLitre)
	}
	if !(part > 0 && part <= 1) {
		return Dose{}, fmt.Errorf("part of the label's rate %v: give one above 0 and up to 1, such as 0.25", part)
	}
	return p.Weighed(gramsPerLitre*part*litres, litres)
}

// Weighed says how strong a bath of litres becomes with grams of the powder.
func (p Powder) Weighed(grams, litres float64) (Dose, error) {
	if err := p.Valid(); err != nil {
		return Dose{}, err
	}
	if !(litres > 0 && litres <= MostLitres) {
		return Dose{}, fmt.Errorf("bath of %v L: give more than 0 and up to %v L", litres, MostLitres)
	}
	if !(grams >= 0) || math.IsInf(grams, 1) {
		return Dose{}, fmt.Errorf("powder %v g: give 0 or more", grams)
	}
	d := Dose{Grams: grams, Litres: litres, PPM: PPM(grams/litres, p.N)}
	if p.TeaspoonG > 0 {
		d.Teaspoons = grams / p.TeaspoonG
	}
	return d, nil
}
