package leaf_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tubside/model/belief"
	"tubside/model/leaf"
)

func TestDoseOfOneSpan(t *testing.T) {
	near(t, "ten days of the reference air", leaf.Dose(0, 10, leaf.ReferenceKPa), 10, 1e-12)
	near(t, "a late day is a day", leaf.Dose(60, 61, leaf.ReferenceKPa), 1, 1e-12)
}

// The night part stays as it is above some deficit, and air that takes nothing by day takes nothing by night.
func TestDrierNightsTakeNoMore(t *testing.T) {
	byDay := func(kPa float64) float64 { return leaf.LostMM(kPa) - leaf.NightLoss }
	near(t, "twice the deficit, twice the day", byDay(2), 2*byDay(1), 1e-12)
	near(t, "damp air", leaf.Draw(1e-6), 0, 1e-5)
	if damp, dry := leaf.Draw(0.87), leaf.Draw(1.87); !(dry/damp > 1.3 && dry/damp < 1.87/0.87) {
		t.Errorf("65 %% takes %.2f of a day, 25 %% %.2f", damp, dry)
	}
}

// dR/dt = -k A R, times R/SlowBelow under SlowBelow, stepped by the fourth-order Runge-Kutta rule: the closed form is
// its integral.
func TestLossIsTheIntegral(t *testing.T) {
	for _, c := range []struct{ from, k float64 }{{1, 0.03}, {0.5, 0.02}, {0.3, 0.01}, {1, 0.004}} {
		slope := func(r float64) float64 { return -c.k * r * min(r/leaf.SlowBelow, 1) }
		const h = 0.01
		r := c.from
		for range 12000 {
			k1 := slope(r)
			k2 := slope(r + h/2*k1)
			k3 := slope(r + h/2*k2)
			k4 := slope(r + h*k3)
			r += h / 6 * (k1 + 2*k2 + 2*k3 + k4)
		}
		near(t, "RWC after 120 d", leaf.Remaining(c.from, c.k, leaf.Dose(0, 120, leaf.ReferenceKPa)), r, 1e-6)
	}
}

// Many paces at once come to what each alone would.
func TestLeftOfEach(t *testing.T) {
	rwc, share := []float64{1, 1, 0.6, 0.3, 0.3, 0}, []float64{0.9, 0.2, 0.5, 0.5, 1, 0.5}
	want := make([]float64, len(rwc))
	for i := range rwc {
		want[i] = leaf.Left(rwc[i], share[i])
	}
	leaf.LeftOfEach(rwc, share)
	for i := range want {
		near(t, "left", share[i], want[i], 0)
	}
}

func TestDoseOfNothing(t *testing.T) {
	nan := math.NaN()
	for _, d := range [][3]float64{{3, 3, 1}, {4, 3, 1}, {0, 7, 0}, {0, 7, -0.2}, {-5, -1, 1}, {0, nan, 1},
		{nan, 1, 1}, {0, 1, nan}} {
		if got := leaf.Dose(d[0], d[1], d[2]); got != 0 {
			t.Errorf("days %v to %v at %v kPa: %v, want 0", d[0], d[1], d[2], got)
		}
	}
	near(t, "from before it was dry", leaf.Dose(-2, 3, 1), leaf.Dose(0, 3, 1), 0)
}

func TestDosesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		days := rapid.Float64Range(0, 60)
		air := rapid.Float64Range(0, 4).Draw(t, "deficit")
		a := days.Draw(t, "from")
		b := a + days.Draw(t, "first")
		c := b + days.Draw(t, "second")
		parts, whole := leaf.Dose(a, b, air)+leaf.Dose(b, c, air), leaf.Dose(a, c, air)
		if math.Abs(parts-whole) > 1e-12*(1+whole) {
			t.Fatalf("%v in two parts, %v in one", parts, whole)
		}
		k := rapid.Float64Range(0.001, 0.05).Draw(t, "k")
		stepped := leaf.Remaining(leaf.Remaining(0.9, k, leaf.Dose(a, b, air)), k, leaf.Dose(b, c, air))
		if got := leaf.Remaining(0.9, k, whole); math.Abs(got-stepped) > 1e-9 {
			t.Fatalf("%v left after two spans, %v after one", stepped, got)
		}
	})
}

