package drying

import (
	"cmp"
	"fmt"
	"math"
)

// Plant is what drying needs to know of a plant: the water that clings to its leaves and the water caught between
// their bases.
type Plant struct {
	FilmMM     float64 // water on each face after shaking, mm, 0 to 2
	FilmPower  float64 // how the film breaks up, 0 to below 1: DropsPower or WickPower
	PocketMM   float64 // depth of water between the leaf bases after a good shake, mm, 0 to 50
	PocketG    float64 // mass of that water, g
	LeafWidthM float64 // m
	Shelter    float64 // above 0 and up to 1, as in Leaf
	AreaCM2    float64 // wetted leaf area, both faces counted, cm2
	Holds      float64 // what is left of the pocket upside down, 0 to 1; 0 means InvertedPocket
	Pace       float64 // learned: 2 dries in half the time, 0.5 in twice; 0 means 1
}

// How evaporation falls as the film shrinks, the power p in dW/dt = -E (W/W0)^p.
const (
	// DropsPower is for a smooth leaf, where the film breaks into drops: the wetted share of a leaf is
	// (W/Wmax)^(2/3), J. W. Deardorff 1978, J. Geophys. Res. 83:1889-1903 (from memory), as the Community Land Model
	// uses it.
	DropsPower = 2.0 / 3
	// WickPower is for a leaf whose trichomes spread the water, so it stays wet all over to the end. In
	// Pereira-Zaldivar et al. 2025 (Funct. Plant Biol. FP25140, abstract) water spread over the leaf in 10 of 19
	// species, all atmospheric, bulbs among them; in T. ionantha trichomes draw it in within a minute (Ohrui et al.
	// 2007, Planta 227:47-56). So silver and bulbous forms wick, green leaves and tanks bead.
	WickPower = 0.0
)

// Film thickness on each face after a shake, mm. Fog alone left 0.13 to 0.35 mm on three species within a minute
// (Martorell and Ezcurra 2007, Oecologia 152:561, read off a figure, within 30 %): T. plumosa, the one that
// the trade calls fuzzy, least. Each is a lower bound, and their mean is 0.27. Plants weighed shaken, and again blotted, would replace the
// guesses.
const (
	SmoothFilmMM  = 0.10 // the most a leaf holds in the Community Land Model, 0.1 kg/m2
	TypicalFilmMM = 0.15 // a guess
	FuzzyFilmMM   = 0.25 // a guess, for a dense coat
)

// Depth of water left between the leaf bases of a plant of ReferenceSpan after a good shake, mm. Set so that plants
// dry in the hours growers expect at 21 degC and 50 % with a low fan: a rosette in 3 to 4, a fuzzy plant in 1.5 to 2,
// a bulbous one in 4 to 6 (common practice, no source); the others are guesses beside them. A grower's own dry marks
// correct them. Bases blotted with weighed paper would replace them.
const (
	OpenPocketMM    = 0.5
	TypicalPocketMM = 0.82
	FuzzyPocketMM   = 0.6
	BulbousPocketMM = 1.4
	TankPocketMM    = 1.0 // in its cup, tipped out
	StrandPocketMM  = 0.5 // where strands cross
)

// Width of leaves, m. Guesses by eye, but for thin leaves: those of T. setacea are 1 to 4 mm wide (Flora of North
// America 22). A ruler would replace them.
const (
	ThinLeafWidthM    = 0.002
	NarrowLeafWidthM  = 0.005
	TypicalLeafWidthM = 0.010
	BroadLeafWidthM   = 0.030 // of a tank
)

