package feed

// Volumes and masses in one another. They are exact: the inch is 25.4 mm, the US gallon 231 cubic inches and the
// avoirdupois pound 453.59237 g (NIST Handbook 44, appendix C, section 4). NIST's kitchen tables round a fluid ounce to
// 30 mL, and then print a gallon of 3.84 L: they are not for dosing.
const (
	LitresPerUSGallon        = 231 * 0.0254 * 0.0254 * 0.0254 * 1000 // 3.785411784
	MillilitresPerFluidOunce = 1000 * LitresPerUSGallon / 128        // US, 29.5735295625
	MillilitresPerTablespoon = MillilitresPerFluidOunce / 2          // US, 14.78676478125; an Australian one holds 20 mL (from memory)
	MillilitresPerTeaspoon   = MillilitresPerTablespoon / 3          // US, 4.92892159375
	LitresPerUKGallon        = 4.54609                               // UK Weights and Measures Act 1985, schedule 1 (from memory)
	GramsPerOunce            = 453.59237 / 16                        // avoirdupois, 28.349523125
)

// OuncesPer100Gallons turns g/L into the unit of US greenhouse tables, avoirdupois ounces in 100 US gallons. 1 g/L is
// 13.35 of them.
func OuncesPer100Gallons(gramsPerLitre float64) float64 {
	return gramsPerLitre * 100 * LitresPerUSGallon / GramsPerOunce
}

// FromOuncesPer100Gallons is the inverse of OuncesPer100Gallons.
func FromOuncesPer100Gallons(ounces float64) float64 {
	return ounces * GramsPerOunce / (100 * LitresPerUSGallon)
}

// OuncesPerGallon turns g/L into avoirdupois ounces in a US gallon, as stock solutions are given.
func OuncesPerGallon(gramsPerLitre float64) float64 { return OuncesPer100Gallons(gramsPerLitre) / 100 }

// GramsPerGallon turns g/L into grams in a US gallon.
func GramsPerGallon(gramsPerLitre float64) float64 { return gramsPerLitre * LitresPerUSGallon }
