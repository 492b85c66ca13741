package belief_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tubside/model/belief"
)

func TestDecayIsTheExponentialAtEachPace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(0, 60).Draw(t, "x")
		var got [belief.Points]float64
		belief.Decay(x, &got)
		for i, m := range belief.Multipliers() {
			if want := math.Exp(-x * m); math.Abs(got[i]-want) > 1e-8 {
				t.Fatalf("at %.3f: %.15f, want %.15f", m, got[i], want)
			}
		}
	})
}

// Two steps are one whose spreads add as squares, away from the ends of the grid.
func TestStepsAddUp(t *testing.T) {
	once := belief.NewStep(0.5)
	a, b := belief.NewStep(0.3), belief.NewStep(0.4)
	first := a.MessageDown(unit(belief.Points / 2))
	twice, want := b.MessageDown(&first), once.MessageDown(unit(belief.Points/2))
	for i := range want {
		if math.Abs(twice[i]-want[i]) > 2e-3 {
			t.Errorf("point %d: %.5f in two steps, %.5f in one", i, twice[i], want[i])
		}
	}
}

// The message up asks what the one down would answer: the likelihood above is
// the mean of the likelihood below.
func TestAMessageUpIsTheMeanOfWhatLiesBelow(t *testing.T) {
	step := belief.NewStep(0.3)
	below := belief.LikelihoodOf(evidence(1.4, 0.2))
	above := step.MessageUp(&below)
	scale := 0.0
	for v := range above {
		spread := step.MessageDown(unit(v))
		mean := 0.0
		for u := range below {
			mean += spread[u] * below[u]
		}
		scale = max(scale, mean)
	}
	for v := range above {
		spread := step.MessageDown(unit(v))
		mean := 0.0
		for u := range below {
			mean += spread[u] * below[u]
		}
		if math.Abs(above[v]-mean/scale) > 1e-6 {
			t.Errorf("point %d: %.8f, want %.8f", v, above[v], mean/scale)
		}
	}
}

func TestBelowTurnsQuantileOfRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, m := belief.Prior(rapid.Float64Range(0.1, 0.6).Draw(t, "spread")), belief.Multipliers()
		s = s.Shifted(rapid.IntRange(-12, 12).Draw(t, "steps"))
		q := rapid.Float64Range(0.02, 0.98).Draw(t, "q")
		if got := s.Below(s.QuantileOf(&m, q)); math.Abs(got-q) > 1e-6 {
			t.Fatalf("below the %g quantile lies %g", q, got)
		}
	})
}

func TestShiftedMovesTheWholeBelief(t *testing.T) {
	s := belief.Prior(0.3)
	moved := s.Shifted(5)
	if got, want := mean(&moved), mean(&s)*math.Exp(5*belief.LogStep()); math.Abs(got/want-1) > 1e-6 {
		t.Errorf("mean %.5f, want %.5f", got, want)
	}
	said := &likely(evidence(1, 0.2))[0]
	there := said.Shifted(7)
	back := there.Shifted(-7)
	for i := 10; i < belief.Points-10; i++ {
		if back[i] != said[i] {
			t.Errorf("point %d: %g, want %g", i, back[i], said[i])
		}
	}
	if end := s.Shifted(100); math.Abs(end[belief.Points-1]-1) > 1e-9 {
		t.Errorf("past the end: %g at it", end[belief.Points-1])
	}
}

// Of a step with odd ones, what it comes to is the even and the far step by their shares.
func TestAnOddStepIsTwoSteps(t *testing.T) {
	from := unit(belief.Points / 2)
	near, far, both := belief.NewStep(0.3).MessageDown(from), belief.NewStep(0.8).MessageDown(from), belief.NewOddStep(0.3, 0.1, 0.8).MessageDown(from)
	for i, got := range both {
		if want := 0.9*near[i] + 0.1*far[i]; math.Abs(got-want) > 1e-12 {
			t.Errorf("point %d: %g, want %g", i, got, want)
		}
	}
}
