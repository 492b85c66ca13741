package drying

import "math"

// Conductance is what one face of a leaf passes to the air through its boundary layer, mol/(m2 s).
type Conductance struct {
	Heat, Vapour float64
}

// Flat-plate transfer numbers, Nu = number times Pr, Re and Gr to their powers, and Sh likewise with Sc: Bonan 2019,
// supplemental program 10.1. Pr and Sc do not change with temperature here, as all three diffusivities rise alike.
var (
	forcedHeat   = 0.66 * math.Pow(momentumDiffusivity/heatDiffusivity, 0.33)
	forcedVapour = 0.66 * math.Pow(momentumDiffusivity/vapourDiffusivity, 0.33)
	freeHeat     = 0.54 * math.Pow(momentumDiffusivity/heatDiffusivity, 0.25)
	freeVapour   = 0.54 * math.Pow(momentumDiffusivity/vapourDiffusivity, 0.25)
)

// Forced returns the conductance of a face of the given width in m when only the stream moves the air: the laminar flat
// plate, Nu = 0.66 Pr^0.33 Re^0.5 (Bonan 2019). The enhancement of 1.4 to 1.5 used outdoors is left out: the
// measured plates of Schymanski, Breitenstein and Or 2016 agree with the plain plate.
func Forced(s Stream, widthM float64) Conductance {
	return gasOf(s.Air).forced(s.Speed, widthM)
}

// Free returns the conductance of a face of the given width in m when only its difference in temperature to the air,
// deltaK in K, moves the air: Nu = 0.54 (Pr Gr)^0.25 (Bonan 2019). Textbook; no measurement of ours stands behind it.
func Free(s Stream, widthM, deltaK float64) Conductance {
	return gasOf(s.Air).free(s.Air.Kelvin(), widthM).times(fourthRoot(deltaK))
}

func (g gas) forced(speed, widthM float64) Conductance {
	root := math.Sqrt(speed * widthM / g.momentum)
	return g.conductance(forcedHeat*root, forcedVapour*root, widthM)
}

// free is the conductance at a difference of 1 K; it rises with the fourth root of the difference.
func (g gas) free(kelvin, widthM float64) Conductance {
	grashof := gravity * widthM * widthM * widthM / (kelvin * g.momentum * g.momentum)
	root := fourthRoot(grashof)
	return g.conductance(freeHeat*root, freeVapour*root, widthM)
}

// conductance turns Nusselt and Sherwood numbers into conductances.
func (g gas) conductance(nusselt, sherwood, widthM float64) Conductance {
	return Conductance{
		Heat:   g.molarDensity * g.heat * nusselt / widthM,
		Vapour: g.molarDensity * g.vapour * sherwood / widthM,
	}
}

func (c Conductance) times(factor float64) Conductance {
	return Conductance{Heat: c.Heat * factor, Vapour: c.Vapour * factor}
}

// blend joins forced and free transfer as the cube root of the sum of cubes, the usual textbook rule for assisting
// flows.
func blend(a, b Conductance) Conductance {
	return Conductance{Heat: cubes(a.Heat, b.Heat), Vapour: cubes(a.Vapour, b.Vapour)}
}

func cubes(a, b float64) float64 { return math.Cbrt(a*a*a + b*b*b) }

func fourthRoot(x float64) float64 { return math.Sqrt(math.Sqrt(math.Abs(x))) }
