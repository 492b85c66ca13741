package published_test

import (
	"math"
	"testing"

	"tubside/model/feed"
)

// The units of the American tables are exact: the gallon is 231 cubic inches of 25.4 mm, the ounce a sixteenth of
// 453.59237 g (NIST Handbook 44, appendix C, section 4).
const gallon, ounce = 3.785411784, 453.59237 / 16

// powderFor is the powder of a strength, oz in 100 US gallons.
func powderFor(ppm, n float64) float64 { return feed.GramsPerLitre(ppm, n) * 100 * gallon / ounce }

// strengthOf is the strength of oz in 100 US gallons, ppm of nitrogen.
func strengthOf(ounces, n float64) float64 { return feed.PPM(ounces*ounce/(100*gallon), n) }

// Texas A&M, Nutrition and fertility: 1 oz in 100 gal of a powder with a fraction F of nitrogen is F x 75 ppm. The
// exact factor is 74.89; the rule is rounded by 0.15 %, which is the tolerance.
func TestFeedAgainstTexasRule(t *testing.T) {
	near(t, "1 oz of pure nitrogen", strengthOf(1, 100), 75, 0.0015*75)
	near(t, "1 oz of pure nitrogen, exactly", strengthOf(1, 100), 74.89, 0.005)
	near(t, "15 % calcium nitrate", strengthOf(1, 15), 11.25, 0.0015*11.25+0.005)
	near(t, "oz for 250 ppm of 15 %, printed whole", powderFor(250, 15), 22, 0.5)
}

// The same page prints .33 x 75 = 29.75 ppm for an ounce of ammonium nitrate, and 5 oz for 150 ppm of it. The product
// is 24.75 and the powder 6.1 oz: a slip of print, which fed to plants would have been a fifth too weak.
func TestFeedDoesNotRepeatTexasSlip(t *testing.T) {
	const printed, meant = 29.75, 24.75
	got := strengthOf(1, 33)
	near(t, "33 % ammonium nitrate", got, meant, 0.0015*meant+0.005)
	if math.Abs(got-printed) < 4 {
		t.Errorf("%v ppm repeats the printed %v", got, printed)
	}
	near(t, "oz for 150 ppm, by the rule", powderFor(150, 33), 150/meant, 0.0015*150/meant)
	if ounces := powderFor(150, 33); math.Abs(ounces-5) < 1 {
		t.Errorf("%v oz repeats the printed 5", ounces)
	}
}

// An extension sheet, Fertilizer calculations for greenhouse crops: for 200 ppm 13 1/2 oz of 20 % and 18 oz of 15 %,
// in steps of half an ounce. Exactly 13.35 and 17.80.
func TestFeedAgainstGreenhouseTable(t *testing.T) {
	near(t, "oz of 20 %", powderFor(200, 20), 13.5, 0.25)
	near(t, "oz of 20 %, exactly", powderFor(200, 20), 13.35, 0.005)
	near(t, "oz of 15 %", powderFor(200, 15), 18, 0.25)
	near(t, "oz of 15 %, exactly", powderFor(200, 15), 17.80, 0.005)
}

// Atlanta Orchid Society, on the Michigan State 13-3-15 powder: half a level teaspoon in a gallon is 105 ppm, a whole
// one 210. The spoon that the first implies, 6.1 g, gives the second; one of "5 g, as of water" would not have.
func TestFeedSpoonAgainstOrchidGrowers(t *testing.T) {
	spoon := 2 * feed.GramsPerLitre(105, 13) * gallon
	near(t, "g in a teaspoon", spoon, 6.1, 0.05)
	near(t, "ppm of a teaspoon", feed.PPM(spoon/gallon, 13), 210, 0.5)
	whole, err := feed.Powder{N: 13, TeaspoonG: spoon}.Dose(210, gallon)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "teaspoons for 210 ppm", whole.Teaspoons, 1, 0.005)
	if guessed := feed.PPM(5/gallon, 13); guessed > 175 {
		t.Errorf("a spoon taken for 5 g makes %v ppm, want the sixth too little that the guess costs", guessed)
	}
}

