package show

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"tubside/model"
)

// litresPerUSGallon is exact: 231 cubic inches of 25.4 mm (NIST Handbook 44,
// appendix C).
const litresPerUSGallon = 3.785411784

// ParseVolume reads an amount of water and gives it in litres: "20", "20 L",
// "500 mL", and US gallons, "5 gal". A number alone is gallons only when alone says
// so: the board passes its house rule, the shell false, so that a script does not
// change its meaning with a rule.
func ParseVolume(text string, alone bool) (litres float64, err error) {
	number, factor := strings.ToLower(strings.TrimSpace(text)), 1.0
	if alone {
		factor = litresPerUSGallon
	}
	for _, unit := range []struct {
		word   string
		litres float64
	}{{"gallons", litresPerUSGallon}, {"gallon", litresPerUSGallon}, {"gal", litresPerUSGallon}, {"ml", 0.001},
		{"litres", 1}, {"litre", 1}, {"l", 1}} {
		if rest, ok := strings.CutSuffix(number, unit.word); ok {
			number, factor = strings.TrimSpace(rest), unit.litres
			break
		}
	}
	v, err := strconv.ParseFloat(strings.Replace(number, ",", ".", 1), 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) || v <= 0 {
		return 0, &model.Problem{
			What: fmt.Sprintf("%q is not an amount of water", text),
			Do:   "write 20 L, 500 mL or 5 gal",
		}
	}
	return v * factor, nil
}

// Grams is a mass as a scale shows it: "5.0 g", "0.25 g".
func Grams(g float64) string {
	if g < 1 {
		return decimals(g, 2) + " g"
	}
	return decimals(g, 1) + " g"
}

// Litres is an amount of water: "20 L", "0.5 L".
func Litres(l float64) string { return strconv.FormatFloat(math.Round(l*100)/100, 'f', -1, 64) + " L" }

// Volume is an amount of water given in litres, in the unit of the house rules:
// "20 L", "5.3 gal".
func Volume(litres float64, rules model.Rules) string {
	if rules.Gallons() {
		return strconv.FormatFloat(math.Round(litres/litresPerUSGallon*10)/10, 'f', -1, 64) + " gal"
	}
	return Litres(litres)
}

// VolumeOf is how much of an amount of water is taken, both given in litres, in whole
// litres or gallons: " 12/100 L".
func VolumeOf(taken, all float64, rules model.Rules) string {
	if rules.Gallons() {
		return fmt.Sprintf("%3.0f/%.0f gal", taken/litresPerUSGallon, all/litresPerUSGallon)
	}
	return fmt.Sprintf("%3.0f/%.0f L", taken, all)
}

// Spoons is a number of level teaspoons: "1.5 level teaspoons".
func Spoons(n float64) string { return decimals(n, 1) + " level teaspoons" }

// PPM is a strength: "50 ppm".
func PPM(ppm float64) string { return decimals(ppm, 0) + " ppm" }
