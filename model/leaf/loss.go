package leaf

import "math"

// How fast water goes: dR/dt = -k VPD R [1 + (m-1) exp(-t/tau)], R the RWC, t days since the plant was dry, VPD the vapour pressure
// deficit in kPa (daily mean). The equation is our own; its parts have the sources given below. Integrated,
// R = R0 exp(-k dose), dose = integral of VPD [1 + (m-1) exp(-t/tau)] dt in kPa day.

// Rates k of water loss by growers' leaf type, per day and kPa. Known to about a factor of two: what is learned plant by plant is
// a multiplier of these.
//
// Behind all three stands one conductance, 0.6 mmol m-2 s-1 (fitted), and water per leaf area of 1.3, 0.75 and 0.45 kg/m2
// (guesses): k = 86400 M g/(P W). Zotz & Andrade 1998 (J. Plant Physiol. 152:545) found loss by area alike between species, and
// relative loss set by leaf area to water; Benz & Martin 2006 (J. Plant Physiol. 163:648) found that trichomes do not slow it.
// So a xeric leaf is thicker, not tighter. Ten plants of each leaf weighed daily through two dry weeks in known air would replace all
// three.
const (
	// KXeric follows from Nowak & Martin 1997 (Int. J. Plant Sci. 158): T. ionantha lost 17 % in 20 days. The air of their chamber
	// could not be read; 1.2 kPa is a guess (0.8 to 1.5 kPa gives 0.0106 to 0.0056).
	KXeric = 0.007
	// KIntermediate is a guess, between the other two.
	KIntermediate = 0.012
	// KMesic follows from T. dasyliriifolia (2016, abstract): half the leaves dead after 40 days at 9 cm and 60 days at 35 cm.
	// That this means RWC 0.25, in air of 1.5 kPa, is a guess.
	KMesic = 0.020
)

// WispyFactor multiplies k of a thin-leaved (wispy) plant. A guess. Wispy plants weighed beside rosettes
// would replace it.
const WispyFactor = 1.15

// A plant just dried loses water faster: whole-plant loss fell to a minimum after 4-5 days without water (Zotz & Andrade 1998).
// Plants weighed twice a day for a week after a soak would replace both numbers.
const (
	// freshLoss is how many times faster it goes at the very start. A guess; the source has the shape, not the size.
	freshLoss = 2.0
	// settleDays is the time constant of settling down, in days. A guess that leaves a tenth of the extra loss at day 4.5.
	settleDays = 2.0
)

// Dose is the drying power of one span of constant air, in kPa day, for a plant that has been dry for fromDays when the span begins
// and toDays when it ends; deficitKPa is the vapour pressure deficit. Doses of spans that follow one another add up. A span that
// does not run forward, or air that takes nothing, is 0; a beginning before the plant was dry counts from when it was.
func Dose(fromDays, toDays, deficitKPa float64) float64 {
	fromDays = max(fromDays, 0)
	span := toDays - fromDays
	if !(span > 0) || !(deficitKPa > 0) {
		return 0
	}
	extra := (freshLoss - 1) * settleDays * math.Exp(-fromDays/settleDays) * -math.Expm1(-span/settleDays)
	return deficitKPa * (span + extra)
}

// Remaining is the RWC left of rwc (0 to 1) after a dose in kPa day, at rate k per day and kPa.
func Remaining(rwc, k, dose float64) float64 { return held(rwc) * math.Exp(-k*max(dose, 0)) }

// ReferenceSize is the plant size in cm to which the rates belong. A guess: a middling plant. Loss weighed
// over a range of sizes would replace it.
const ReferenceSize = 15.0

const (
	// sizePower is how k falls with size, from the 9 cm and 35 cm plants at KMesic; they give 0.28.
	sizePower = -0.3
	// smallest and largest, in cm, are as far as we trust a power drawn through two sizes. Guesses. Smaller and
	// larger plants weighed would replace them.
	smallest = 3.0
	largest  = 60.0
)

// SizeFactor multiplies k for a plant of the given size in cm: small plants have more leaf for their water. 1 at ReferenceSize and
// for an unknown size (0 or less); sizes under 3 cm and over 60 cm count as those.
func SizeFactor(cm float64) float64 {
	if !(cm > 0) {
		return 1
	}
	return math.Pow(min(max(cm, smallest), largest)/ReferenceSize, sizePower)
}