// Starting values for what nobody has measured on an air plant. All are guesses. A scale and drying times of plants
// apart and together would replace them.
const (
	TypicalShelter = 0.5 // leaves crowded in their own rosette
	HungShelter    = 0.8 // an open plant, hung free
	PackedShelter  = 0.3 // packed on a tray
	TypicalAreaCM2 = 120 // a medium plant, both faces
	PocketGPerMM   = 0.5 // a medium plant holds half a gram to a millimetre of pocket
	// ReferenceSpan is the span of a medium plant, cm.
	ReferenceSpan = 15.0
	// depthPower is how the depth of a pocket grows with the span.
	depthPower = 0.5
	// spanSteps is how finely spans are told apart, in steps to a doubling: plants of about one span dry as one group.
	spanSteps = 1.0
)

// OpenRosette returns the starting values for a medium plant of open, narrow leaves along a stem.
func OpenRosette() Plant { return start(SmoothFilmMM, DropsPower, OpenPocketMM, NarrowLeafWidthM) }

// Wispy returns the starting values for a medium plant of thin leaves.
func Wispy() Plant { return start(SmoothFilmMM, DropsPower, OpenPocketMM, ThinLeafWidthM) }

// Typical returns the starting values for a medium rosette, and for a plant nothing special is known of.
func Typical() Plant { return start(TypicalFilmMM, DropsPower, TypicalPocketMM, TypicalLeafWidthM) }

// Fuzzy returns the starting values for a medium plant with a dense coat of trichomes.
func Fuzzy() Plant {
	p := start(FuzzyFilmMM, WickPower, FuzzyPocketMM, NarrowLeafWidthM)
	p.Holds = CoatHolds
	return p
}

// Bulbous returns the starting values for a medium plant with a bulb of clasping or channelled leaf bases. Its inner
// chambers hold their water upside down: it "does not fall out" (Schimper 1888, Die epiphytische Vegetation Amerikas,
// T. bulbosa).
func Bulbous() Plant {
	p := start(SmoothFilmMM, WickPower, BulbousPocketMM, NarrowLeafWidthM)
	p.Holds = BulbHolds
	return p
}

// Tank returns the starting values for a medium plant of broad leaves that form a cup.
func Tank() Plant { return start(SmoothFilmMM, DropsPower, TankPocketMM, BroadLeafWidthM) }

// Strand returns the starting values for a medium mass of hanging strands, which cross each other every which way: it
// has no upside.
func Strand() Plant {
	p := start(TypicalFilmMM, WickPower, StrandPocketMM, ThinLeafWidthM)
	p.Holds = CoatHolds
	return p
}

func start(filmMM, filmPower, pocketMM, widthM float64) Plant {
	return Plant{
		FilmMM: filmMM, FilmPower: filmPower,
		PocketMM: pocketMM, PocketG: pocketMM * PocketGPerMM,
		LeafWidthM: widthM, Shelter: TypicalShelter, AreaCM2: TypicalAreaCM2,
	}
}

// Wicking is the same plant with leaves that spread water over themselves.
func (p Plant) Wicking() Plant {
	p.FilmPower = WickPower
	return p
}

// Sized is a medium plant's like of some span in cm: its leaves grow with the square of it, its pocket gets deeper. A
// span that is not above 0 is a medium one. Spans are taken in steps.
func (p Plant) Sized(cm float64) Plant {
	if !(cm > 0) {
		return p
	}
	scale := cm / ReferenceSpan
	depth := math.Exp2(math.Round(math.Log2(scale)*spanSteps) / spanSteps * depthPower)
	p.AreaCM2 *= scale * scale
	p.PocketMM *= depth
	p.PocketG *= scale * scale * depth
	return p
}

// Handling is what was done with a plant when it came out of the water.
type Handling struct {
	Shaken   bool
	Inverted bool    // dries hanging or lying upside down
	Clump    float64 // times as long as a single plant, 1 or more; 0 means 1
	Place    float64 // times as long as in the room at large, where it is laid; 0 means 1
}

