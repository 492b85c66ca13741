package belief_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tubside/model/belief"
)

// Variances of independent steps add up (textbook; from memory): where a belief has wandered it is as wide as a prior that was so
// from the beginning.
func TestWanderingWidensLikeANormalStep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		spread := rapid.Float64Range(0.15, 0.4).Draw(t, "spread")
		by := rapid.Float64Range(0, 0.4).Draw(t, "wanders")
		b, wide := belief.Prior(spread), belief.Prior(math.Hypot(spread, by))
		got, want := b.Shares(), wide.Shares()
		got.Wander(by)
		for _, q := range []float64{0.1, 0.3, 0.5, 0.9} {
			m := belief.Multipliers()
			if a, b := got.QuantileOf(&m, q), want.QuantileOf(&m, q); math.Abs(math.Log(a/b)) > 0.01 {
				t.Fatalf("quantile %g: %.4f, want %.4f", q, a, b)
			}
		}
	})
}

func TestWanderingLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBelief(t)
		s := b.Shares()
		s.Wander(rapid.Float64Range(0, 3).Draw(t, "wanders"))
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

// A pace that wandered for ages, or by no known spread, may be anything, or is what it was.
func TestTheEndsOfWandering(t *testing.T) {
	s := *unit(3)
	s.Wander(math.Inf(1))
	for i, share := range s {
		near(t, "share of the level grid", share*belief.Points, 1, 1e-3)
		if t.Failed() {
			t.Fatalf("at point %d", i)
		}
	}
	for _, spread := range []float64{0, math.NaN()} {
		if s = *unit(3); s[3] != 1 {
			t.Fatal("unit")
		}
		if s.Wander(spread); s[3] != 1 {
			t.Errorf("spread %v moved the belief", spread)
		}
	}
}
