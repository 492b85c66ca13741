package belief

import "math"

// octave is how many points of the grid double the multiplier: Points and the
// ends are chosen so that it comes out whole.
const octave = 10

// Decay fills into with exp(-x m) at each multiplier m of the grid: what is
// left after a cumulative deficit x (0 or more) that acts at each multiplier,
// to within 1e-8. An octave up the grid the multiplier is twice as high and the
// answer the square, so that ten exponentials do for the whole grid.
func Decay(x float64, into *[Points]float64) {
	for i := range octave {
		into[i] = falling(x * multipliers[i])
	}
	for i := octave; i < Points; i++ {
		into[i] = into[i-octave] * into[i-octave]
	}
}

// A table of exp(-x), for those who ask by the hundred thousand.
const (
	fallingTo      = 40
	fallingPerUnit = 16
)

var fallingTable = func() (t [fallingTo * fallingPerUnit]float64) {
	for i := range t {
		t[i] = math.Exp(-float64(i) / fallingPerUnit)
	}
	return t
}()

// falling is exp(-x) by the table and the first terms of the series for what is
// left over, of which the next is under 1e-10.
func falling(x float64) float64 {
	if !(x >= 0 && x < fallingTo) {
		return math.Exp(-x)
	}
	i := int(x * fallingPerUnit)
	r := x - float64(i)/fallingPerUnit
	return fallingTable[i] * (1 - r*(1-r*(1.0/2-r*(1.0/6-r*(1.0/24-r*(1.0/120))))))
}