// What handling does. Growers all shake and tilt; how much it helps is a guess. One load shaken
// and one not, timed side by side, would replace it.
const (
	UnshakenPocket = 2.5 // times the pocket of a shaken plant; guessed as 2 to 3
	InvertedPocket = 0.5 // times the pocket of an upright plant, where it stands between bare leaf bases or in a cup
	// BulbHolds is the same for a bulb, whose inner chambers are not emptied so: at least 0.9 stays (Schimper 1888).
	BulbHolds = 0.95
	ClumpTime = 1.75 // times the hours of a single plant; guessed as 1.5 to 2
)

// CoatHolds is what is left of the pocket upside down where the water hangs in a coat of trichomes: all of it. Silver
// leaves have 40 to 64 of them to a square millimetre ("Wetting properties and foliar water uptake of Tillandsia L.",
// Biotribology 19, 2020), so they stand 0.13 to 0.16 mm apart, and water in gaps as wide, which wets their sides, hangs
// 2 gamma / (rho g d) = 9 to 12 cm deep; the pocket of a fuzzy plant is a millimetre. What a shake leaves there its
// weight does not pull out. Worked out here.
const CoatHolds = 1.0

// Valid returns nil when the plant makes sense, and otherwise an error that names the field.
func (p Plant) Valid() error {
	switch {
	case !(p.FilmMM >= 0 && p.FilmMM <= 2):
		return fmt.Errorf("film %.4g mm: give 0 to 2 mm on each face", p.FilmMM)
	case !(p.FilmPower >= 0 && p.FilmPower < 1):
		return fmt.Errorf("film power %.4g: give 0 (wicking) to below 1", p.FilmPower)
	case !(p.PocketMM >= 0 && p.PocketMM <= 50):
		return fmt.Errorf("pocket %.4g mm: give 0 to 50 mm", p.PocketMM)
	case !(p.PocketG >= 0 && p.PocketG <= 5000) || !(p.AreaCM2 >= 0 && p.AreaCM2 <= 1e5):
		return fmt.Errorf("pocket of %.4g g and %.4g cm2 of leaf: give 0 to 5000 g and 0 to 100000 cm2", p.PocketG,
			p.AreaCM2)
	case !(p.Holds >= 0 && p.Holds <= 1):
		return fmt.Errorf("a pocket of which %.4g is left upside down: give 0 to 1", p.Holds)
	case !(p.Pace >= 0 && p.Pace <= 100):
		return fmt.Errorf("pace %.4g: give one above 0 and up to 100, or 0 for not learned yet", p.Pace)
	}
	return p.leaf().Valid()
}

// leaf is the plant's leaf as the air sees it: wet on both faces, in the shade.
func (p Plant) leaf() Leaf {
	return Leaf{WidthM: p.LeafWidthM, Shelter: p.Shelter, WetFaces: 2, HeatFaces: 2}
}

// FilmWaterG returns the water on the leaves at first, g: a square centimetre holds 0.1 g to a millimetre.
func (p Plant) FilmWaterG() float64 { return p.AreaCM2 * p.FilmMM * 0.1 }

// MistFilm is the film that a mist leaves, as a share of that of a plant soaked and shaken. A guess: it wets one face
// of two. Plants weighed before and after a mist would replace it.
const MistFilm = 0.5

// pocketFactor is how much deeper or shallower, and as much fuller, handling leaves the pocket.
func (p Plant) pocketFactor(h Handling) float64 {
	factor := 1.0
	if !h.Shaken {
		factor *= UnshakenPocket
	}
	switch {
	case h.Inverted && p.Holds > 0:
		factor *= p.Holds
	case h.Inverted:
		factor *= InvertedPocket
	}
	return factor
}

// speedUp is how many times faster than a single, unlearned plant this one dries.
func (p Plant) speedUp(h Handling) float64 {
	pace := p.Pace
	if pace == 0 {
		pace = 1
	}
	return pace / (math.Max(1, h.Clump) * cmp.Or(h.Place, 1))
}

// WaterG returns all the water a plant so handled brings to the bench, g.
func (p Plant) WaterG(h Handling) float64 { return p.FilmWaterG() + p.PocketG*p.pocketFactor(h) }
