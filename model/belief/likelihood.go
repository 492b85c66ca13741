package belief

import (
	"math"
	"slices"
)

// Likelihood is how likely something seen is at each point of the grid, up to a
// constant.
type Likelihood [Points]float64

// LikelihoodOf turns log likelihoods into likelihoods, of which the highest is 1.
func LikelihoodOf(log *[Points]float64) (l Likelihood) {
	top := highest(log)
	for i, v := range log {
		l[i] = falling(top - v)
	}
	return l
}

// Level is the likelihood of evidence that says nothing: 1 everywhere.
func Level() Likelihood { return level }

var level = Likelihood(slices.Repeat([]float64{1}, Points))

// Shifted is the likelihood for a multiplier that is some steps of the grid
// higher. What comes in from outside the grid is as likely as its end.
func (l *Likelihood) Shifted(steps int) (moved Likelihood) {
	for i := range moved {
		moved[i] = l[min(max(i-steps, 0), Points-1)]
	}
	return moved
}

// LogLonger fills into with the log likelihood of "it took longer than this
// multiple of the predicted length", for something that takes multiplier x
// predicted: the upper tail of a normal distribution in the logarithm, as narrow
// as the grid can carry.
func LogLonger(multiple float64, into *[Points]float64) {
	from := math.Log(multiple)
	for i, u := range logs {
		into[i] = logBelow((u - from) / leastSpread)
	}
}

// farTail is where the asymptotic series takes over from erfc: its error there
// is under 1e-9 and erfc has not yet lost digits.
const farTail = -20

// logBelow is the log of the standard normal distribution at z. The far tail is
// the asymptotic series of Abramowitz & Stegun 1964, 26.2.12 (from memory).
func logBelow(z float64) float64 {
	if z > farTail {
		return math.Log(math.Erfc(-z/math.Sqrt2) / 2)
	}
	w := 1 / (z * z)
	series := 1 - w*(1-3*w*(1-5*w*(1-7*w)))
	return -z*z/2 - math.Log(-z*math.Sqrt(2*math.Pi)) + math.Log(series)
}
