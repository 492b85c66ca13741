package published_test

import (
	"fmt"
	"math"
	"testing"

	"tubside/model/air"
	"tubside/model/drying"
)

// plate is one measurement of a 3 x 3 cm wet filter paper in a wind tunnel, wet on one face, exchanging heat on both.
type plate struct {
	speed, airC, vapourPa, lightW float64 // m/s, degC, Pa, absorbed W/m2
	grams, leafC                  float64 // measured: g/(m2 h), degC
}

// S. J. Schymanski, D. Breitenstein and D. Or 2016, "Technical note: An experimental setup to measure latent and
// sensible heat fluxes from (artificial) plant leaves", HESS Discuss., doi 10.5194/hess-2016-643: points of its data,
// and among them every wind of its two series of winds, dark and lit. Water flow and vapour are worked out as its
// authors do, from what was fed to the paper and the air that went through. Points whose paper had dried at the edges
// are not among them, as its authors note.
var plates = []plate{
	{0.82, 22.24, 1200, 0, 424, 18.0},
	{2.62, 22.28, 1267, 0, 617, 18.0},
	{4.48, 22.41, 1329, 0, 773, 18.2},
	{1.75, 22.20, 1231, 0, 525, 17.9},
	{3.48, 22.34, 1307, 0, 707, 18.1},
	{5.47, 22.46, 1345, 0, 805, 18.4},
	{1.00, 22.73, 542, 0, 650, 16.1},
	{1.02, 23.34, 684, 0, 629, 16.7},
	{1.02, 22.35, 664, 0, 596, 16.2},
	{1.01, 22.59, 1246, 0, 439, 18.2},
	{1.03, 22.50, 2221, 0, 129, 21.3},
	{3.97, 23.31, 731, 376, 1321, 18.4},
	{2.09, 22.97, 626, 375, 1167, 18.8},
	{1.25, 23.28, 579, 380, 1047, 19.6},
	{2.84, 22.61, 666, 374, 1243, 18.3},
	{4.63, 22.72, 779, 385, 1446, 18.0},
	{0.72, 23.21, 520, 384, 901, 20.6},
	{1.71, 22.98, 593, 375, 1108, 19.1},
	{2.14, 23.45, 612, 380, 1106, 19.2},
	{3.39, 22.83, 724, 384, 1327, 18.3},
	{5.11, 22.78, 805, 381, 1478, 18.0},
	{5.16, 23.17, 770, 371, 1390, 18.1},
}

func (p plate) wet(forcedOnly bool) drying.Wet {
	a := air.Air{TempC: p.airC, RH: p.vapourPa / air.Saturation(p.airC)}
	leaf := drying.Leaf{WidthM: 0.03, Shelter: 1, WetFaces: 1, HeatFaces: 2, Absorbed: p.lightW, ForcedOnly: forcedOnly}
	return leaf.In(drying.Stream{Air: a, Speed: p.speed})
}

// The plates were read with the plain laminar plate; the air a leaf moves itself hardly counts in such wind, so both
// ways are held to the measurements. The measured plate is 0.4 to 1.1 K warmer than its balance throughout, which we
// cannot explain; so its temperature is only held to what was found, 1.2 K.
func TestWetPlatesInAWindTunnel(t *testing.T) {
	for _, forcedOnly := range []bool{true, false} {
		t.Run(fmt.Sprintf("forced only %v", forcedOnly), func(t *testing.T) {
			sum := 0.0
			for _, p := range plates {
				w := p.wet(forcedOnly)
				ratio := w.GramsPerHour() / p.grams
				sum += ratio
				near(t, fmt.Sprintf("evaporation over measured, %+v", p), ratio, 1, 0.12)
				near(t, fmt.Sprintf("leaf temperature, %+v", p), w.TempC, p.leafC, 1.2)
			}
			near(t, "mean evaporation over measured", sum/float64(len(plates)), 1, 0.03)
		})
	}
}

