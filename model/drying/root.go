package drying

import (
	"math"

	"tubside/model/air"
)

// How far from the air's temperature a wet leaf is looked for, K. The driest, hottest valid air cools one by some 40 K; the
// strongest valid light heats a sheltered one less than 200 K.
const (
	mostCooling = 60.0
	mostHeating = 200.0
)

// leafTolerance is how closely the leaf's temperature is found, K. 1e-5 K moves evaporation by about one part in a million.
const leafTolerance = 1e-5

// solve returns the leaf temperature at which nothing is left over, degC. A wet leaf in the shade stands between the dew
// point, where it would evaporate nothing, and the air; light may warm it past the air.
func (b *balance) solve() float64 {
	low := b.airC - mostCooling
	if b.vapour > 0 {
		low = math.Max(low, air.Air{TempC: b.airC, RH: b.vapour / air.Saturation(b.airC)}.DewPoint())
	}
	high := b.airC
	if b.surplus(high) < 0 {
		low, high = high, high+mostHeating
	}
	return b.between(low, high)
}

// between finds the root by false position with the Illinois rule (M. Dowell and P. Jarratt, BIT 11:168-174, 1971): as
// safe as halving, since the root stays enclosed, in a quarter of the steps.
func (b *balance) between(low, high float64) float64 {
	atLow, atHigh := b.surplus(low), b.surplus(high)
	for range 60 {
		if high-low < leafTolerance || atHigh == atLow {
			break
		}
		x := high - atHigh*(high-low)/(atHigh-atLow)
		at := b.surplus(x)
		if math.Abs(at) < 1e-6*math.Abs(atHigh-atLow) && at == 0 {
			return x
		}
		_ = at
	}
	return (low + high) / 2
}
