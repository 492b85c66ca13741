package belief_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tubside/model/belief"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s = %.6g, want %.6g within %g", what, got, want, within)
	}
}

func mean(m *belief.Mass) float64 {
	grid := belief.Multipliers()
	return m.MeanOf(&grid)
}

func TestGridRisesEvenlyInTheLogarithm(t *testing.T) {
	m := belief.Multipliers()
	near(t, "lowest", m[0], belief.Lowest, 1e-12)
	near(t, "middle", m[belief.Points/2], 1, 0)
	near(t, "highest", m[belief.Points-1], belief.Highest, 1e-12)
	step := m[1] / m[0]
	for i := 1; i < belief.Points; i++ {
		near(t, "step", m[i]/m[i-1], step, 1e-12)
	}
	m[0] = 99
	if belief.Multipliers()[0] == 99 {
		t.Error("a caller can change the grid of everybody else")
	}
}

// The mean exp(s^2/2) and the 10 % and 90 % points exp(-+1.281552 s) of a
// lognormal variable are textbook (from memory).
func TestPriorIsLognormal(t *testing.T) {
	for _, spread := range []float64{0.2, 0.3, 0.5} {
		b := belief.Prior(spread)
		low, high := b.Range(0.8)
		near(t, "mean", mean(&b), math.Exp(spread*spread/2), 2e-3)
		near(t, "10 % point", low*math.Exp(1.281552*spread), 1, 5e-3)
		near(t, "90 % point", high*math.Exp(-1.281552*spread), 1, 5e-3)
	}
}

func TestPriorsOfOddSpreads(t *testing.T) {
	level := belief.Prior(math.Inf(1))
	for i, p := range level {
		near(t, "an endless spread", p, 1.0/belief.Points, 1e-12)
		if t.Failed() {
			t.Fatalf("at point %d", i)
		}
	}
	for _, odd := range []float64{0, -1, math.NaN(), 1e-9} {
		if b := belief.Prior(odd); !(mean(&b) > 0.99 && mean(&b) < 1.01) {
			t.Errorf("spread %v: mean %v, want about 1", odd, mean(&b))
		}
	}
}

// A normal prior and a normal observation give a normal answer whose precisions
// add (textbook; from memory). Here in the logarithm.
func TestANormalLikelihoodIsConjugate(t *testing.T) {
	const prior, single, seen = 0.5, 0.3, 1.7
	b := belief.Prior(prior)
	b = b.ObserveLog(evidence(seen, single))
	precision := 1/(prior*prior) + 1/(single*single)
	centre := math.Log(seen) / (single * single) / precision
	near(t, "mean", mean(&b), math.Exp(centre+1/precision/2), 1e-4)
}

func TestImpossibleEvidenceChangesNothing(t *testing.T) {
	var nowhere, aboveOne, belowOne [belief.Points]float64
	for i, m := range belief.Multipliers() {
		nowhere[i] = math.Inf(-1)
		if m <= 1 {
			aboveOne[i] = math.Inf(-1)
		} else {
			belowOne[i] = math.Inf(-1)
		}
	}
	b := belief.Prior(0.5)
	if b = b.ObserveLog(&aboveOne); mean(&b) <= 1 {
		t.Fatal("half the grid should have been left")
	}
	for _, log := range []*[belief.Points]float64{&nowhere, &belowOne} {
		if after := b.ObserveLog(log); after != b {
			t.Error("impossible evidence changed the belief")
		}
	}
}

// Twenty contradicting sharp pieces of evidence must not wear the grid down to nothing.
func TestContradictionsAreSurvived(t *testing.T) {
	b := belief.Prior(0.5)
	for range 10 {
		b = b.ObserveLog(evidence(0.2, 0.05))
		b = b.ObserveLog(evidence(6, 0.05))
	}
	if m := mean(&b); !(m > 0.2 && m < 6) {
		t.Errorf("mean %v, want something between the two", m)
	}
}

func TestQuantileOfAFallingQuantity(t *testing.T) {
	b := belief.Prior(0.4)
	m := belief.Multipliers()
	var falling [belief.Points]float64
	for i, v := range m {
		falling[i] = -v
	}
	near(t, "10 % point", b.QuantileOf(&falling, 0.1), -b.QuantileOf(&m, 0.9), 1e-12)
}

// drawMass makes a prior and, mostly, some ragged evidence, so that what holds
// for it holds for more than bell curves.
func drawMass(t *rapid.T) belief.Mass {
	b := belief.Prior(rapid.Float64Range(0.02, 1.5).Draw(t, "spread"))
	b = b.Shifted(rapid.IntRange(-20, 20).Draw(t, "steps"))
	var ragged [belief.Points]float64
	for i := range ragged {
		ragged[i] = rapid.Float64Range(-5, 0).Draw(t, "ragged")
	}
	return b.ObserveLog(&ragged)
}