// The two series of winds, dark and lit: evaporation over measured rises as the wind to the power of 0.064 (standard
// error 0.019) and 0.062 (0.021), from 0.9 at 0.7 m/s to 1.05 at 5.5. So the plate takes too little in slow air, by
// 11 % at the low fan if the slope goes on so far, for which there is no measurement. Estimates of drying are as much
// too long there. Held here, so that no change makes it worse, nor hides it.
func TestEvaporationFollowsTheWind(t *testing.T) {
	for what, lit := range map[string]bool{"dark": false, "lit": true} {
		var n, sx, sy, sxx, sxy float64
		for i, p := range plates {
			if (p.lightW > 0) != lit || i >= 6 && i <= 10 { // those are of one wind
				continue
			}
			x, y := math.Log(p.speed), math.Log(p.wet(true).GramsPerHour()/p.grams)
			n, sx, sy, sxx, sxy = n+1, sx+x, sy+y, sxx+x*x, sxy+x*y
		}
		slope := (n*sxy - sx*sy) / (n*sxx - sx*sx)
		near(t, what+": power of the wind that is missing", slope, 0.063, 0.02)
		low := math.Exp((sy-slope*sx)/n) * math.Pow(drying.Low, slope)
		near(t, what+": evaporation at the low fan over what the slope has", low, 0.89, 0.02)
	}
}

// G. S. Campbell and J. M. Norman 1998, An Introduction to Environmental Biophysics, 2nd ed., eq. 7.30 (p. 101):
// 0.135 sqrt(u/d) for heat, and 0.147 sqrt(u/d) for vapour, mol/(m2 s), at 20 °C. Both are the laminar flat plate;
// the two sets of gas properties part by 1.1 %, and the printed coefficients are good to 0.4 %.
func TestForcedAgainstCampbellAndNorman(t *testing.T) {
	for _, c := range [][2]float64{{1, 0.01}, {0.1, 0.01}, {1, 0.05}, {2, 0.03}} {
		speed, width := c[0], c[1]
		s := drying.Stream{Air: air.Air{TempC: 20, RH: 0.5}, Speed: speed}
		root := math.Sqrt(speed / width)
		got := drying.Forced(s, width)
		near(t, "heat", got.Heat, 0.135*root, 0.015*0.135*root)
		near(t, "vapour", got.Vapour, 0.147*root, 0.015*0.147*root)
	}
}

// G. B. Bonan 2019, Climate Change and Terrestrial Ecosystem Modeling, supplemental program 10.1, for 15 °C and 5 cm:
// forced conductances carry its field enhancement of 1.5, which we leave out. The values were worked out from the
// program's equations to four digits, not printed in the book.
func TestConductancesAgainstBonan(t *testing.T) {
	for _, c := range []struct{ speed, warmer, forcedHeat, forcedVapour, freeHeat, freeVapour float64 }{
		{1, 1, 0.9070, 0.9980, 0.1033, 0.1150},
		{2, 2, 1.2827, 1.4114, 0.1229, 0.1368},
		{5, 5, 2.0281, 2.2316, 0.1545, 0.1720},
	} {
		const enhancement, width, digits = 1.5, 0.05, 0.00006
		s := drying.Stream{Air: air.Air{TempC: 15, RH: 0.5}, Speed: c.speed}
		forced, free := drying.Forced(s, width), drying.Free(s, width, c.warmer)
		near(t, "forced heat", enhancement*forced.Heat, c.forcedHeat, digits)
		near(t, "forced vapour", enhancement*forced.Vapour, c.forcedVapour, digits)
		near(t, "free heat", free.Heat, c.freeHeat, digits)
		near(t, "free vapour", free.Vapour, c.freeVapour, digits)
	}
}

// A narrow wet leaf in a strong stream is nearly a wet-bulb thermometer. PsychroLib 1.1.1 at 101325 Pa. Long-wave
// from the room and the ratio of heat to vapour transfer, 1 in the thermodynamic wet bulb, keep the two apart by up
// to 3 % of the depression.
func TestWetLeafInAStrongStreamIsAWetBulb(t *testing.T) {
	for _, c := range []struct{ airC, rh, bulbC float64 }{
		{15, 0.30, 7.242}, {20, 0.30, 10.853}, {20, 0.40, 12.355}, {20, 0.50, 13.783},
		{20, 0.60, 15.144}, {25, 0.50, 17.889}, {30, 0.40, 20.064},
	} {
		a := air.Air{TempC: c.airC, RH: c.rh}
		near(t, "wet bulb", a.WetBulb(), c.bulbC, 0.005)
		leaf := drying.Leaf{WidthM: 0.005, Shelter: 1, WetFaces: 1, HeatFaces: 1}
		w := leaf.In(drying.Stream{Air: a, Speed: drying.MaxSpeed})
		near(t, "wet leaf", w.TempC, c.bulbC, 0.03*(c.airC-c.bulbC))
	}
}
