package leaf_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tubside/model/leaf"
)

func drawTau(t *rapid.T) float64 { return rapid.Float64Range(0.3, 3).Draw(t, "tau") }

func TestSoakMinutesAndFillAreInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tau := drawTau(t)
		r0 := rapid.Float64Range(0, 0.9).Draw(t, "r0")
		target := rapid.Float64Range(r0, 0.99).Draw(t, "target")
		if got := leaf.Refilled(r0, leaf.MinutesTo(r0, target, tau), tau); math.Abs(got-target) > 1e-9 {
			t.Fatalf("soaked for %v, came to %v", target, got)
		}
		minutes := rapid.Float64Range(0, 600).Draw(t, "minutes")
		reached := leaf.Refilled(r0, minutes, tau)
		if back := leaf.MinutesTo(r0, reached, tau); 1-reached > 1e-4 && math.Abs(back-minutes) > 1e-6*(1+minutes) {
			t.Fatalf("%v minutes came back as %v", minutes, back)
		}
	})
}

func TestADrierPlantNeedsNoLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tau := drawTau(t)
		wetter := rapid.Float64Range(0, 1).Draw(t, "wetter")
		drier := rapid.Float64Range(0, wetter).Draw(t, "drier")
		target := rapid.Float64Range(0, 0.999).Draw(t, "target")
		minutes := rapid.Float64Range(0, 1000).Draw(t, "minutes")
		const hair = 1e-9
		if a, b := leaf.MinutesTo(drier, target, tau), leaf.MinutesTo(wetter, target, tau); a < b-hair {
			t.Fatalf("from %v %v minutes, from %v %v", drier, a, wetter, b)
		}
		a, b := leaf.Refilled(drier, minutes, tau), leaf.Refilled(wetter, minutes, tau)
		if a > b+hair || a < drier-hair || b > 1 {
			t.Fatalf("from %v to %v, from %v to %v", drier, a, wetter, b)
		}
		if longer := leaf.Refilled(drier, minutes+5, tau); longer < a {
			t.Fatalf("five minutes more took it from %v to %v", a, longer)
		}
	})
}

func TestSoakEnds(t *testing.T) {
	near(t, "already there", leaf.MinutesTo(0.96, 0.95, 1), 0, 0)
	near(t, "no time", leaf.Refilled(0.8, 0, 1), 0.8, 0)
	near(t, "less than no time", leaf.Refilled(0.8, -3, 1), 0.8, 0)
	near(t, "a full plant", leaf.Refilled(1, 30, 1), 1, 0)
	if got := leaf.MinutesTo(0.8, 1, 1); !math.IsInf(got, 1) {
		t.Errorf("minutes to quite full = %v, want endless", got)
	}
}

// A soak shared by many plants comes to what each alone would.
func TestASharedSoakIsEachPlantsOwn(t *testing.T) {
	for _, minutes := range []float64{0, 5, 45, 150, 720} {
		soak := leaf.NewSoak(minutes, leaf.TauDefault)
		for r0 := 0.0; r0 <= 1; r0 += 0.003 {
			rwc := []float64{r0}
			soak.Refill(rwc)
			near(t, "refilled", rwc[0], leaf.Refilled(r0, minutes, leaf.TauDefault), 2e-6)
		}
	}
}
