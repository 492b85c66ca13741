package drying

import (
	"fmt"
	"math"
)

// Plant is what drying needs to know of a plant: the water that clings to its leaves and the water caught between their bases.
type Plant struct {
	FilmMM     float64 // water on each face after shaking, mm, 0 to 2
	FilmPower  float64 // how the film breaks up, 0 to below 1: DropsPower or WickPower
	PocketMM   float64 // depth of water between the leaf bases after a good shake, mm, 0 to 50
	PocketG    float64 // mass of that water, g
	LeafWidthM float64 // m
	Shelter    float64 // above 0 and up to 1, as in Leaf
	AreaCM2    float64 // wetted leaf area, both faces counted, cm2
	Pace       float64 // learned: 2 dries in half the time, 0.5 in twice; 0 means 1
}

// How evaporation falls as the film shrinks, the power p in dW/dt = -E (W/W0)^p.
const (
	// DropsPower is for a smooth leaf, where the film breaks into drops: the wetted share of a leaf is (W/Wmax)^(2/3), J. W.
	// Deardorff 1978, J. Geophys. Res. 83:1889-1903 (from memory), as the Community Land Model uses it.
	DropsPower = 2.0 / 3
	// WickPower is for a leaf whose trichomes spread the water, so it stays wet all over to the end. A guess, resting on
	// Ohrui et al. 2007 (Planta 227:47-56): trichomes of T. ionantha draw water in by capillarity within a minute.
	WickPower = 0.0
)

// Film thickness on each face after a shake, mm. Plants weighed shaken, and again blotted, would replace the guesses.
const (
	SmoothFilmMM  = 0.10 // the most a leaf holds in the Community Land Model, 0.1 kg/m2
	TypicalFilmMM = 0.15 // a guess
	FuzzyFilmMM   = 0.25 // a guess, for a dense coat
)

// Depth of water left between the leaf bases after a good shake, mm. All are guesses; a grower's own dry marks correct them.
// Bases blotted with weighed paper would replace them.
const (
	OpenPocketMM    = 0.5
	TypicalPocketMM = 1.0
	FuzzyPocketMM   = 0.7
	BulbousPocketMM = 3.0
)

// Starting values for what nobody has measured on an air plant. All are guesses. A ruler, a scale and drying times of plants apart
// and together would replace them.
const (
	TypicalLeafWidthM = 0.010 // a leaf one centimetre wide
	TypicalShelter    = 0.5   // leaves crowded in their own rosette
	HungShelter       = 0.8   // an open plant, hung free
	PackedShelter     = 0.3   // packed on a tray
	TypicalAreaCM2    = 120   // a medium plant, both faces
	PocketGPerMM      = 0.5   // a medium plant holds half a gram to a millimetre of pocket
)

// OpenRosette returns the starting values for an open, smooth rosette.
func OpenRosette() Plant { return start(SmoothFilmMM, DropsPower, OpenPocketMM) }

// Typical returns the starting values for a plant nothing special is known of.
func Typical() Plant { return start(TypicalFilmMM, DropsPower, TypicalPocketMM) }

// Fuzzy returns the starting values for a plant with a dense coat of trichomes.
func Fuzzy() Plant { return start(FuzzyFilmMM, WickPower, FuzzyPocketMM) }

// Bulbous returns the starting values for a plant with a bulb of clasping or channelled leaf bases.
func Bulbous() Plant { return start(SmoothFilmMM, DropsPower, BulbousPocketMM) }

func start(filmMM, filmPower, pocketMM float64) Plant {
	return Plant{
		FilmMM: filmMM, FilmPower: filmPower,
		PocketMM: pocketMM, PocketG: pocketMM * PocketGPerMM,
		LeafWidthM: TypicalLeafWidthM, Shelter: TypicalShelter, AreaCM2: TypicalAreaCM2,
	}
}

// Handling is what was done with a plant when it came out of the water.
type Handling struct {
	Shaken   bool
	Inverted bool    // dries hanging or lying upside down
	Clump    float64 // times as long as a single plant, 1 or more; 0 means 1
}

// What handling does. Growers all shake and tilt; how much it helps is a guess. One load shaken
// and one not, timed side by side, would replace it.
const (
	UnshakenPocket = 2.5  // times the pocket of a shaken plant; guessed as 2 to 3
	InvertedPocket = 0.5  // times the pocket of an upright plant
	ClumpTime      = 1.75 // times the hours of a single plant; guessed as 1.5 to 2
)

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
		return fmt.Errorf("pocket of %.4g g and %.4g cm2 of leaf: give 0 to 5000 g and 0 to 100000 cm2", p.PocketG, p.AreaCM2)
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

// MistFilm is the film that a mist leaves, as a share of that of a plant soaked and shaken. A guess: it wets one face of two. Plants
// weighed before and after a mist would replace it.
const MistFilm = 0.5

// pocketFactor is how much deeper or shallower, and as much fuller, handling leaves the pocket.
func (h Handling) pocketFactor() float64 {
	factor := 1.0
	if !h.Shaken {
		factor *= UnshakenPocket
	}
	if h.Inverted {
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
	return pace / math.Max(1, h.Clump)
}

// WaterG returns all the water a plant so handled brings to the bench, g.
func (p Plant) WaterG(h Handling) float64 { return p.FilmWaterG() + p.PocketG*h.pocketFactor() }
