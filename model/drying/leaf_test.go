package drying_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tubside/model/air"
	"tubside/model/drying"
)

// homeAir draws air a home may have, short of saturation.
func homeAir(t *rapid.T) air.Air {
	return air.Air{
		TempC: rapid.Float64Range(8, 35).Draw(t, "degC"),
		RH:    rapid.Float64Range(0.1, 0.95).Draw(t, "RH"),
	}
}

func homeStream(t *rapid.T) drying.Stream {
	return drying.Stream{Air: homeAir(t), Speed: rapid.Float64Range(0, 4).Draw(t, "m/s")}
}

func anyLeaf(t *rapid.T) drying.Leaf {
	return drying.Leaf{
		WidthM:    rapid.Float64Range(0.002, 0.1).Draw(t, "width"),
		Shelter:   rapid.Float64Range(0.1, 1).Draw(t, "shelter"),
		WetFaces:  rapid.IntRange(1, 2).Draw(t, "wet faces"),
		HeatFaces: rapid.IntRange(1, 2).Draw(t, "heat faces"),
	}
}

func TestShadedLeafStandsBetweenDewPointAndAir(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, leaf := homeStream(t), anyLeaf(t)
		w := leaf.In(s)
		if w.TempC <= s.Air.DewPoint() || w.TempC >= s.Air.TempC || w.Evaporation <= 0 {
			t.Fatalf("%+v in %+v: %+v", leaf, s, w)
		}
	})
}

// The heat balance is summed here anew from what In returns, per face and in W/m2.
func TestLeafHeatBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, leaf := homeStream(t), anyLeaf(t)
		leaf.Absorbed = rapid.Float64Range(0, 800).Draw(t, "light")
		w := leaf.In(s)
		radiated := 0.96 * 5.67e-8 * (math.Pow(w.TempC+273.15, 4) - math.Pow(s.Air.TempC+273.15, 4))
		perFace := w.Conductance.Heat*29.3*(w.TempC-s.Air.TempC) + leaf.Shelter*radiated
		left := 2.45e6*w.Evaporation + float64(leaf.HeatFaces)*perFace - leaf.Absorbed
		if math.Abs(left) > 0.05 {
			t.Fatalf("%v W/m2 left over for %+v in %+v", left, leaf, s)
		}
	})
}

func TestDrierOrFasterAirTakesMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, leaf := homeStream(t), anyLeaf(t)
		now := leaf.In(s)
		drier, faster := s, s
		drier.Air.RH *= rapid.Float64Range(0.3, 0.98).Draw(t, "drier")
		faster.Speed = math.Max(s.Speed, 0.05) * rapid.Float64Range(1.02, 3).Draw(t, "faster")
		if d := leaf.In(drier); d.Evaporation <= now.Evaporation || d.TempC >= now.TempC {
			t.Fatalf("drier air: %+v, before %+v", d, now)
		}
		if f := leaf.In(faster); f.Evaporation <= now.Evaporation {
			t.Fatalf("faster air: %+v, before %+v", f, now)
		}
	})
}

func TestShelterSlowsButDoesNotCool(t *testing.T) {
	s := drying.Stream{Air: air.Air{TempC: 20, RH: 0.4}, Speed: drying.Low}
	alone := drying.Leaf{WidthM: 0.01, Shelter: 1, WetFaces: 1, HeatFaces: 1}
	crowded := alone
	crowded.Shelter = 0.5
	a, c := alone.In(s), crowded.In(s)
	if math.Abs(a.TempC-c.TempC) > 1e-3 || math.Abs(c.Evaporation/a.Evaporation-0.5) > 1e-3 {
		t.Errorf("alone %+v, crowded %+v", a, c)
	}
}

func TestSaturatedAirTakesNothing(t *testing.T) {
	s := drying.Stream{Air: air.Air{TempC: 20, RH: 1}, Speed: drying.On}
	w := drying.Leaf{WidthM: 0.01, Shelter: 1, WetFaces: 2, HeatFaces: 2}.In(s)
	if math.Abs(w.TempC-20) > 1e-6 || math.Abs(w.GramsPerHour()) > 1e-6 {
		t.Errorf("in saturated air %+v", w)
	}
	if hours := drying.Typical().Dry(s, drying.Handling{Shaken: true}).Hours(); hours < 1e6 {
		t.Errorf("dry after %v h in saturated air", hours)
	}
}

func TestLightWarmsAndDries(t *testing.T) {
	s := drying.Stream{Air: air.Air{TempC: 22, RH: 0.5}, Speed: drying.Low}
	leaf := drying.Leaf{WidthM: 0.01, Shelter: 1, WetFaces: 1, HeatFaces: 2}
	shade := leaf.In(s)
	leaf.Absorbed = 900
	if sun := leaf.In(s); sun.TempC <= s.Air.TempC || sun.Evaporation <= 2*shade.Evaporation {
		t.Errorf("sun %+v, shade %+v", sun, shade)
	}
}

func TestValidNamesTheField(t *testing.T) {
	leaf := drying.Leaf{WidthM: 0.01, Shelter: 1, WetFaces: 1, HeatFaces: 2}
	room := air.Air{TempC: 20, RH: 0.4}
	plant := drying.Typical()
	for _, c := range []struct {
		want  string
		valid interface{ Valid() error }
	}{
		{"", leaf},
		{"", drying.Stream{Air: room, Speed: drying.Near}},
		{"", plant},
		{"", drying.OpenRosette()},
		{"", drying.Fuzzy()},
		{"", drying.Bulbous()},
		{"leaf width 10 m", drying.Leaf{WidthM: 10, Shelter: 1, WetFaces: 1, HeatFaces: 1}},
		{"shelter 0", drying.Leaf{WidthM: 0.01, WetFaces: 1, HeatFaces: 1}},
		{"3 wet", drying.Leaf{WidthM: 0.01, Shelter: 1, WetFaces: 3, HeatFaces: 1}},
		{"light NaN", drying.Leaf{WidthM: 0.01, Shelter: 1, WetFaces: 1, HeatFaces: 1, Absorbed: math.NaN()}},
		{"air speed 50", drying.Stream{Air: room, Speed: 50}},
		{"humidity 4000", drying.Stream{Air: air.Air{TempC: 20, RH: 40}}},
		{"film 15 mm", with(plant, func(p *drying.Plant) { p.FilmMM = 15 })},
		{"film power 1", with(plant, func(p *drying.Plant) { p.FilmPower = 1 })},
		{"pocket -1 mm", with(plant, func(p *drying.Plant) { p.PocketMM = -1 })},
		{"-2 g", with(plant, func(p *drying.Plant) { p.PocketG = -2 })},
		{"pace -1", with(plant, func(p *drying.Plant) { p.Pace = -1 })},
		{"leaf width 0", with(plant, func(p *drying.Plant) { p.LeafWidthM = 0 })},
	} {
		err := c.valid.Valid()
		if (err == nil) != (c.want == "") || err != nil && !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: %v, want %q", c.valid, err, c.want)
		}
	}
}

func with(p drying.Plant, change func(*drying.Plant)) drying.Plant {
	change(&p)
	return p
}
