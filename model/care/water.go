package care

import (
	"time"

	"tubside/model"
	"tubside/model/belief"
	"tubside/model/leaf"
)

// How unsure the pace of a plant is before anybody has looked at it: the
// standard deviation of its logarithm. The rate of loss is known to about a
// factor of two; 0.5 puts 80 % of plants between 0.53 and 1.9 times it. A guess.
const paceSpread = 0.5

// A plant of whose last soak nothing is known is taken to have had one this
// long before it came into the book. A guess, with the wider spread it deserves.
const (
	unknownDays   = 14
	unknownSpread = 0.8
)

// againHours is how soon a second look counts as a correction of the first,
// not as new evidence. Our own.
const againHours = 6

var multipliers = belief.Multipliers()

// water is what is believed of one plant's water: its pace, and for each point
// of the pace's grid how full the plant was when it last began to dry.
type water struct {
	pace belief.Belief          // without the last look
	seen belief.Belief          // with it
	full [belief.Points]float64 // RWC at dry, for each pace
	dry  time.Time              // since when it loses water
	in   time.Time              // when it last went into the water
	wet  bool                   // in the water or drying: it loses none
	told bool                   // the last soak is on record
	look time.Time              // when it was last looked at; zero not since the soak
}

// newWater is a plant that comes into the book at a time; told is its last
// soak, zero when nobody knows.
func newWater(told, at time.Time) *water {
	w := &water{}
	spread, known := paceSpread, !told.IsZero()
	if !known {
		spread, told = unknownSpread, at.AddDate(0, 0, -unknownDays)
	}
	w.pace = belief.Prior(spread)
	w.seen = w.pace
	w.refill(told)
	w.told = known
	return w
}

// refill says the plant was full and dry at a time.
func (w *water) refill(dry time.Time) {
	w.dry, w.wet, w.told, w.look = dry, false, true, time.Time{}
	for i := range w.full {
		w.full[i] = 1
	}
}

// at fills rwc with the relative water content at a time, for each pace.
func (w *water) at(t time.Time, k float64, c *climate, rwc *[belief.Points]float64) {
	if w.wet {
		*rwc = w.full
		return
	}
	dose := c.dose(w.dry, t)
	for i, m := range multipliers {
		rwc[i] = leaf.Remaining(w.full[i], k*m, dose)
	}
}

// lookedAt takes signs as evidence on the pace. A look soon after another
// replaces it.
func (w *water) lookedAt(t time.Time, s model.Signs, k kind, c *climate) {
	if w.wet {
		return // wet leaves say nothing about thirst
	}
	if !w.look.IsZero() && t.Sub(w.look).Hours() >= againHours {
		w.pace = w.seen
	}
	w.look = t
	var rwc, likelihood [belief.Points]float64
	w.at(t, k.k, c, &rwc)
	signs := leaf.Signs{Curl: int8(s.Curl), Tips: int8(s.Tips), Shift: int8(s.Shift)}
	for i, r := range rwc {
		likelihood[i] = signs.LogLikelihood(1-r, k.scale)
	}
	w.seen = w.pace
	w.seen.Weigh(&likelihood)
}

// goIn ends a spell of drying out: the look is settled and the plant is as
// full as each pace says.
func (w *water) goIn(t time.Time, k kind, c *climate) {
	w.pace, w.look = w.seen, time.Time{}
	var rwc [belief.Points]float64
	w.at(t, k.k, c, &rwc)
	w.full, w.wet, w.in = rwc, true, t
}

// comeOut fills the plant for the time it was in.
func (w *water) comeOut(t time.Time, k kind) {
	minutes := t.Sub(w.in).Minutes()
	for i, r := range w.full {
		w.full[i] = leaf.Refilled(r, minutes, k.tau)
	}
	w.dry, w.told = t, true
}

// foundDry starts the loss of water.
func (w *water) foundDry(t time.Time) { w.dry, w.wet = t, false }
