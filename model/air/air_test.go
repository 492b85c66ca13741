package air_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tubside/model/air"
)

// anyAir draws air that Valid accepts, from a parched cold room to a steamy hot one.
func anyAir(t *rapid.T) air.Air {
	return air.Air{
		TempC:    rapid.Float64Range(air.MinTempC, air.MaxTempC).Draw(t, "degC"),
		RH:       rapid.Float64Range(0.01, 1).Draw(t, "RH"),
		Pressure: rapid.Float64Range(air.MinPressure, air.MaxPressure).Draw(t, "Pa"),
	}
}

func TestWetBulbLiesBetweenDewPointAndAir(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAir(t)
		dew, bulb := a.DewPoint(), a.WetBulb()
		if dew > bulb+1e-6 || bulb > a.TempC+1e-6 {
			t.Fatalf("dew point %v, wet bulb %v, air %v: out of order", dew, bulb, a.TempC)
		}
	})
}

func TestDrierAirIsThirstierAndItsBulbColder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAir(t)
		drier := a
		drier.RH = a.RH * rapid.Float64Range(0.2, 0.99).Draw(t, "share")
		if drier.Deficit() <= a.Deficit() || drier.DewPoint() >= a.DewPoint() || drier.WetBulb() >= a.WetBulb() {
			t.Fatalf("drier air %+v is not thirstier than %+v", drier, a)
		}
	})
}

func TestDewPointIsWhereTheVapourSaturates(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAir(t)
		if got := air.Saturation(a.DewPoint()); math.Abs(got/a.Vapour()-1) > 1e-9 {
			t.Fatalf("saturation at the dew point %v Pa, vapour %v Pa", got, a.Vapour())
		}
	})
}

func TestVapourDensityAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAir(t)
		back := a.WithVapourDensity(a.VapourDensity())
		if math.Abs(back.RH-a.RH) > 1e-12 || back.TempC != a.TempC || back.Pressure != a.Pressure {
			t.Fatalf("%+v came back as %+v", a, back)
		}
	})
}

func TestVapourAndDeficitMakeSaturation(t *testing.T) {
	a := air.Air{TempC: 21, RH: 0.37}
	if got, want := a.Vapour()+a.Deficit(), air.Saturation(21); math.Abs(got-want) > 1e-9 {
		t.Errorf("vapour and deficit make %v Pa, saturation is %v", got, want)
	}
}

func TestDampCornerCases(t *testing.T) {
	full := air.Air{TempC: 18, RH: 1}
	if full.Deficit() != 0 || math.Abs(full.DewPoint()-18) > 1e-6 || math.Abs(full.WetBulb()-18) > 1e-6 {
		t.Errorf("at 100 %% the deficit is %v, dew point %v, wet bulb %v", full.Deficit(), full.DewPoint(),
			full.WetBulb())
	}
	if got := (air.Air{TempC: 18}).DewPoint(); !math.IsInf(got, -1) {
		t.Errorf("air without vapour has a dew point of %v", got)
	}
	if got := (air.Air{TempC: 18, RH: 0.5}).Pa(); got != air.StandardPressure {
		t.Errorf("unset pressure is %v", got)
	}
}

func TestValidNamesTheReading(t *testing.T) {
	for _, c := range []struct {
		name string
		air  air.Air
		want string // "" where the air is fine
	}{
		{"a winter room", air.Air{TempC: 20, RH: 0.28}, ""},
		{"steam", air.Air{TempC: 20, RH: 1}, ""},
		{"in the mountains", air.Air{TempC: 20, RH: 0.4, Pressure: air.PressureAt(2000)}, ""},
		{"degrees Fahrenheit typed as Celsius", air.Air{TempC: 68, RH: 0.4}, "temperature 68"},
		{"percent typed as a share", air.Air{TempC: 20, RH: 40}, "humidity 4000 %"},
		{"no vapour at all", air.Air{TempC: 20}, "humidity 0 %"},
		{"hectopascal", air.Air{TempC: 20, RH: 0.4, Pressure: 1013}, "pressure 1013 Pa"},
		{"not a number", air.Air{TempC: math.NaN(), RH: 0.4}, "temperature NaN"},
		{"humidity not a number", air.Air{TempC: 20, RH: math.NaN()}, "humidity NaN"},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := c.air.Valid()
			if (err == nil) != (c.want == "") {
				t.Fatalf("Valid() = %v", err)
			}
			if err != nil && !strings.Contains(err.Error(), c.want) {
				t.Errorf("%q does not say %q", err, c.want)
			}
		})
	}
}

func TestFahrenheit(t *testing.T) {
	for f, c := range map[float64]float64{32: 0, 68: 20, 212: 100, -40: -40} {
		if math.Abs(air.Celsius(f)-c) > 1e-9 || math.Abs(air.Fahrenheit(c)-f) > 1e-9 {
			t.Errorf("%v °F is %v °C, %v °C is %v °F", f, air.Celsius(f), c, air.Fahrenheit(c))
		}
	}
}

func BenchmarkWetBulb(b *testing.B) {
	a := air.Air{TempC: 20, RH: 0.4}
	for b.Loop() {
		a.WetBulb()
	}
}
