package feed

import (
	"fmt"
	"math"
)

// FAO29 is where the limits of water come from. They are for crops; an air plant, which keeps what dries on its leaves,
// will hardly stand more. No limit of its own was found published.
const FAO29 = "FAO Irrigation and Drainage Paper 29, Ayers & Westcot 1985, table 1"

// Masses of one milliequivalent, mg: the relative atomic masses of ions with one charge (IUPAC, from memory).
const (
	SodiumMg   = 22.98977
	ChlorideMg = 35.45
)

// Water is what a report or a meter says of the water before anything is added. A number of 0 was not measured: were it
// measured as 0, it would be under every limit anyway.
type Water struct {
	EC       float64 // electrical conductivity at 25 °C, dS/m, the same as mS/cm
	TDS      float64 // dissolved solids, mg/L
	Sodium   float64 // mg/L, as reports print it
	Chloride float64 // mg/L
	Boron    float64 // mg/L
}

// Restriction is how far water is unfit, in FAO 29's words.
type Restriction int

// The restrictions, mildest first.
const (
	None Restriction = iota
	SlightToModerate
	Severe
)

var restrictionWords = [...]string{"none", "slight to moderate", "severe"}

// String is the restriction's word.
func (r Restriction) String() string { return restrictionWords[r] }

// Finding is the verdict on one number of the water.
type Finding struct {
	What        string  // "sodium"
	Value       float64 // in Unit
	Unit        string  // the unit of the limit
	Limit       float64 // below it there is no restriction, in Unit
	Restriction Restriction
	Source      string
}

// limit is one row of FAO 29's table 1. Sodium and chloride are those for water that wets leaves (sprinklers), which
// have no severe level. Their unit is me/L: open copies of the table print "mg/L" beside the same 3, which would
// condemn nearly every tap.
type limit struct {
	what, unit   string
	below, above float64 // none below the first, severe above the second; 0 where the table has no severe
	of           func(Water) float64
}

var limits = []limit{
	{"conductivity", "dS/m", 0.7, 3.0, func(w Water) float64 { return w.EC }},
	{"dissolved solids", "mg/L", 450, 2000, func(w Water) float64 { return w.TDS }},
	{"sodium", "me/L", 3, 0, func(w Water) float64 { return w.Sodium / SodiumMg }},
	{"chloride", "me/L", 3, 0, func(w Water) float64 { return w.Chloride / ChlorideMg }},
	{"boron", "mg/L", 0.7, 3.0, func(w Water) float64 { return w.Boron }},
}

// Findings judges every number that was measured, in the order of the fields. It fails for a number that cannot be.
func (w Water) Findings() ([]Finding, error) {
	var found []Finding
	for _, l := range limits {
		value := l.of(w)
		if !(value >= 0) || math.IsInf(value, 1) {
			return nil, fmt.Errorf("water, %s: %v: give 0 or more", l.what, value)
		}
		if value > 0 {
			found = append(found, Finding{l.what, value, l.unit, l.below, l.judge(value), FAO29})
		}
	}
	return found, nil
}

// UnitOf is the unit of a number of the water, by what [Finding] calls it.
func UnitOf(what string) string {
	for _, l := range limits {
		if l.what == what {
			return l.unit
		}
	}
	return ""
}

func (l limit) judge(value float64) Restriction {
	switch {
	case value < l.below:
		return None
	case l.above > 0 && value > l.above:
		return Severe
	}
	return SlightToModerate
}

// Worst is the gravest restriction of the findings, None without any.
func Worst(findings []Finding) Restriction {
	worst := None
	for _, f := range findings {
		worst = max(worst, f.Restriction)
	}
	return worst
}
