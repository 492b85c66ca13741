package belief

import "math"

// octave is how many points of the grid double the multiplier: Points and the ends are chosen so that it comes out whole.
const octave = 10

// Decay fills into with exp(-x m) at each multiplier m of the grid: what is left after a dose x that acts at each pace. An octave
// up the grid the multiplier is twice as high and the answer the square, so that ten exponentials do for the whole grid.
func Decay(x float64, into *[Points]float64) {
	for i := range octave {
		into[i] = math.Exp(-x * multipliers[i])
	}
	for i := octave; i < Points; i++ {
		into[i] = into[i-octave] * into[i-octave]
	}
}
