package belief

import "math"

// LogMark fills into with the log likelihood of a mark on a drying bench: "it took between low and high times the predicted
// length", for something that takes multiplier x predicted, give or take a lognormal spread of the single event (sd of the log),
// where a share slip (0 to 1) of all marks says nothing at all: made without looking, or on the wrong plant. LogInterval is the
// same without slips. The slips are a floor under the likelihood: one wrong mark cannot outweigh a month of right ones.
//
// A low of 0 says "was dry when first looked at", a high of +Inf "is still damp". Ends that make no sense come out as a slip: they
// say nothing.
func LogMark(low, high, spread, slip float64, into *[Points]float64) {
	spread = carried(spread)
	from, to := math.Log(low), math.Log(high)
	if !(from <= to) {
		from, to = math.Inf(-1), math.Inf(1)
	}
	for i, u := range logs {
		into[i] = math.Log(slip + (1-slip)*(normalBelow((to-u)/spread)-normalBelow((from-u)/spread)))
	}
}

// The standard normal distribution, tabled; straight lines between the points are off by less than 1e-5, far less than any slip.
const (
	normalReach   = 8.0
	normalPerUnit = 128
)

var normalTable = func() (t [2*normalReach*normalPerUnit + 1]float64) {
	for i := range t {
		z := float64(i)/normalPerUnit - normalReach
		t[i] = math.Erfc(-z/math.Sqrt2) / 2
	}
	return t
}()

func normalBelow(z float64) float64 {
	switch {
	case z <= -normalReach:
		return 0
	case z >= normalReach:
		return 1
	}
	x := (z + normalReach) * normalPerUnit
	i := int(x)
	return normalTable[i] + (normalTable[i+1]-normalTable[i])*(x-float64(i))
}
