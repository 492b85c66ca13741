package belief_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tubside/model/belief"
)

// Variances of independent steps add up (textbook; from memory): after a random
// walk a belief is as wide as a prior that was so from the beginning.
func TestARandomWalkWidensLikeANormalStep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		spread := rapid.Float64Range(0.15, 0.4).Draw(t, "spread")
		by := rapid.Float64Range(0, 0.4).Draw(t, "walk")
		walked, want := belief.Likelihood(belief.Prior(spread)), belief.Prior(math.Hypot(spread, by))
		walked.RandomWalk(by)
		got := belief.Mass(walked)
		for _, q := range []float64{0.1, 0.3, 0.5, 0.9} {
			m := belief.Multipliers()
			if a, b := got.QuantileOf(&m, q), want.QuantileOf(&m, q); math.Abs(math.Log(a/b)) > 0.01 {
				t.Fatalf("quantile %g: %.4f, want %.4f", q, a, b)
			}
		}
	})
}

func TestARandomWalkLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := belief.Likelihood(drawMass(t))
		s.RandomWalk(rapid.Float64Range(0, 3).Draw(t, "walk"))
		sum := 0.0
		for _, share := range s {
			if !(share >= 0) {
				t.Fatalf("a share of %g", share)
			}
			sum += share
		}
		if math.Abs(sum-1) > 1e-9 {
			t.Fatalf("shares add up to %g", sum)
		}
	})
}

// A multiplier that walked for ages, or by no known spread, may be anything, or is what it was.
func TestTheEndsOfARandomWalk(t *testing.T) {
	s := belief.Likelihood(*unit(3))
	s.RandomWalk(math.Inf(1))
	for i, share := range s {
		near(t, "share of the level grid", share*belief.Points, 1, 1e-3)
		if t.Failed() {
			t.Fatalf("at point %d", i)
		}
	}
	for _, spread := range []float64{0, math.NaN()} {
		if s = belief.Likelihood(*unit(3)); s[3] != 1 {
			t.Fatal("unit")
		}
		if s.RandomWalk(spread); s[3] != 1 {
			t.Errorf("spread %v moved the belief", spread)
		}
	}
}