func TestDrierAirFasterRateAndMoreDaysTakeMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rwc := rapid.Float64Range(0.2, 1).Draw(t, "rwc")
		k := rapid.Float64Range(0.005, 0.04).Draw(t, "k")
		air := rapid.Float64Range(0.3, 3).Draw(t, "deficit")
		days := rapid.Float64Range(1, 40).Draw(t, "days")
		left := leaf.Remaining(rwc, k, leaf.Dose(0, days, air))
		for _, less := range []float64{
			leaf.Remaining(rwc, k*1.1, leaf.Dose(0, days, air)),
			leaf.Remaining(rwc, k, leaf.Dose(0, days, air*1.1)),
			leaf.Remaining(rwc, k, leaf.Dose(0, days*1.1, air)),
			leaf.Remaining(rwc*0.99, k, leaf.Dose(0, days, air)),
		} {
			if !(less < left && less > 0) {
				t.Fatalf("%v left, not less than %v", less, left)
			}
		}
	})
}

func TestRemainingKeepsToTheShareOfWater(t *testing.T) {
	near(t, "more than full", leaf.Remaining(1.3, 0.01, 0), 1, 0)
	near(t, "less than nothing", leaf.Remaining(-0.1, 0.01, 5), 0, 0)
	near(t, "a dose cannot give water", leaf.Remaining(0.8, 0.01, -5), 0.8, 0)
}

func TestSizeFactor(t *testing.T) {
	near(t, "a 15 cm plant", leaf.SizeFactor(15), 1, 1e-12)
	near(t, "unknown", leaf.SizeFactor(0), 1, 0)
	near(t, "not a number", leaf.SizeFactor(math.NaN()), 1, 0)
	near(t, "a seedling of 1 cm counts as 3", leaf.SizeFactor(1), math.Pow(3.0/15, -0.3), 1e-12)
	near(t, "2 m of moss counts as 60 cm", leaf.SizeFactor(200), math.Pow(60.0/15, -0.3), 1e-12)
	if !(leaf.SizeFactor(9) > leaf.SizeFactor(35)) {
		t.Error("a small plant should lose faster")
	}
}

// What an outlook does for each plant: water left at every pace, its mean and two quantiles.
func waterLeft(b *belief.Mass, paces *[belief.Points]float64, rwc, k, dose float64) float64 {
	var left [belief.Points]float64
	for i, pace := range paces {
		left[i] = leaf.Remaining(rwc, k*pace, dose)
	}
	return b.MeanOf(&left) + b.QuantileOf(&left, 0.1) + b.QuantileOf(&left, 0.9)
}

func TestOutlookOfAPlantAllocatesNothing(t *testing.T) {
	b, paces := belief.Prior(0.5), belief.Multipliers()
	seen := leaf.Signs{Curl: 1, Tips: 0, Shift: 2}
	got := testing.AllocsPerRun(10, func() {
		b := b
		waterLeft(&b, &paces, 0.95, leaf.KMesic, leaf.Dose(0, 7, 1.4))
		look(&b, &paces, seen)
		leaf.Refilled(0.7, 40, leaf.TauDefault)
		leaf.MinutesTo(0.7, 0.95, leaf.TauDefault)
	})
	if got != 0 {
		t.Errorf("%v allocations, want none", got)
	}
}

func BenchmarkPlantLossMeanQuantiles(bench *testing.B) {
	b, paces := belief.Prior(0.5), belief.Multipliers()
	bench.ReportAllocs()
	for bench.Loop() {
		sink = waterLeft(&b, &paces, 0.95, leaf.KMesic, leaf.Dose(0, 7, 1.4))
	}
}

var sink float64
