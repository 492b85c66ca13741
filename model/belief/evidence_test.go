package belief_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tubside/model/belief"
)

// drawBelief makes a prior and, mostly, some ragged evidence, so that what holds for it holds for more than bell curves.
func drawBelief(t *rapid.T) belief.Belief {
	b := belief.PriorAround(
		rapid.Float64Range(0.2, 5).Draw(t, "centre"),
		rapid.Float64Range(0.02, 1.5).Draw(t, "spread"))
	var ragged [belief.Points]float64
	for i := range ragged {
		ragged[i] = rapid.Float64Range(-5, 0).Draw(t, "ragged")
	}
	b.Weigh(&ragged)
	return b
}

func drawInterval(t *rapid.T) (low, high, spread float64) {
	low = rapid.Float64Range(0.05, 10).Draw(t, "low")
	high = low * rapid.Float64Range(1, 20).Draw(t, "times")
	switch rapid.IntRange(0, 3).Draw(t, "open end") {
	case 0:
		low = 0
	case 1:
		high = math.Inf(1)
	}
	return low, high, rapid.Float64Range(0.04, 1).Draw(t, "single")
}

// notLower says whether no mean and no quantile of b is under that of a, up to rounding.
func notLower(t *rapid.T, a, b belief.Belief) {
	const hair = 1e-9
	if b.Mean() < a.Mean()-hair {
		t.Fatalf("mean fell from %v to %v", a.Mean(), b.Mean())
	}
	m := belief.Multipliers()
	for _, q := range []float64{0, 0.1, 0.5, 0.9, 1} {
		if before, after := a.QuantileOf(&m, q), b.QuantileOf(&m, q); after < before-hair {
			t.Fatalf("quantile %v fell from %v to %v", q, before, after)
		}
	}
}

func TestLaterMarksNeverLowerThePace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		early := drawBelief(t)
		late := early
		low, high, spread := drawInterval(t)
		later := rapid.Float64Range(1, 4).Draw(t, "later")
		var mark [belief.Points]float64
		belief.LogInterval(low, high, spread, &mark)
		ok1 := early.Weigh(&mark)
		belief.LogInterval(low*later, high*later, spread, &mark)
		ok2 := late.Weigh(&mark)
		if !ok1 || !ok2 {
			t.Fatal("a possible mark was refused")
		}
		notLower(t, early, late)
	})
}

func TestEvidenceThatRisesNeverLowersThePace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		before := drawBelief(t)
		after := before
		var rising [belief.Points]float64
		for i := 1; i < belief.Points; i++ {
			rising[i] = rising[i-1] + rapid.Float64Range(0, 2).Draw(t, "rise")
		}
		after.Weigh(&rising)
		notLower(t, before, after)
	})
}

func TestOrderOfEvidenceDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawBelief(t)
		b := a
		var first, second [belief.Points]float64
		low, high, spread := drawInterval(t)
		belief.LogInterval(low, high, spread, &first)
		low, high, spread = drawInterval(t)
		belief.LogInterval(low, high, spread, &second)
		a.Weigh(&first)
		a.Weigh(&second)
		b.Weigh(&second)
		b.Weigh(&first)
		if math.Abs(a.Mean()-b.Mean()) > 1e-9 {
			t.Fatalf("means %v and %v", a.Mean(), b.Mean())
		}
	})
}

// Checked against the normal distribution from the standard library's erfc, where that still has digits.
func TestLogIntervalIsTheNormalDistribution(t *testing.T) {
	below := func(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
	const spread = 0.2
	var mark [belief.Points]float64
	for _, ends := range [][2]float64{{0.8, 1.3}, {0, 1}, {2, 3}, {0, 0.14}} {
		belief.LogInterval(ends[0], ends[1], spread, &mark)
		for i, m := range belief.Multipliers() {
			a, b := math.Log(ends[0]/m)/spread, math.Log(ends[1]/m)/spread
			if a > 0 {
				a, b = -b, -a
			}
			if want := below(b) - below(a); want > 1e-300 {
				near(t, "log likelihood", mark[i], math.Log(want), 1e-8*(1+math.Abs(math.Log(want))))
			}
		}
	}
}

func TestLogIntervalEnds(t *testing.T) {
	for _, ends := range [][2]float64{{2, 1}, {-1, 1}, {math.NaN(), 1}, {1, math.NaN()}, {0, 0}, {math.Inf(1), math.Inf(1)}} {
		b := belief.Prior(0.5)
		var mark [belief.Points]float64
		belief.LogInterval(ends[0], ends[1], 0.3, &mark)
		for i, l := range mark {
			if !math.IsInf(l, -1) {
				t.Errorf("ends %v: log likelihood %v at point %d, want impossible", ends, l, i)
			}
		}
		if b.Weigh(&mark) {
			t.Errorf("ends %v were taken in", ends)
		}
	}
	b := belief.Prior(0.5)
	var mark [belief.Points]float64
	belief.LogInterval(0, math.Inf(1), 0.3, &mark)
	if !b.Weigh(&mark) {
		t.Fatal("open ends were refused")
	}
	near(t, "mean after open ends", b.Mean(), belief.Prior(0.5).Mean(), 1e-12)
}

// A narrow interval and a single point say the same: the mean of the conjugate answer for 2 +- 0.3 on a prior of 1 +- 0.5.
func TestNarrowIntervalComesToAPoint(t *testing.T) {
	const precision = 1/(0.5*0.5) + 1/(0.3*0.3)
	want := math.Exp(math.Log(2)/(0.3*0.3)/precision + 1/precision/2)
	for _, width := range []float64{1e-3, 3e-7, 1e-9, 0} {
		b := belief.Prior(0.5)
		var mark [belief.Points]float64
		belief.LogInterval(2, 2*(1+width), 0.3, &mark)
		b.Weigh(&mark)
		near(t, "mean", b.Mean(), want, 0.001)
	}
}

func BenchmarkSharesMeanTwoQuantiles(bench *testing.B) {
	b := belief.Prior(0.5)
	m := belief.Multipliers()
	bench.ReportAllocs()
	for bench.Loop() {
		s := b.Shares()
		sink = s.MeanOf(&m) + s.QuantileOf(&m, 0.1) + s.QuantileOf(&m, 0.9)
	}
}

func BenchmarkMark(bench *testing.B) {
	prior := belief.Prior(0.5)
	var mark [belief.Points]float64
	bench.ReportAllocs()
	for bench.Loop() {
		b := prior
		belief.LogInterval(0.8, 1.4, 0.3, &mark)
		b.Weigh(&mark)
	}
}

var sink float64
