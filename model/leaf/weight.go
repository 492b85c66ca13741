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
	// misweighed is how likely a weight is that fits nothing, beside one that fits best: one weighing in 200 is of
	// another plant, of a plant with water in its heart, or mistyped, and may then say anything.
	misweighed = 1e-4
)

// LogWeight is the log likelihood, up to a constant, of a weight that is the given share of the last wet weight,
// taken days before, where the model has the plant at MassShare(rwc)/MassShare(wetRWC). The dry mass is a guess, so
// the share of water is no better known than DryMatter; but the same scale holds for the same plant from week to
// week. step is the smallest step that the scale shows, as a share of the wet weight: both weights are rounded to it.
func LogWeight(share, rwc, wetRWC, days, step float64) float64 {
	spread := math.Hypot(math.Hypot(weighing, step/math.Sqrt(6)), growing*max(days, 0))
	z := math.Log(share*MassShare(wetRWC)/MassShare(rwc)) / spread
	return math.Log(math.Exp(-z*z/2) + misweighed)
}
