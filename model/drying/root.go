package drying

import "math"

// How far from the air's temperature a wet leaf is looked for, K. The driest, hottest valid air cools one by some 40
// K; the strongest valid light heats one less than 200 K.
const (
	mostCooling = 60.0
	mostHeating = 200.0
)

// heatTolerance is how much heat may be left over at the temperature found, W/m2. A leaf gives off more than 5 W/m2
// for a kelvin, so the temperature is within 2e-4 K, which moves evaporation by about one part in 50,000.
const heatTolerance = 1e-3

// mostSteps ends the search in any case. About eight are needed.
const mostSteps = 60

// solve returns the leaf temperature at which no heat is left over, degC. A wet leaf in the shade stands between the
// dew point, where it would evaporate nothing, and the air; light may warm it past the air.
func (b *balance) solve() float64 {
	low := math.Max(b.air.DewPoint(), b.air.TempC-mostCooling)
	high := b.air.TempC
	if b.surplus(high) < 0 {
		low, high = high, high+mostHeating
	}
	return root(b.surplus, low, high)
}

// root returns where the rising function f crosses zero between low and high, by false position with the Illinois rule
// (M. Dowell and P. Jarratt, BIT 11:168-174, 1971): the root stays enclosed as in halving, in a third of the steps.
func root(f func(float64) float64, low, high float64) float64 {
	atLow, atHigh := f(low), f(high)
	x, side := high, 0
	for range mostSteps {
		if atHigh <= 0 || atLow >= 0 {
			break
		}
		x = high - atHigh*(high-low)/(atHigh-atLow)
		at := f(x)
		if math.Abs(at) < heatTolerance {
			break
		}
		if at < 0 {
			low, atLow = x, at
			atHigh = halvedIf(side < 0, atHigh)
			side = -1
		} else {
			high, atHigh = x, at
			atLow = halvedIf(side > 0, atLow)
			side = 1
		}
	}
	return x
}

// halvedIf is the Illinois rule: the end that stays twice running counts half, so the other end moves too.
func halvedIf(stays bool, at float64) float64 {
	if stays {
		return at / 2
	}
	return at
}
