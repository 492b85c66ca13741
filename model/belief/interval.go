package belief

import "math"

// LogInterval fills into with the log likelihood (up to a constant) of "it took between low and high times the predicted length",
// for something that takes multiplier x predicted, give or take a lognormal spread of the single event (sd of the log). It is how
// marks on a drying bench are read: still damp at one look, dry at the next. For use with Weigh.
//
// A low of 0 says "was dry when first looked at", a high of +Inf says "is still damp"; both together say nothing. Equal ends say
// "exactly then". A spread under half a step of the grid counts as half a step. Ends that make no sense (low above high, a
// negative end, not a number) come out as impossible everywhere, which Weigh refuses.
//
// The likelihood is the difference of two normal distributions in the logarithm. It is log-concave, so moving both ends up moves
// every mean and every quantile up or not at all (Prékopa 1973; from memory).
func LogInterval(low, high, spread float64, into *[Points]float64) {
	spread = carried(spread)
	from, to := math.Log(low), math.Log(high)
	between := logBetween
	if to-from < sameZ*spread {
		between = logAt
	}
	for i, u := range logs {
		into[i] = between((from-u)/spread, (to-u)/spread)
	}
}

// sameZ is the width, in standard deviations, under which an interval is read as a single point. Over so little the density is
// flat to 1e-6, and the difference of two distributions would be rounding.
const sameZ = 1e-6

// logBetween is the log of the probability that a standard normal variable falls between a and b.
func logBetween(a, b float64) float64 {
	if !(a <= b) || math.IsInf(a, 1) || math.IsInf(b, -1) {
		return math.Inf(-1)
	}
	if a > 0 { // by symmetry, to the side where small probabilities keep their digits
		a, b = -b, -a
	}
	big, small := logBelow(b), logBelow(a)
	return big + math.Log(-math.Expm1(small-big))
}

// logAt is the log of the standard normal density at a, without its constant: what logBetween comes to when b is a.
func logAt(a, b float64) float64 {
	if !(a <= b) {
		return math.Inf(-1)
	}
	return -a * a / 2
}

// farTail is where the asymptotic series takes over from erfc: its error there is under 1e-9 and erfc has not yet lost digits.
const farTail = -20

// logBelow is the log of the standard normal distribution at z. The far tail is the asymptotic series of Abramowitz & Stegun
// 1964, 26.2.12 (from memory).
func logBelow(z float64) float64 {
	if z > farTail {
		return math.Log(math.Erfc(-z/math.Sqrt2) / 2)
	}
	w := 1 / (z * z)
	series := 1 - w*(1-3*w*(1-5*w*(1-7*w)))
	return -z*z/2 - math.Log(-z*math.Sqrt(2*math.Pi)) + math.Log(series)
}
