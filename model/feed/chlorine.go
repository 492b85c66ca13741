package feed

import "math"

// Disinfectant is what a waterworks keeps in its water.
type Disinfectant int

// The disinfectants. Waterworks say which they use.
const (
	FreeChlorine Disinfectant = iota
	Chloramine
)

// Free chlorine leaves standing water at a rate of its own amount, 1/h: tap water that stood for 24 h lost 51 % in one
// treatment and 62 % in another (Toxin Reviews 2021, 40:1407-1420), which is 0.0297 and 0.0403. No evidence was found
// that tap chlorine harms a Tillandsia: standing is the grower's choice.
const (
	SlowDecay = 0.030
	FastDecay = 0.040
)

// DecayDepth is the depth of water, cm, up to which those rates hold; deeper, they fall as depth rises, as for anything
// that leaves through the surface. That depth is a guess: the study's vessels are not known to us.
const DecayDepth = 20.0

// decay is the slowest and fastest rate, 1/h. Chloramine counts as staying: its half-life is 75 h at pH 7.5 and
// 35 °C and over 300 h at 4 °C (Vikesland et al. 2001, Water Res., from memory).
func (d Disinfectant) decay(depthCM float64) (slow, fast float64) {
	if d == Chloramine {
		return 0, 0
	}
	shallow := DecayDepth / math.Max(depthCM, DecayDepth)
	return SlowDecay * shallow, FastDecay * shallow
}

// Left is the share still in the water after standing, between low and high, 0 to 1. Hours are 0 or more; depth is that
// of the water, cm.
func (d Disinfectant) Left(hours, depthCM float64) (low, high float64) {
	slow, fast := d.decay(depthCM)
	return math.Exp(-fast * hours), math.Exp(-slow * hours)
}

// Hours is how long water must stand to come from one concentration down to another, between soonest and latest; both
// in one unit, above 0. It is 0 where the water is there already, and +Inf for chloramine.
func (d Disinfectant) Hours(from, to, depthCM float64) (soonest, latest float64) {
	if from <= to {
		return 0, 0
	}
	slow, fast := d.decay(depthCM)
	return math.Log(from/to) / fast, math.Log(from/to) / slow
}
