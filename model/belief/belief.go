// Package belief holds what is known about one unknown multiplier, exactly, on a fixed grid: a prior, evidence, and then a mean
// and a range. There is no sampling and nothing to tune, so the same evidence gives the same answer on every machine, in any order.
package belief

import "math"

// Points is the number of grid points. They are equally spaced in the logarithm, 7.2 % apart: finer than anybody can judge a
// plant, and coarse enough to sum for thousands of plants between two frames.
const Points = 61

// Lowest and Highest are the ends of the grid, as multipliers. Our own choice: a rate of water loss is known to about a factor
// of two, and a factor of eight is three of those.
const (
	Lowest  = 1.0 / 8
	Highest = 8.0
)

var logs, multipliers = grid()

// logStep is the distance of two neighbours of the grid, in the logarithm.
var logStep = (math.Log(Highest) - math.Log(Lowest)) / (Points - 1)

// leastSpread is the smallest spread (sd of the log) that the grid can carry: half a step. Anything narrower would fall between
// two points and look impossible.
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

// Multipliers returns the grid, rising from Lowest to Highest; the one in the middle is exactly 1. It is a copy: keep one for a
// whole walk over the plants.
func Multipliers() [Points]float64 { return multipliers }

// Belief is what is known about one multiplier. It is a small value: copy it freely. The zero value knows nothing: every point
// of the grid is equally likely.
type Belief struct {
	log [Points]float64 // log weights; the largest is always 0, so that exp never overflows
}

// Prior is the belief before any evidence: lognormal around 1. The spread is the standard deviation of the logarithm (0.69 is a
// factor of two). A spread under half a step of the grid counts as half a step; an infinite one is the zero Belief.
func Prior(spread float64) Belief { return PriorAround(1, spread) }

// PriorAround is Prior with its median at centre instead of 1. A centre outside the grid counts as the nearest end.
func PriorAround(centre, spread float64) Belief {
	middle := math.Log(min(max(centre, Lowest), Highest))
	spread = carried(spread)
	var b Belief
	for i, u := range logs {
		z := (u - middle) / spread
		b.log[i] = -z * z / 2
	}
	b.lift(highest(&b.log))
	return b
}

// Weigh takes in one piece of evidence: the log likelihood of what was seen, at each point of the grid, up to a constant. -Inf
// says "impossible here". Evidence that leaves no point possible, or that is not a number anywhere, is refused: the belief stays
// as it was and Weigh returns false.
func (b *Belief) Weigh(logLikelihood *[Points]float64) bool {
	next := Belief{log: b.log}
	for i, l := range logLikelihood {
		next.log[i] += l
		if math.IsNaN(next.log[i]) {
			return false
		}
	}
	top := highest(&next.log)
	if math.IsInf(top, 0) {
		return false
	}
	next.lift(top)
	*b = next
	return true
}

// Shares turns the belief into probabilities. Everything that can be asked of a Belief can be asked of its Shares; ask there when
// there is more than one question, because the exponentials are then taken once.
func (b Belief) Shares() Shares {
	var s Shares
	var sum float64
	for i, l := range b.log {
		s[i] = math.Exp(l)
		sum += s[i]
	}
	whole := 1 / sum
	for i := range s {
		s[i] *= whole
	}
	return s
}

// Mean is the expected multiplier.
func (b Belief) Mean() float64 {
	s := b.Shares()
	return s.Mean()
}

// Range is the central range of the multiplier that holds the given share of the probability (0.8: from the 10 % to the 90 % point).
func (b Belief) Range(share float64) (low, high float64) {
	s := b.Shares()
	return s.Range(share)
}

// MeanOf is the expected value of a quantity that is known at each point of the grid.
func (b Belief) MeanOf(values *[Points]float64) float64 {
	s := b.Shares()
	return s.MeanOf(values)
}

// QuantileOf is the q quantile of a quantity that is known at each point of the grid. See Shares.QuantileOf.
func (b Belief) QuantileOf(values *[Points]float64, q float64) float64 {
	s := b.Shares()
	return s.QuantileOf(values, q)
}

func (b *Belief) lift(top float64) {
	for i := range b.log {
		b.log[i] -= top
	}
}

func highest(values *[Points]float64) float64 {
	top := values[0]
	for _, v := range values[1:] {
		top = max(top, v)
	}
	return top
}

// carried is the spread that the grid can carry; it also turns a spread that is not a number into the least one.
func carried(spread float64) float64 {
	if spread > leastSpread {
		return spread
	}
	return leastSpread
}
