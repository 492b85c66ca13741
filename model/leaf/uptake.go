package leaf

import "math"

// How water comes back: the thirst falls as exp(-t/tau) in water. Ohrui et al. 2007 (Planta 227:47, T. ionantha):
// tissue fills over 3 hours, after a first minute in which the scales fill by capillarity. That first minute is water
// on the leaf, not in it, and is no part of this. The exponential, and 1.0 h so that 95 % is back at 3 hours, are our
// own choice.

// Time constants tau of uptake, in hours. TauDefault is ours from Ohrui et al. 2007; the others are guesses around it.
// Plants of each kind weighed every quarter of an hour in the water would replace them.
const (
	// TauFuzzy is for densely scaled leaves, which draw the water over themselves.
	TauFuzzy = 0.7
	// TauDefault is for all others.
	TauDefault = 1.0
	// TauWispy is for thin, green leaves: growers leave them in longer (common practice, no source).
	TauWispy = 1.25
)

// Refilled is the RWC after some minutes in water, for a plant that went in at RWC r0 (0 to 1) and has the time
// constant tau in hours.
func Refilled(r0, minutes, tau float64) float64 {
	r0 = held(r0)
	if !(minutes > 0) {
		return r0
	}
	return 1 - (1-r0)*math.Exp(-minutes/60/tau)
}

// Soak is one soak, for asking what it does to plants from many beginnings.
type Soak struct {
	tau   float64
	lasts float64 // of tau

	film       float64 // water worn when it is over, as a share of a full leaf's
	evaporates float64 // of it in the time in which a leaf drinks as much as it lacks; 1 if there is no film
}

// NewSoak is a soak of some minutes for a plant of the time constant tau in hours. Minutes that are not above 0 do
// nothing.
func NewSoak(minutes, tau float64) Soak {
	if !(minutes > 0) {
		minutes = 0
	}
	return Soak{tau: tau, lasts: minutes / 60 / tau, evaporates: 1}
}

// Refill replaces each RWC (0 to 1) that a plant may go in at by what it comes out at, or has when the film is gone
// that it wears: Refilled and Film.Drunk, to within 2e-6.
func (s Soak) Refill(rwc []float64) {
	for i, r0 := range rwc {
		thirst := 1 - r0
		rwc[i] = 1 - thirst*falling(s.lasts+s.film/(s.evaporates+thirst))
	}
}

// fallingTable is exp(-x), for those who ask for it by the million.
var fallingTable = func() (t [fallingLast + 2]float64) {
	for i := range t {
		t[i] = math.Exp(-float64(i) / fallingPerUnit)
	}
	return t
}()

const (
	fallingPerUnit = 256
	fallingLast    = 16*fallingPerUnit - 1 // a power of two less one
)

// falling is exp(-x) for x of 0 or more, by straight lines that are off by less than 2e-6. Short enough to be
// compiled into the loop that asks.
func falling(x float64) float64 {
	x *= fallingPerUnit
	if x > fallingLast {
		x = fallingLast
	}
	i := int(x) & fallingLast
	return fallingTable[i] + (fallingTable[i+1]-fallingTable[i])*(x-float64(i))
}

// MinutesTo is how long a plant that goes in at RWC r0 needs to reach the target RWC. 0 if it is already there;
// endless (+Inf) for a target of 1 or more, which is only approached. A drier plant never needs less.
func MinutesTo(r0, target, tau float64) float64 {
	r0 = held(r0)
	if r0 >= target {
		return 0
	}
	if target >= 1 {
		return math.Inf(1)
	}
	return 60 * tau * math.Log((1-r0)/(1-target))
}
