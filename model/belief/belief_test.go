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

// The mean exp(s^2/2) and the 10 % and 90 % points exp(-+1.281552 s) of a lognormal variable are textbook (from memory).
func TestPriorIsLognormal(t *testing.T) {
	for _, spread := range []float64{0.2, 0.3, 0.5} {
		b := belief.Prior(spread)
		low, high := b.Range(0.8)
		near(t, "mean", b.Mean(), math.Exp(spread*spread/2), 2e-3)
		near(t, "10 % point", low*math.Exp(1.281552*spread), 1, 5e-3)
		near(t, "90 % point", high*math.Exp(-1.281552*spread), 1, 5e-3)
	}
}

func TestPriorAround(t *testing.T) {
	b := belief.PriorAround(2, 0.25)
	m := belief.Multipliers()
	near(t, "median", b.QuantileOf(&m, 0.5), 2, 0.005)
	if belief.Prior(math.Inf(1)) != (belief.Belief{}) {
		t.Error("an endless spread should know nothing")
	}
	for _, odd := range []float64{0, -1, math.NaN(), 1e-9} {
		if got := belief.PriorAround(1.03, odd).Mean(); !(got > 0.9 && got < 1.1) {
			t.Errorf("spread %v: mean %v, want about 1.03", odd, got)
		}
	}
	near(t, "centre above the grid", belief.PriorAround(1e6, 0.1).Mean(), belief.Highest, 0.8)
	near(t, "centre below the grid", belief.PriorAround(0, 0.1).Mean(), belief.Lowest, 0.02)
}

// A normal prior and a normal observation give a normal answer whose precisions add (textbook; from memory). Here in the logarithm.
func TestExactMarkIsConjugate(t *testing.T) {
	const prior, single, seen = 0.5, 0.3, 1.7
	b := belief.Prior(prior)
	var mark [belief.Points]float64
	belief.LogInterval(seen, seen, single, &mark)
	if !b.Weigh(&mark) {
		t.Fatal("the mark was refused")
	}
	precision := 1/(prior*prior) + 1/(single*single)
	centre := math.Log(seen) / (single * single) / precision
	near(t, "mean", b.Mean(), math.Exp(centre+1/precision/2), 1e-4)
}

func TestImpossibleEvidenceIsRefused(t *testing.T) {
	var nowhere, odd, endless, aboveOne, belowOne [belief.Points]float64
	for i, m := range belief.Multipliers() {
		nowhere[i] = math.Inf(-1)
		if m <= 1 {
			aboveOne[i] = math.Inf(-1)
		} else {
			belowOne[i] = math.Inf(-1)
		}
	}
	odd[50], endless[50] = math.NaN(), math.Inf(1)
	b := belief.Prior(0.5)
	if !b.Weigh(&aboveOne) || b.Mean() <= 1 {
		t.Fatal("half the grid should have been left")
	}
	for _, evidence := range []*[belief.Points]float64{&nowhere, &odd, &endless, &belowOne} {
		before := b
		if b.Weigh(evidence) {
			t.Error("impossible evidence was taken in")
		}
		if b != before {
			t.Error("refused evidence changed the belief")
		}
	}
}

// Twenty contradicting sharp marks must not wear the grid down to nothing.
func TestContradictionsAreSurvived(t *testing.T) {
	b := belief.Prior(0.5)
	var quick, slow [belief.Points]float64
	belief.LogInterval(0, 0.2, 0.05, &quick)
	belief.LogInterval(6, math.Inf(1), 0.05, &slow)
	for range 10 {
		if !b.Weigh(&quick) || !b.Weigh(&slow) {
			t.Fatal("a possible mark was refused")
		}
	}
	if m := b.Mean(); !(m > 0.2 && m < 6) {
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

func TestNothingIsAllocated(t *testing.T) {
	m := belief.Multipliers()
	var mark [belief.Points]float64
	got := testing.AllocsPerRun(10, func() {
		b := belief.Prior(0.5)
		belief.LogInterval(1, 2, 0.3, &mark)
		b.Weigh(&mark)
		b.Mean()
		b.Range(0.8)
		b.MeanOf(&m)
		b.QuantileOf(&m, 0.9)
	})
	if got != 0 {
		t.Errorf("%v allocations, want none", got)
	}
}

func TestSharesProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBelief(t)
		s := b.Shares()
		var sum float64
		for _, share := range s {
			sum += share
		}
		if math.Abs(sum-1) > 1e-12 {
			t.Fatalf("shares add up to %v", sum)
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
