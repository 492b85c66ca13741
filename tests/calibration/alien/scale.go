package alien

import (
	"math"
	"math/rand/v2"
	"slices"
	"time"

	"tubside/model"
)

// When plants are weighed: from the first soak day of the month before the program is asked.
const (
	weighedFrom = firstAsked - 28
	weighedDays = 28
)

// The scale and what is on it, all guesses: grams of a full plant of 15 cm and how they lie apart, the dry matter in
// it, what it gains in a day, and what is off at each weighing: water in the axils, and one weight in a hundred that
// is of another plant or mistyped.
const (
	gramsAt15CM, gramsPower, gramsOff = 24.0, 2.3, 0.3
	leastDry, mostDry                 = 0.13, 0.25
	gains                             = 0.0004
	axils                             = 0.012
	wrongWeight, wrongBy              = 0.01, 0.5
	shows                             = 0.1
)

// scale is the scale, and who is on it since when.
type scale struct {
	rng   *rand.Rand
	since int // day
	on    []*weighed
}

// weighed is a plant that is weighed.
type weighed struct {
	*Plant
	grams, matter, gain float64
	last                time.Time // weighed since its soak
	usual               float64   // minutes of its soaks
}

// longSoak is the first soak of those that are weighed, in minutes, where nothing speaks against it.
const longSoak = 180.0

func newScale(rng *rand.Rand) *scale { return &scale{rng: rng} }

func (h *Home) beginWeighing(day int) {
	if h.scale.since > 0 || day < weighedFrom {
		return
	}
	h.scale.since = day
	for _, id := range h.Choose() {
		p, rng := h.Plants[id-1], h.scale.rng
		h.scale.on = append(h.scale.on, &weighed{Plant: p, usual: p.minutes,
			grams:  gramsAt15CM * math.Pow(p.Row.Size/15, gramsPower) * math.Exp(gramsOff*rng.NormFloat64()),
			matter: leastDry + (mostDry-leastDry)*rng.Float64(), gain: gains * rng.NormFloat64()})
		if p.minutes > 30 { // neither fuzzy nor bulbous
			p.minutes = longSoak
		}
	}
}

// soaked ends the long soak.
func (s *scale) soaked() {
	for _, w := range s.on {
		w.Plant.minutes = w.usual
	}
}

func (s *scale) ends(day int) bool { return day > s.since+weighedDays }

// weigh puts a plant on the scale as it is.
func (h *Home) weigh(at time.Time, w *weighed, wet bool) {
	w.last = at
	rng := h.scale.rng
	off := w.gain*at.Sub(h.begin).Hours()/24 + axils*rng.NormFloat64()
	grams := w.grams * (w.matter + (1-w.matter)*w.Left()) * math.Exp(off)
	if rng.Float64() < wrongWeight {
		grams *= math.Exp(wrongBy * rng.NormFloat64())
	}
	if !h.Weighs {
		return
	}
	h.write(at, &model.Weigh{Grams: max(math.Round(grams/shows)*shows, shows), Wet: wet}, w.Row.ID)
}

// weighBefore weighs those of a soak day's turn before they go in.
func (h *Home) weighBefore(day int, turn []*Plant) {
	for _, w := range h.scale.on {
		if !h.scale.ends(day) && slices.Contains(turn, w.Plant) {
			h.weigh(h.Now, w, false)
		}
	}
}

// weighFull weighs those that were just found dry to the heart.
func (h *Home) weighFull(at time.Time, dry model.IDs) {
	for _, w := range h.scale.on {
		if dry.Has(w.Row.ID) && !h.scale.ends(int(at.Sub(h.begin).Hours()/24)) {
			h.weigh(at, w, true)
		}
	}
}

// weighBetween weighs once half way from soak to soak.
func (h *Home) weighBetween(day int) {
	for _, w := range h.scale.on {
		half := time.Duration(h.rhythm*w.every) * 12 * time.Hour
		if !h.scale.ends(day) && h.Now.Sub(w.out) >= half && w.last.Sub(w.Plant.dry) < half/2 {
			h.advance(w.Plant, h.Now)
			h.weigh(h.Now, w, false)
		}
	}
}