func TestRangesNest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawMass(t)
		var sum float64
		for _, p := range b {
			sum += p
		}
		if math.Abs(sum-1) > 1e-12 {
			t.Fatalf("the mass adds up to %v", sum)
		}
		narrow := rapid.Float64Range(0, 1).Draw(t, "narrow")
		wide := rapid.Float64Range(narrow, 1).Draw(t, "wide")
		l1, h1 := b.Range(wide)
		l2, h2 := b.Range(narrow)
		const hair = 1e-9
		if l1 < belief.Lowest-hair || l1 > l2+hair || l2 > h2+hair || h2 > h1+hair || h1 > belief.Highest+hair {
			t.Fatalf("ranges do not nest: %v %v inside %v %v", l2, h2, l1, h1)
		}
	})
}

// notLower says whether no mean and no quantile of b is under that of a, up to
// rounding. The 0 and 1 quantiles are left out: they are where probabilities
// under 1e-308 end.
func notLower(t *rapid.T, a, b *belief.Mass) {
	const hair = 1e-9
	if mean(b) < mean(a)-hair {
		t.Fatalf("mean fell from %v to %v", mean(a), mean(b))
	}
	m := belief.Multipliers()
	for _, q := range []float64{1e-6, 0.1, 0.5, 0.9, 1 - 1e-6} {
		if before, after := a.QuantileOf(&m, q), b.QuantileOf(&m, q); after < before-hair {
			t.Fatalf("quantile %v fell from %v to %v", q, before, after)
		}
	}
}

func TestEvidenceThatRisesNeverLowersTheMultiplier(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		before := drawMass(t)
		var rising [belief.Points]float64
		for i := 1; i < belief.Points; i++ {
			rising[i] = rising[i-1] + rapid.Float64Range(0, 2).Draw(t, "rise")
		}
		after := before.ObserveLog(&rising)
		notLower(t, &before, &after)
	})
}

func TestOrderOfEvidenceDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawMass(t)
		draw := func() *[belief.Points]float64 {
			return evidence(rapid.Float64Range(0.3, 3).Draw(t, "at"), rapid.Float64Range(0.1, 1).Draw(t, "spread"))
		}
		first, second := draw(), draw()
		b := a
		a = a.ObserveLog(first)
		a = a.ObserveLog(second)
		b = b.ObserveLog(second)
		b = b.ObserveLog(first)
		if math.Abs(mean(&a)-mean(&b)) > 1e-9 {
			t.Fatalf("means %v and %v", mean(&a), mean(&b))
		}
	})
}

func TestNothingIsAllocated(t *testing.T) {
	m := belief.Multipliers()
	seen := evidence(2, 0.3)
	got := testing.AllocsPerRun(10, func() {
		b := belief.Prior(0.5)
		b = b.ObserveLog(seen)
		b.Range(0.8)
		b.MeanOf(&m)
		b.QuantileOf(&m, 0.9)
	})
	if got != 0 {
		t.Errorf("%v allocations, want none", got)
	}
}

// The upper tail of the normal distribution, by the standard library's erfc,
// where that still has digits.
func TestLogLongerIsTheNormalTail(t *testing.T) {
	const spread = 0.034657 // half a step of the grid: ln 64 / 60 / 2
	var log [belief.Points]float64
	for _, multiple := range []float64{0.14, 0.8, 1, 2.5} {
		belief.LogLonger(multiple, &log)
		for i, m := range belief.Multipliers() {
			if want := math.Erfc(math.Log(multiple/m)/spread/math.Sqrt2) / 2; want > 1e-300 {
				near(t, "log likelihood", log[i], math.Log(want), 1e-4*(1+math.Abs(math.Log(want))))
			}
			if i > 0 && log[i] < log[i-1] {
				t.Errorf("longer than %g: falls from %g to %g at point %d", multiple, log[i-1], log[i], i)
			}
		}
	}
	belief.LogLonger(0, &log)
	if log != [belief.Points]float64{} {
		t.Error("everything takes longer than nothing")
	}
}

func BenchmarkMeanAndTwoQuantiles(bench *testing.B) {
	b := belief.Prior(0.5)
	m := belief.Multipliers()
	bench.ReportAllocs()
	for bench.Loop() {
		sink = b.MeanOf(&m) + b.QuantileOf(&m, 0.1) + b.QuantileOf(&m, 0.9)
	}
}

func BenchmarkObserve(bench *testing.B) {
	prior, seen := belief.Prior(0.5), evidence(1.2, 0.3)
	bench.ReportAllocs()
	for bench.Loop() {
		b := prior.ObserveLog(seen)
		sink = b[0]
	}
}

var sink float64
