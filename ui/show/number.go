package show

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"tubside/model"
	"tubside/model/air"
	"tubside/model/estimate"
)

// Count says how many: "1 plant", "12 plants". Words that do not take an s
// give their plural as well: Count(2, "shelf", "shelves").
func Count(n int, one string, many ...string) string {
	word := one
	switch {
	case n == 1:
	case len(many) > 0:
		word = many[0]
	default:
		word += "s"
	}
	return strconv.Itoa(n) + " " + word
}

// Temp is a temperature given in °C, in the unit of the house rules:
// "21.0 °C", "69.8 °F".
func Temp(celsius float64, rules model.Rules) string {
	t, unit := air.Degrees(celsius, rules.Fahrenheit())
	return decimals(t, 1) + " " + unit
}

// Percent is a share of 0..1 in whole percent: "85 %".
func Percent(share float64) string { return decimals(100*share, 0) + " %" }

// Humidity is a relative humidity in percent: "35 %".
func Humidity(rh float64) string { return decimals(rh, 0) + " %" }

// Deficit is a vapour pressure deficit: "1.62 kPa".
func Deficit(kPa float64) string { return decimals(kPa, 2) + " kPa" }

// decimals rounds half away from zero and writes no minus before a zero.
func decimals(v float64, places int) string {
	scale := math.Pow10(places)
	v = math.Round(v*scale) / scale
	return strconv.FormatFloat(v+0, 'f', places, 64)
}

// ParseTemp reads a temperature and gives it in °C. "21", "21 C" and "21 °C"
// are Celsius; "70F" and "70 °F" Fahrenheit. A number alone is Fahrenheit only
// when alone says so: the board passes its house rule, the shell false, so that
// a script does not change its meaning with a rule.
func ParseTemp(text string, alone bool) (celsius float64, err error) {
	s := strings.ToLower(strings.ReplaceAll(strings.TrimSpace(text), "°", ""))
	number := strings.TrimSpace(strings.TrimRight(s, "cf"))
	v, err := strconv.ParseFloat(strings.Replace(number, ",", ".", 1), 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, &model.Problem{What: fmt.Sprintf("%q is not a temperature", text), Do: "write 21, 21C or 70F"}
	}
	if strings.HasSuffix(s, "f") || alone && !strings.HasSuffix(s, "c") {
		return air.Celsius(v), nil
	}
	return v, nil
}

// ParseQuantity reads a number with or without its unit: "1.0", "1.0 m/s". The
// first unit is the one the number is in; the others are other ways to write
// the same unit.
func ParseQuantity(text string, units ...string) (float64, error) {
	number := strings.TrimSpace(text)
	for _, unit := range units {
		if rest, ok := strings.CutSuffix(number, unit); ok && unit != "" {
			number = strings.TrimSpace(rest)
			break
		}
	}
	v, err := strconv.ParseFloat(strings.Replace(number, ",", ".", 1), 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, &model.Problem{
			What: fmt.Sprintf("%q is not a number in %s", text, units[0]),
			Do:   "write a number, with or without the unit",
		}
	}
	return v, nil
}

// wholeTemp is a temperature given in °C, in whole degrees of the house rules'
// unit.
func wholeTemp(celsius float64, rules model.Rules) string {
	t, unit := air.Degrees(celsius, rules.Fahrenheit())
	return fmt.Sprintf("%.0f %s", t, unit)
}

// whole is a number without decimals.
func whole(x float64) string { return strconv.Itoa(int(math.RoundToEven(x))) }

// tenths is a number with one decimal.
func tenths(x float64) string { return strconv.FormatFloat(x, 'f', 1, 64) }

// PercentRange is a share of 0..1 and its 80 % range, in percent: "24 % (18–31)", "0.9 % (0.5–1.4)".
func PercentRange(r estimate.Range) string {
	places := 0
	if r.Median < 0.095 {
		places = 1
	}
	in := func(share float64) string { return decimals(100*share, places) }
	return fmt.Sprintf("%s %% (%s–%s)", in(r.Median), in(r.Low), in(r.High))
}

// MinutesRange is some minutes and their 80 % range: "66 min (45–97)".
func MinutesRange(r estimate.Range) string {
	return fmt.Sprintf("%s min (%s–%s)", whole(r.Median), whole(r.Low), whole(r.High))
}
