package drying

import (
	"fmt"
	"math"

	"tubside/model/air"
)

// Physical constants of the wet-leaf balance.
const (
	molarMassWater  = 0.018015 // kg/mol
	latentHeat      = 2.45e6   // J/kg, FAO-56 (Allen et al. 1998), ch. 1, the value at 20 degC
	molarHeat       = 29.3     // J/(mol K), of air: Campbell and Norman 1998, Introduction to Environmental Biophysics
	stefanBoltzmann = 5.67e-8  // W/(m2 K4)
	emissivity      = 0.96     // of a wet leaf, as Schymanski, Breitenstein and Or 2016 take it
)

// Leaf is a wet leaf seen by the air.
type Leaf struct {
	WidthM    float64 // m across the stream, above 0
	Shelter   float64 // above 0 and up to 1, the share of free exchange crowding leaves: 1 is a leaf alone
	WetFaces  int     // faces that evaporate, 1 or 2
	HeatFaces int     // faces that exchange heat and long-wave radiation, 1 or 2
	Absorbed  float64 // absorbed sunlight, W/m2 of leaf (one side counted); 0 in the shade indoors
	// ForcedOnly leaves out the air the leaf itself sets moving. Only for comparing with experiments read that way.
	ForcedOnly bool
}

// Wet is how a wet leaf stands in a stream.
type Wet struct {
	TempC       float64 // of the leaf, degC
	Evaporation float64 // kg/(m2 s) of leaf, one side counted, all wet faces together
	Conductance Conductance
}

// GramsPerHour returns the evaporation in g/(m2 h).
func (w Wet) GramsPerHour() float64 { return w.Evaporation * 3.6e6 }

// Valid returns nil when the leaf makes sense, and otherwise an error that names the field.
func (l Leaf) Valid() error {
	switch {
	case !(l.WidthM > 0 && l.WidthM <= 1):
		return fmt.Errorf("leaf width %.4g m: give one above 0 and up to 1 m", l.WidthM)
	case !(l.Shelter > 0 && l.Shelter <= 1):
		return fmt.Errorf("shelter %.4g: give one above 0 (buried) and up to 1 (alone)", l.Shelter)
	case l.WetFaces < 1 || l.WetFaces > 2 || l.HeatFaces < 1 || l.HeatFaces > 2:
		return fmt.Errorf("leaf with %d wet and %d heat faces: give 1 or 2 of each", l.WetFaces, l.HeatFaces)
	case !(l.Absorbed >= 0 && l.Absorbed <= 1500):
		return fmt.Errorf("absorbed light %.4g W/m2: give 0 to 1500", l.Absorbed)
	}
	return nil
}

// In returns the temperature at which the leaf's heat balances in the stream, and what it evaporates there:
//
//	lambda E + heat faces * (g_h c_p (T_s - T_a) + shelter eps sigma (T_s^4 - T_a^4)) = absorbed
//	E = wet faces * g_v M (e_s(T_s) - e_a) / P
//
// The balance is the one Schymanski, Breitenstein and Or 2016 (HESS Discuss., doi 10.5194/hess-2016-643) close for a
// wet plate; shelter slows long-wave exchange as it slows the air. Walls and lamps are taken to be at air
// temperature. Leaf and stream must be valid; at RH 1 in the shade the leaf is as warm as the air and evaporates
// nothing.
func (l Leaf) In(s Stream) Wet {
	b := l.balanceIn(s)
	leafC := b.solve()
	g := b.conductance(leafC)
	return Wet{TempC: leafC, Evaporation: b.evaporation(leafC, g), Conductance: g.times(l.Shelter)}
}

// balance is the heat balance of one leaf in one stream, with all that does not hang on the leaf's temperature worked
// out.
type balance struct {
	leaf         Leaf
	air          air.Air
	vapour       float64 // Pa
	massPerPa    float64 // kg/(mol Pa): evaporation for a conductance and a vapour pressure difference
	forced, free Conductance
	airK4        float64
}

func (l Leaf) balanceIn(s Stream) balance {
	g, k := gasOf(s.Air), s.Air.Kelvin()
	b := balance{
		leaf: l, air: s.Air, vapour: s.Air.Vapour(),
		massPerPa: molarMassWater / s.Air.Pa(),
		forced:    g.forced(math.Max(s.Speed, draught), l.WidthM),
		airK4:     k * k * k * k,
	}
	if !l.ForcedOnly {
		b.free = g.free(k, l.WidthM)
	}
	return b
}

// conductance is that of one face without its shelter.
func (b *balance) conductance(leafC float64) Conductance {
	if b.leaf.ForcedOnly {
		return b.forced
	}
	return blend(b.forced, b.free.times(fourthRoot(leafC-b.air.TempC)))
}

func (b *balance) evaporation(leafC float64, g Conductance) float64 {
	pull := air.Saturation(leafC) - b.vapour
	return float64(b.leaf.WetFaces) * b.leaf.Shelter * g.Vapour * b.massPerPa * pull
}

// surplus is the heat leaving the leaf less the light it absorbs, W/m2. It rises with the leaf's temperature.
func (b *balance) surplus(leafC float64) float64 {
	g := b.conductance(leafC)
	k := leafC + zeroCelsius
	dry := g.Heat*molarHeat*(leafC-b.air.TempC) + emissivity*stefanBoltzmann*(k*k*k*k-b.airK4)
	return latentHeat*b.evaporation(leafC, g) + float64(b.leaf.HeatFaces)*b.leaf.Shelter*dry - b.leaf.Absorbed
}
