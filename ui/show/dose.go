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
// "500 mL", and US gallons, "5 gal".
func ParseVolume(text string) (litres float64, err error) {
	number, factor := strings.ToLower(strings.TrimSpace(text)), 1.0
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

// Spoons is a number of level teaspoons: "1.5 level teaspoons".
func Spoons(n float64) string { return decimals(n, 1) + " level teaspoons" }

// PPM is a strength: "50 ppm".
func PPM(ppm float64) string { return decimals(ppm, 0) + " ppm" }
