package feed_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tubside/model/feed"
)

// alike reports whether two numbers are the same but for rounding.
func alike(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Max(math.Abs(a), math.Abs(b)) }

func anyPowder(t *rapid.T) feed.Powder {
	return feed.Powder{N: rapid.Float64Range(1, feed.RichestN).Draw(t, "N"),
		TeaspoonG: rapid.Float64Range(2, 8).Draw(t, "teaspoon")}
}

func litres(t *rapid.T) float64 { return rapid.Float64Range(0.1, 200).Draw(t, "litres") }

// By hand: 50 ppm of 20-10-20 is 0.25 g/L, so 5 g for the feeding bucket and 30 g for the tub, which is why the tub is
// not fed.
func TestAFeedingBucket(t *testing.T) {
	for _, c := range []struct{ n, ppm, litres, grams float64 }{
		{20, 50, 20, 5}, {20, 50, 120, 30}, {13, 50, 20, 100.0 / 13}, {20, 0, 20, 0},
	} {
		d, err := feed.Powder{N: c.n}.Dose(c.ppm, c.litres)
		if err != nil || !alike(d.Grams, c.grams) || !alike(d.PPM, c.ppm) || d.Litres != c.litres || d.Teaspoons != 0 {
			t.Errorf("%v: %+v, %v", c, d, err)
		}
	}
}

// Quarter strength is a quarter of the label's rate (common practice, no source): 20-10-20 at 1 g/L gives 50 ppm.
func TestQuarterStrength(t *testing.T) {
	d, err := feed.Powder{N: 20}.AtLabel(1, 0.25, 20)
	if err != nil || !alike(d.Grams, 5) || !alike(d.PPM, 50) || !alike(d.GramsPerLitre(), 0.25) {
		t.Errorf("%+v, %v", d, err)
	}
}

// A powder for blooming has no nitrogen: its label can be followed, a strength in nitrogen cannot be.
func TestPowderWithoutNitrogen(t *testing.T) {
	bloom := feed.Powder{}
	if _, err := bloom.Dose(50, 20); err == nil || !strings.Contains(err.Error(), "label") {
		t.Errorf("dose by ppm: %v", err)
	}
	if d, err := bloom.AtLabel(1, 0.25, 20); err != nil || !alike(d.Grams, 5) || d.PPM != 0 {
		t.Errorf("dose by label: %+v, %v", d, err)
	}
	if g := feed.GramsPerLitre(50, 0); !math.IsInf(g, 1) {
		t.Errorf("%v g/L", g)
	}
}

func TestSpoonsNeedAScaleFirst(t *testing.T) {
	if d, err := (feed.Powder{N: 13}).Dose(50, 4); err != nil || d.Teaspoons != 0 {
		t.Errorf("%+v, %v", d, err)
	}
	light, heavy := feed.Powder{N: 13, TeaspoonG: 4}, feed.Powder{N: 13, TeaspoonG: 6}
	a, _ := light.Dose(50, 20)
	b, _ := heavy.Dose(50, 20)
	if a.Grams != b.Grams || !alike(a.Teaspoons, 1.5*b.Teaspoons) {
		t.Errorf("light %+v, heavy %+v", a, b)
	}
}

func TestDoseRefusesWhatCannotBe(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	p := feed.Powder{N: 20, TeaspoonG: 5}
	dose := func(p feed.Powder, ppm, litres float64) error { _, err := p.Dose(ppm, litres); return err }
	label := func(rate, part, litres float64) error { _, err := p.AtLabel(rate, part, litres); return err }
	weighed := func(g float64) error { _, err := p.Weighed(g, 20); return err }
	for names, errs := range map[string][]error{
		"nitrogen":     {dose(feed.Powder{N: -1}, 50, 20), dose(feed.Powder{N: 48}, 50, 20), dose(feed.Powder{N: nan}, 50, 20)},
		"teaspoon":     {dose(feed.Powder{N: 20, TeaspoonG: -1}, 50, 20), dose(feed.Powder{N: 20, TeaspoonG: 21}, 50, 20), dose(feed.Powder{N: 20, TeaspoonG: nan}, 50, 20)},
		"strength":     {dose(p, -1, 20), dose(p, nan, 20), dose(p, inf, 20)},
		"bath":         {dose(p, 50, 0), dose(p, 50, -1), dose(p, 50, 1001), dose(p, 50, nan), label(1, 0.25, 0)},
		"label's rate": {label(0, 0.25, 20), label(nan, 0.25, 20), label(inf, 0.25, 20), label(1, 0, 20), label(1, 1.01, 20), label(1, nan, 20)},
		"powder":       {weighed(-1), weighed(nan), weighed(inf)},
	} {
		for i, err := range errs {
			if err == nil || !strings.Contains(err.Error(), names) {
				t.Errorf("%s, case %d: %v", names, i+1, err)
			}
		}
	}
}

func TestADoseMakesItsStrength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, water := anyPowder(t), litres(t)
		ppm := rapid.Float64Range(0, 400).Draw(t, "ppm")
		d, err := p.Dose(ppm, water)
		if err != nil || !alike(d.PPM, ppm) || !alike(feed.PPM(d.GramsPerLitre(), p.N), ppm) {
			t.Fatalf("%+v, %v", d, err)
		}
	})
}

// Twice the water takes twice the powder at the same strength.
func TestDosesGrowWithTheWater(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, water := anyPowder(t), litres(t)
		ppm := rapid.Float64Range(1, 200).Draw(t, "ppm")
		once, _ := p.Dose(ppm, water)
		twice, _ := p.Dose(ppm, 2*water)
		if !alike(twice.Grams, 2*once.Grams) {
			t.Fatalf("%+v, %+v", once, twice)
		}
	})
}
