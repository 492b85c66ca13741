package trade_test

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/soak"
	"tubside/model/species"
)

// weighedAfter is what is needed by a listed plant that weighed so much full, and so much some days later.
func weighedAfter(t rapid.TB, name string, full, days, grams float64) (*collection, advice.Need) {
	t.Helper()
	c := newCollection(t)
	p := listedPlant(name)
	p.ID = c.book.NextID()
	out := today.Add(-time.Duration(days * 24 * float64(time.Hour)))
	c.enter(out.Add(-6*time.Hour), &model.Add{Plants: []model.Plant{p}})
	c.enter(out.Add(-5*time.Hour), &model.Soak{Load: c.book.NextLoad(), Vessel: "tub", Due: out}, p.ID)
	c.enter(out, &model.Out{Shaken: true, Inverted: true}, p.ID)
	c.enter(out, &model.Weigh{Grams: full, Wet: true}, p.ID)
	c.enter(out, &model.FoundDry{}, p.ID)
	c.enter(out, &model.Hung{}, p.ID)
	c.enter(today, &model.Weigh{Grams: grams}, p.ID)
	return c, c.need(p.ID)
}

// A plant that weighed 40 g full, a fifth of it dry matter, and weighs 22 g has lost 18 of 32 g of water, whatever was
// to be expected of it: 56 %. That is said to be far from what was expected, and what it may be.
func TestAScaleIsBelieved(t *testing.T) {
	for _, name := range []string{"T. ionantha", "T. stricta", "T. xerographica"} {
		for _, w := range []struct {
			grams, gone float64
			says        string
		}{
			{39, 0.03, ""}, {28, 0.375, "far lighter than expected"}, {22, 0.5625, "far lighter than expected"},
			{14, 0.8125, "far lighter than expected"},
		} {
			c, n := weighedAfter(t, name, 40, 7, w.grams)
			if math.Abs(n.Thirst()-w.gone) > 0.04 || w.gone < 1-n.High-0.02 || w.gone > 1-n.Low+0.02 {
				t.Errorf("%s, %v g: %.3f gone (%.3f to %.3f), the scale says %.3f", name, w.grams, n.Thirst(), 1-n.High,
					1-n.Low, w.gone)
			}
			if w.says == "" {
				continue
			}
			wantSays(t, c, n, w.says)
			if !n.LookFirst || n.Band < soak.Short {
				t.Errorf("%s, %v g: %v, look first %t", name, w.grams, n.Band, n.LookFirst)
			}
		}
	}
	for _, name := range []string{"T. ionantha", "T. stricta"} {
		c, n := weighedAfter(t, name, 40, 60, 39.5)
		if n.Thirst() > 0.06 {
			t.Errorf("%s, 39.5 g after two months: %.2f gone", name, n.Thirst())
		}
		wantSays(t, c, n, "far heavier than expected")
	}
}

// The lighter a plant is on the scale, the less water it has: never more.
func TestLighterNeverMeansWetter(t *testing.T) {
	names := listed()
	rapid.Check(t, func(rt *rapid.T) {
		name := rapid.SampledFrom(names).Draw(rt, "name")
		full, days := rapid.Float64Range(5, 300).Draw(rt, "full"), rapid.Float64Range(1, 60).Draw(rt, "days")
		heavy := rapid.Float64Range(0.1, 1.3).Draw(rt, "heavier")
		light := heavy * rapid.Float64Range(0.3, 1).Draw(rt, "lighter")
		_, a := weighedAfter(rt, name, full, days, full*heavy)
		_, b := weighedAfter(rt, name, full, days, full*light)
		if b.RWC > a.RWC+1e-3 {
			rt.Fatalf("%s after %.1f days: %.2f of its full weight is %.4f of its water, %.2f is %.4f", name, days, heavy,
				a.RWC, light, b.RWC)
		}
	})
}

// listedPlant is a plant of the list by its name.
func listedPlant(name string) model.Plant {
	e, _ := species.Find(name)
	return model.Plant{Name: name, Form: e.Form, Leaf: e.Leaf, Size: e.SizeCM, Count: 1}
}