// Cultivation of T. kautskyi, Jaboticabal 2003-04, Rev. Bras. Hort. Orn.: 14-7-28 at 0.5 g/L a month, which is 70
// ppm, the upper end of what the program calls usual.
func TestFeedOfTheOneTrialIsUsual(t *testing.T) {
	ppm := feed.PPM(0.5, 14)
	near(t, "ppm", ppm, 70, 1e-9)
	if s := feed.UsualLimits.Judge(ppm); s != feed.Usual {
		t.Errorf("%v", s)
	}
}

func restriction(t *testing.T, w feed.Water) feed.Restriction {
	t.Helper()
	found, err := w.Findings()
	if err != nil {
		t.Fatal(err)
	}
	return feed.Worst(found)
}

// FAO Irrigation and Drainage Paper 29, Ayers and Westcot 1985, table 1: none below the first number, severe above
// the second.
func TestWaterAgainstFAO29(t *testing.T) {
	for _, row := range []struct {
		what        string
		none, harsh float64
		water       func(float64) feed.Water
	}{
		{"EC, dS/m", 0.7, 3.0, func(v float64) feed.Water { return feed.Water{EC: v} }},
		{"TDS, mg/L", 450, 2000, func(v float64) feed.Water { return feed.Water{TDS: v} }},
		{"boron, mg/L", 0.7, 3.0, func(v float64) feed.Water { return feed.Water{Boron: v} }},
	} {
		for value, want := range map[float64]feed.Restriction{
			0.999 * row.none: feed.None, row.none: feed.SlightToModerate,
			row.harsh: feed.SlightToModerate, 1.001 * row.harsh: feed.Severe,
		} {
			if got := restriction(t, row.water(value)); got != want {
				t.Errorf("%s %v: %v, want %v", row.what, value, got, want)
			}
		}
	}
}

// The same table for water over the leaves: sodium and chloride from 3 me/L, which is 69 and 106 mg/L. An open
// reprint (PMC9128324, table 6) prints "mg/L" beside the 3; taken at its word it would condemn a tap with 20 mg/L of
// sodium. No level is severe.
func TestWaterSaltIsInMilliequivalents(t *testing.T) {
	near(t, "mg/L of sodium in 3 me/L", 3*feed.SodiumMg, 69, 0.5)
	near(t, "mg/L of chloride in 3 me/L", 3*feed.ChlorideMg, 106, 0.5)
	for _, c := range []struct {
		water feed.Water
		want  feed.Restriction
	}{
		{feed.Water{Sodium: 3.1}, feed.None}, {feed.Water{Sodium: 20}, feed.None}, {feed.Water{Sodium: 68}, feed.None},
		{feed.Water{Sodium: 70}, feed.SlightToModerate}, {feed.Water{Sodium: 2000}, feed.SlightToModerate},
		{feed.Water{Chloride: 3.1}, feed.None}, {feed.Water{Chloride: 105}, feed.None},
		{feed.Water{Chloride: 108}, feed.SlightToModerate}, {feed.Water{Chloride: 4000}, feed.SlightToModerate},
	} {
		if got := restriction(t, c.water); got != c.want {
			t.Errorf("%+v: %v, want %v", c.water, got, c.want)
		}
	}
}

// Reducing free residual chlorine using four simple physical methods, Toxin Reviews 2021, 40:1407-1420: in 24 h
// standing tap water lost 62 % in one treatment and 51 % in the other.
func TestChlorineStandingADay(t *testing.T) {
	low, high := feed.FreeChlorine.Left(24, 15)
	near(t, "most lost, %", 100*(1-low), 62, 0.5)
	near(t, "least lost, %", 100*(1-high), 51, 0.5)
	soonest, latest := feed.FreeChlorine.Hours(1, 0.5, 15)
	near(t, "h until half is gone at the faster of those rates", soonest, 17, 0.5)
	near(t, "h until half is gone at the slower", latest, 23, 0.5)
}
