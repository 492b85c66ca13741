package leaf

import "math"

// How fast water goes: dR/dt = -k A R, R the RWC, k the share lost in a day of the reference air (ReferenceKPa), A
// what a day of other air takes beside that (Draw). Below SlowBelow it goes more slowly, as R/SlowBelow of that.
//
// A day has two parts. By day stomata are shut and what leaks out follows the deficit. By night they open, but T.
// recurvata shut them in dry air and lost less in such a night than in a damp one (Lange & Medina 1979, Oecologia
// 40:357): the night part does not rise with the deficit. Loss by area is alike between species (Zotz & Andrade 1998,
// J. Plant Physiol. 152:545), scales do not slow it (Benz & Martin 2006, J. Plant Physiol. 163:648), and minimum
// conductances of green and silver species overlap (Kerstiens 1996, J. Exp. Bot. 47:1813): so what sets a kind of
// plant apart is the water under each area of leaf, WaterMM.

// ReferenceKPa is the vapour pressure deficit of the air to which rates belong: 21 degC and 40 %.
const ReferenceKPa = 1.49

const (
	// DayConductance is that of a leaf with shut stomata, mol/(m2 s) of leaf with one side counted. Kerstiens 1996,
	// table 1: 0.66, 0.98 and 1.31 mmol for three species of Tillandsia. Where between them is a guess.
	DayConductance = 0.8e-3
	// NightLoss is the water lost in a night, kg/m2 of leaf (one side counted): a third of a day's loss in the
	// reference air. A guess; leaves weighed evening and morning would replace it.
	NightLoss = 0.0046
	// nightFull is the deficit, kPa, from which a night takes all of that; damper air takes as much less. A guess.
	nightFull = 0.5

	dayHours   = 12.0
	molarMass  = 0.018015 // kg/mol, water
	pressure   = 101.325  // kPa
	hourLength = 3600.0   // s
)

// LostMM is the water that a day of some air takes from a leaf, kg/m2 of leaf (one side counted), which is mm. Air
// that takes nothing is 0.
func LostMM(deficitKPa float64) float64 {
	if !(deficitKPa > 0) {
		return 0
	}
	day := dayHours * hourLength * molarMass * DayConductance * deficitKPa / pressure
	return day + NightLoss*min(deficitKPa/nightFull, 1)
}

// Draw is what a day of some air takes, beside a day of the reference air.
func Draw(deficitKPa float64) float64 { return LostMM(deficitKPa) / LostMM(ReferenceKPa) }

// WaterMM is the water in a full leaf, kg/m2 of leaf (one side counted), which is mm: of a leaf that loses the share
// k of it in a day of the reference air, k above 0. What loses faster has less of it.
func WaterMM(k float64) float64 { return LostMM(ReferenceKPa) / k }

// Rates k by growers' leaf type, the share of its water that a plant of ReferenceSize loses in a day of the reference
// air. They are in the middle of what growers' soaks after a week and after two ask for, given an uptake of
// TauDefault and paces that differ from plant to plant: common practice, no source. That leaves 0.0082 to 0.0164 for
// mesic leaves, 0.0075 to 0.0126 for intermediate and 0.0037 to 0.0052 for xeric ones. The one plant measured, T.
// ionantha at 7 cm (see the species list), comes to KIntermediate at the reference size. What is learned plant by
// plant is a multiplier of these. Ten plants of each leaf weighed daily through two dry weeks in known air would
// replace them.
const (
	KMesic        = 0.0110
	KIntermediate = 0.0083
	KXeric        = 0.0039
	// KThin is for silver leaves without water-storing tissue: it takes up none of the leaf of T. usneoides and T.
	// bergeri, and 3 to 53 % of those of ten others (Loeschen et al. 1993, Int. J. Plant Sci. 154:100). Taken as thin
	// as a green leaf.
	KThin = KMesic
)

// WispyFactor multiplies k of a thin-leaved (wispy) plant that is not xeric. From how long growers soak such plants,
// as the rates. Wispy plants weighed beside rosettes would replace it.
const WispyFactor = 1.2

// SlowBelow is the RWC under which loss slows. T. ionantha lives through six months (Ohrui et al. 2007, Planta
// 227:47), which at a steady rate of 0.0093 would leave it 0.18, under what it survives (Benzing & Dahle 1971). That
// loss slows, and about where, follows from the three papers; the form of it is a guess. A plant weighed through a
// dry season would replace it.
const SlowBelow = 0.35

// Dose is the drying power of one span of constant air, in days of the reference air, from fromDays to toDays after a
// plant was dry; deficitKPa is the vapour pressure deficit. Doses of spans that follow one another add up. A span
// that does not run forward, or air that takes nothing, is 0; a beginning before the plant was dry counts from when
// it was.
func Dose(fromDays, toDays, deficitKPa float64) float64 {
	span := toDays - max(fromDays, 0)
	if !(span > 0) {
		return 0
	}
	return span * Draw(deficitKPa)
}

// LeftOfEach replaces each share that a steady rate would leave by what is left of the RWC at its place: Left for
// many paces.
func LeftOfEach(rwc, share []float64) {
	for i, r := range rwc[:len(share)] {
		if steady := r * share[i]; steady >= SlowBelow {
			share[i] = steady
		} else {
			share[i] = Left(r, share[i])
		}
	}
}

// Remaining is the RWC left of rwc (0 to 1) after a dose in days of the reference air, at rate k a day.
func Remaining(rwc, k, dose float64) float64 { return Left(held(rwc), math.Exp(-k*max(dose, 0))) }

// Left is the RWC left of rwc (0 to 1) where a steady rate would leave the share of it (0 to 1): the same down to
// SlowBelow, and more from there.
func Left(rwc, share float64) float64 {
	steady := rwc * share
	switch {
	case steady >= SlowBelow || steady == rwc:
		return steady
	case rwc >= SlowBelow:
		return SlowBelow / (1 + math.Log(SlowBelow/steady))
	}
	return rwc / (1 - math.Log(share)*rwc/SlowBelow)
}

// ReferenceSize is the plant size in cm to which the rates belong. A guess: a middling plant. Loss weighed
// over a range of sizes would replace it.
const ReferenceSize = 15.0

const (
	// sizePower is how k falls with size. Half the leaves of T. dasyliriifolia (2016, abstract) were dead after 40
	// days at 9 cm and after 60 at 35 cm, which gives 0.30.
	sizePower = -0.3
	// smallest and largest, in cm, are as far as we trust a power drawn through two sizes. Guesses. Smaller and
	// larger plants weighed would replace them.
	smallest = 3.0
	largest  = 60.0
)

// SizeFactor multiplies k for a plant of the given size in cm: small plants have more leaf for their water. 1 at
// ReferenceSize and for an unknown size (0 or less); sizes under 3 cm and over 60 cm count as those.
func SizeFactor(cm float64) float64 {
	if !(cm > 0) {
		return 1
	}
	return math.Pow(min(max(cm, smallest), largest)/ReferenceSize, sizePower)
}
