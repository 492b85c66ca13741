package air

import "math"

// Saturation pressure over water, A. L. Buck 1996 (his revision of J. Appl. Meteorol. 20:1527-1532, 1981):
// e = 611.21 exp((18.678 - T/234.5) T/(257.14 + T)). Below 0 degC it is that of supercooled water, not of ice, because
// a soaked leaf does not freeze at the frost point.
const (
	buckPressure = 611.21 // Pa
	buckA        = 18.678
	buckB        = 234.5  // degC
	buckC        = 257.14 // degC
)

// Saturation returns the vapour pressure over water at tempC in degC, Pa: Buck 1996. From 0 to 40 degC it is within
// 0.03 % of the CRC Handbook's table.
func Saturation(tempC float64) float64 {
	return buckPressure * math.Exp((buckA-tempC/buckB)*tempC/(buckC+tempC))
}

// DewPoint returns the temperature at which the air's vapour begins to settle on a surface, degC: Saturation solved for
// temperature, which is a quadratic. Below 0 degC it is the dew point over supercooled water, a little under the frost
// point. It is minus infinity at RH 0, which Valid refuses.
func (a Air) DewPoint() float64 {
	if a.RH <= 0 {
		return math.Inf(-1)
	}
	y := math.Log(a.Vapour() / buckPressure)
	b := buckA - y
	return buckB / 2 * (b - math.Sqrt(b*b-4*buckC*y/buckB))
}
