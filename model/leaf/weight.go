package leaf

import "math"

// How closely a kitchen scale tells a plant's water, as standard deviations of the logarithm of the weight. Both are
// guesses: weighing one plant soaked and blotted five times over would replace the first, and again after a year
// without signs of thirst the second.
const (
	// weighing is one plant weighed twice in the same state: water left in the axils, the scale's last digit.
	weighing = 0.02
	// growing is what a plant gains or loses in a day, unknown in size and sign, since it was last weighed wet.
	growing = 0.0005
)

// LogWeight is the log likelihood, up to a constant, of a weight that is the given share of the last wet weight,
// taken days before, where the model has the plant at MassShare(rwc)/MassShare(wetRWC). The dry mass is a guess, so
// the share of water is no better known than DryMatter; but the same scale holds for the same plant from week to
// week.
func LogWeight(share, rwc, wetRWC, days float64) float64 {
	spread := math.Hypot(weighing, growing*max(days, 0))
	z := math.Log(share*MassShare(wetRWC)/MassShare(rwc)) / spread
	return -z * z / 2
}
