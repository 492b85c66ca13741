package leaf

import "math"

// How closely a kitchen scale tells a plant's water, as standard deviations of the logarithm of the weight. All are
// guesses: weighing one plant soaked and blotted five times over would replace the first, and again after a year
// without signs of thirst the second; a few hundred weights, each taken twice, the third.
const (
	// weighing is one plant weighed twice in the same state: water left in the axils, the scale's last digit.
	weighing = 0.02
	// growing is what a plant gains or loses in a day, unknown in size and sign, since it was last weighed wet.
	growing = 0.0005
	// Misweighed is how likely a weight is that fits nothing, beside one that fits best: one weighing in 200 is of
	// another plant, of a plant with water in its heart, or mistyped, and may then say anything.
	Misweighed = 1e-4
)

// LogWeight is the log likelihood, up to a constant, of a weight that is the given share of the last wet weight,
// taken days before, where the model has the plant at MassShare(rwc)/MassShare(wetRWC). The dry mass is a guess, so
// the share of water is no better known than DryMatter; but the same scale holds for the same plant from week to
// week. step is the smallest step that the scale shows, as a share of the wet weight: both weights are rounded to it.
func LogWeight(share, rwc, wetRWC, days, step float64) float64 {
	return math.Log(NewScale(days, step).Fits(share, rwc, wetRWC) + Misweighed)
}

// Scale is how closely a weight is known beside another of the same plant: the standard deviation of the logarithm.
type Scale struct{ spread float64 }

// NewScale is for a weight taken days after the one that it is held against, on a scale of some step: see LogWeight.
func NewScale(days, step float64) Scale {
	return Scale{math.Hypot(math.Hypot(weighing, step/math.Sqrt(6)), growing*max(days, 0))}
}

// Fits is how likely a weight is, beside the likeliest, where the plant has the water it should: 0 to 1.
func (s Scale) Fits(share, rwc, wetRWC float64) float64 {
	z := math.Log(share*MassShare(wetRWC)/MassShare(rwc)) / s.spread
	return math.Exp(-z * z / 2)
}

// unforeseen is how many plants on a scale have lost or gained water in a way that no rate of loss tells of: a soak
// that missed them, or that nobody wrote down, a lamp, another plant in their place. A guess; the weights of a year
// would replace it.
const unforeseen = 0.05

// Unforeseen is how likely any weight is, beside the likeliest of Fits, of a plant that may have any water: every
// weight between a dry plant's and a full one's counts as likely, in the logarithm. So a weight far from all that the
// rates make possible tells of the water, and nothing of the rate.
func (s Scale) Unforeseen() float64 {
	return unforeseen * s.spread * math.Sqrt(2*math.Pi) / math.Log(1/DryMatter)
}

// dryMatterKnown is how well DryMatter is known of one plant: a standard deviation. A guess.
const dryMatterKnown = 0.05

// Says is the RWC (0 to 1) that a weight alone speaks for, and its standard deviation.
func (s Scale) Says(share, wetRWC float64) (rwc, spread float64) {
	mass := share * MassShare(wetRWC)
	dry := dryMatterKnown * (1 - min(mass, 1)) / (1 - DryMatter)
	return RWCFromMassShare(mass), math.Hypot(s.spread*mass, dry) / (1 - DryMatter)
}
