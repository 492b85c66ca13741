package belief

import (
	"math"
	"slices"
)

// Marks is how marks on a drying bench are read, for something that takes
// multiplier x a predicted length.
type Marks struct {
	Spread        float64 // of one event around its multiplier, lognormal (sd of the log)
	Misclassified float64 // share of marks that say nothing: made without looking, or on the wrong plant; 0 to 1
	Noticed       float64 // chance that a walk along the bench would have noticed this one, had it been done; 0 to 1
}

// Log fills into with the log likelihood of "it was found done at the last of
// the looks". Looks are lengths since the start, as multiples of the predicted
// length, in rising order: the first is when it was surely not done (0 if
// nobody knows), those between are walks that passed it without a word, the
// last is when it was found done (+Inf if it never was). What was done before a
// walk that passed it was overlooked then, which happens to 1 - Noticed.
//
// Misclassification is a floor under the likelihood: one wrong mark cannot
// outweigh a month of right ones. Fewer than two looks, or looks that do not
// rise, say nothing.
func (m Marks) Log(looks []float64, into *[Points]float64) {
	*into = [Points]float64{}
	if !rising(looks) {
		return
	}
	spread, overlooked := carried(m.Spread), 1.0
	last := len(looks) - 1
	var by [Points]float64 // how likely it was done by the later look of two
	tail(looks[last], spread, &by)
	for _, look := range slices.Backward(looks[:last]) {
		var before [Points]float64
		tail(look, spread, &before)
		for j := range into {
			into[j] += overlooked * (by[j] - before[j])
		}
		by = before
		overlooked *= 1 - m.Noticed
	}
	for j, likelihood := range into {
		into[j] = math.Log(m.Misclassified + (1-m.Misclassified)*likelihood)
	}
}

// rising reports whether looks make sense.
func rising(looks []float64) bool {
	if len(looks) < 2 || !(looks[0] >= 0) {
		return false
	}
	for i, look := range looks[1:] {
		if !(looks[i] <= look) {
			return false
		}
	}
	return true
}

// tail fills by with the chance that a lognormal event is over by a multiple of the
// predicted length, for each multiplier.
func tail(multiple, spread float64, by *[Points]float64) {
	at := math.Log(multiple)
	for j, u := range logs {
		by[j] = normalBelow((at - u) / spread)
	}
}

// The standard normal distribution, tabled; straight lines between the points
// are off by less than 1e-5, far less than any misclassification.
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
