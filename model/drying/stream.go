// Package drying is the way from dripping to dry: how fast a wet leaf gives its water to moving air, how long the
// film on the leaves and the pocket between the leaf bases last, and what the drying plants do to the air of their
// room.
//
// The wet leaf in moving air rests on published measurements. Still air rests on textbook equations. Film thickness,
// pocket depth and shelter are guesses until a grower's own dry marks correct them; each is a named constant that
// says so.
package drying

import (
	"fmt"
	"math"

	"tubside/model/air"
)

// Stream is the air moving past a leaf.
type Stream struct {
	Air   air.Air
	Speed float64 // m/s, 0 to MaxSpeed
}

// Air speed among the plants for the words a grower uses, m/s.
const (
	// Off is no fan. ASHRAE Standard 55 calls 0.1 to 0.2 m/s still (from memory); a lived-in room is never quite at
	// rest.
	Off = 0.1
	// Low is an oscillating or low fan across the room: oscillating fans in the Kansas State University comfort tests
	// gave means of 0.3, 0.5 and 0.7 m/s.
	Low = 0.5
	// On is a fan about 2 m away: the fixed fans of the same tests gave 0.4, 0.8 and 1.2 m/s, and MIL-HDBK-1011/2 has
	// 1.0 m/s as the practical limit in homes.
	On = 1.0
	// Near is a fan about 1 m away: a pedestal fan at its slow setting gave 2 m/s in a heat-wave study (O'Connor et
	// al., JAMA 2024).
	Near = 2.0
)

// MaxSpeed is the fastest stream answered for, m/s. The measurements behind the moving-air equations end at 5.5 m/s.
const MaxSpeed = 10.0

// draught is the least speed used, m/s, a guess: the air over a bench never stands, and at 0 m/s a leaf at exactly
// the air's temperature would have no way to begin to dry. An anemometer on the bench would replace it.
const draught = 0.05

// Valid returns nil when the stream can exist in a home, and otherwise an error that names the reading and its range.
func (s Stream) Valid() error {
	if err := s.Air.Valid(); err != nil {
		return err
	}
	if !(s.Speed >= 0 && s.Speed <= MaxSpeed) {
		return fmt.Errorf("air speed %.4g m/s: give one between 0 and %.0f m/s", s.Speed, MaxSpeed)
	}
	return nil
}

// Diffusivities in air at 0 degC and 101325 Pa, m2/s, and the power of absolute temperature they rise with: G. B.
// Bonan 2019, Climate Change and Terrestrial Ecosystem Modeling, supplemental program 10.1.
const (
	momentumDiffusivity = 13.3e-6
	heatDiffusivity     = 18.9e-6
	vapourDiffusivity   = 21.8e-6
	diffusivityPower    = 1.81
)

const (
	zeroCelsius = 273.15      // K
	gasConstant = 8.314462618 // J/(mol K), SI 2019
	gravity     = 9.80665     // m/s2, standard
)

// gas holds the properties of a stream's air that the transfer equations share.
type gas struct {
	molarDensity           float64 // mol/m3
	momentum, heat, vapour float64 // diffusivities, m2/s
}

func gasOf(a air.Air) gas {
	k := a.Kelvin()
	rise := math.Pow(k/zeroCelsius, diffusivityPower) * air.StandardPressure / a.Pa()
	return gas{
		molarDensity: a.Pa() / (gasConstant * k),
		momentum:     momentumDiffusivity * rise,
		heat:         heatDiffusivity * rise,
		vapour:       vapourDiffusivity * rise,
	}
}
