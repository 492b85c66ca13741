package drying

import (
	"fmt"
	"math"
	"slices"

	"tubside/model/air"
)

// Room is the air that the drying plants share. It is taken as mixed through and as staying at its temperature.
//
// Holding the temperature leaves out that drying cools the room: see the size of that at Forecast.
type Room struct {
	VolumeM3      float64  // above 0
	AirChanges    float64  // per hour, 0 or more
	Air           air.Air  // now
	SupplyDensity float64  // vapour in the air that comes in, kg/m3, 0 or more: air.Air.VapourDensity of the air outside
	Airings       []Airing // changes of AirChanges to come, in the order of their hours
}

// Airing is a change in how a room is aired, such as a window being opened.
type Airing struct {
	Hours      float64 // from now, 0 or more
	AirChanges float64 // per hour from then on, 0 or more
	// SupplyDensity is the vapour in what comes in from then on, kg/m3; 0 is as before.
	SupplyDensity float64
}

// WinterAirChanges is the air changes per hour of a closed Canadian house in winter: Kent, Handegord and Robson, ASHRAE
// Transactions 72.
const WinterAirChanges = 0.44

// Group is plants that came out of the water together and dry alike.
type Group struct {
	Plant      Plant
	Handling   Handling
	Count      int
	Speed      float64 // of the air over them, m/s
	MinutesOut float64 // since they came out of the water, in air as it is now; below 0, they are still to come out
}

// Moment is the room at one time.
type Moment struct {
	Hours float64 // from now
	RH    float64
}

// Forecast is what becomes of a room of drying plants.
//
// It leaves out that drying cools the room, 680 W for a kilogram an hour. Worked out for a 40 m3 room at 20 degC, 40
// % and 0.44 air changes, fan on, whose walls (70 m2 at 2.5 W/(m2 K), a guess) give that heat back: 100 medium plants
// start at 0.32 kg an hour and cool the air by 1.2 K at first, 200 by 2.5 K, 500 by 6 K, and fade from there. Drying
// then takes 3, 4 and 6 % longer than forecast: small beside the guessed film and pocket.
type Forecast struct {
	Moments  []Moment   // from now until all is dry, or to Horizon
	Groups   []Estimate // hours from now, 0 for what is dry already, +Inf for what is not dry by Horizon
	PeakRH   float64
	StartKG  float64 // water on the plants now
	LeftKG   float64 // water on the plants at the end
	VentedKG float64 // vapour carried out, less vapour brought in
	GainedKG float64 // vapour the room's air holds more at the end than now
}

// Horizon is how far a forecast looks, hours. A week wet is past hope for most plants (common practice, no source).
const Horizon = 168.0

// Valid returns nil when the room makes sense, and otherwise an error that names the field.
func (r Room) Valid() error {
	switch {
	case !(r.VolumeM3 >= 1 && r.VolumeM3 <= 1e5):
		return fmt.Errorf("room of %.4g m3: give 1 to 100000 m3", r.VolumeM3)
	case !(r.AirChanges >= 0 && r.AirChanges <= 100):
		return fmt.Errorf("%.4g air changes an hour: give 0 to 100", r.AirChanges)
	case slices.ContainsFunc(r.Airings, func(a Airing) bool {
		return !(a.Hours >= 0 && a.AirChanges >= 0 && a.AirChanges <= 100 && a.SupplyDensity >= 0)
	}):
		return fmt.Errorf("airings %v: give hours from now, and 0 to 100 air changes an hour", r.Airings)
	case !(r.SupplyDensity >= 0 && r.SupplyDensity <= 0.2):
		return fmt.Errorf("incoming air with %.4g kg/m3 of vapour: give 0 to 0.2", r.SupplyDensity)
	}
	return r.Air.Valid()
}

// Valid returns nil when the group makes sense, and otherwise an error that names the field.
func (g Group) Valid() error {
	switch {
	case g.Count < 0:
		return fmt.Errorf("%d plants: there cannot be less than 0", g.Count)
	case !(math.Abs(g.MinutesOut) <= 1e7):
		return fmt.Errorf("out for %.4g minutes: give a number, below 0 for plants still to come out", g.MinutesOut)
	case !(g.Speed >= 0 && g.Speed <= MaxSpeed):
		return fmt.Errorf("air speed %.4g m/s: give one between 0 and %.0f m/s", g.Speed, MaxSpeed)
	case !(g.Handling.Clump >= 0 && g.Handling.Clump <= 100):
		return fmt.Errorf("clump taking %.4g times as long: give 1 to 100, or 0 for a single plant", g.Handling.Clump)
	case !(g.Handling.Place >= 0 && g.Handling.Place <= 100):
		return fmt.Errorf("a place where drying takes %.4g times as long: give one above 0 and up to 100, or 0 for not said",
			g.Handling.Place)
	}
	return g.Plant.Valid()
}

// Dry returns how the plants dry together in the room, from now. An error names the room's field, or the group by its
// place in groups and its field; nothing is worked out then.
func (r Room) Dry(groups []Group) (Forecast, error) {
	if err := r.Valid(); err != nil {
		return Forecast{}, err
	}
	for i, g := range groups {
		if err := g.Valid(); err != nil {
			return Forecast{}, fmt.Errorf("drying group %d: %w", i+1, err)
		}
	}
	return newBench(r, groups).run(groups), nil
}

// saturationKG is the most vapour the room's air can hold, kg.
func (r Room) saturationKG() float64 {
	full := r.Air
	full.RH = 1
	return full.VapourDensity() * r.VolumeM3
}

// humidity is the RH with the given vapour in the room, kg. Vapour beyond saturation settles on windows, so RH ends
// at 1.
func (r Room) humidity(vapourKG float64) float64 {
	return math.Min(1, math.Max(0, r.Air.WithVapourDensity(vapourKG/r.VolumeM3).RH))
}
