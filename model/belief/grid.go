// Package belief holds what is known about one unknown multiplier, exactly, on
// a fixed grid: a prior, likelihoods, and then a mean and a range. There is no
// sampling and nothing to tune, so the same evidence gives the same answer on
// every machine, in any order.
package belief

import "math"

// Points is the number of grid points. They are equally spaced in the
// logarithm, 7.2 % apart: finer than anybody can judge a plant, and coarse
// enough to sum for thousands of plants between two frames.
const Points = 61

// Lowest and Highest are the ends of the grid, as multipliers. A rate of water
// loss is known to about a factor of two; a factor of eight is three of those.
const (
	Lowest  = 1.0 / 8
	Highest = 8.0
)

var logs, multipliers = grid()

// logStep is the distance of two neighbours of the grid, in the logarithm.
var logStep = (math.Log(Highest) - math.Log(Lowest)) / (Points - 1)

// leastSpread is the smallest spread (sd of the log) that the grid can carry:
// half a step. Anything narrower would fall between two points and look
// impossible.
var leastSpread = logStep / 2

func grid() (logs, multipliers [Points]float64) {
	low, high := math.Log(Lowest), math.Log(Highest)
	for i := range logs {
		logs[i] = low + (high-low)*float64(i)/(Points-1)
		multipliers[i] = math.Exp(logs[i])
	}
	multipliers[Points/2] = 1 // exp(0), without the rounding of the sum above
	return logs, multipliers
}

// Multipliers returns the grid, rising from Lowest to Highest; the one in the
// middle is exactly 1. It is a copy: keep one for a whole walk over the plants.
func Multipliers() [Points]float64 { return multipliers }

// LogStep is the distance of two neighbours of the grid, in the logarithm of
// the multiplier.
func LogStep() float64 { return logStep }

func highest(values *[Points]float64) float64 {
	top := values[0]
	for _, v := range values[1:] {
		top = max(top, v)
	}
	return top
}

func scale(values *[Points]float64, by float64) {
	for i := range values {
		values[i] *= by
	}
}

// carried is the spread that the grid can carry; it also turns a spread that is
// not a number into the least one.
func carried(spread float64) float64 {
	if spread > leastSpread {
		return spread
	}
	return leastSpread
}
