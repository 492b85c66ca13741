package leaf_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tubside/model/leaf"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s = %.6g, want %.6g within %g", what, got, want, within)
	}
}

// 100 g full, 20 g of it dry matter: at half its water it weighs 60 g.
func TestMassOfAPlant(t *testing.T) {
	near(t, "mass share at half the water", leaf.MassShare(0.5), 0.60, 1e-12)
	near(t, "mass share when full", leaf.MassShare(1), 1, 1e-12)
	near(t, "mass share over full", leaf.MassShare(1.2), 1, 1e-12)
	near(t, "water of a plant at 60 %", leaf.RWCFromMassShare(0.60), 0.5, 1e-12)
	near(t, "water of a plant under its dry matter", leaf.RWCFromMassShare(0.1), 0, 0)
	rwc, err := leaf.RWC(60, 20, 100)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "relative water content", rwc, 0.5, 1e-12)
	rwc, err = leaf.RWC(104, 20, 100)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "with a wet film", rwc, 1.05, 1e-12)
}

func TestMassesThatCannotBe(t *testing.T) {
	nan := math.NaN()
	for _, m := range [][3]float64{{60, 100, 100}, {100, 100, 100}, {60, 120, 100}, {10, 20, 100}, {60, -1, 100},
		{nan, 20, 100}, {60, nan, 100}, {60, 20, nan}} {
		if got, err := leaf.RWC(m[0], m[1], m[2]); err == nil {
			t.Errorf("fresh %v dry %v full %v: %v, want an error", m[0], m[1], m[2], got)
		}
	}
}

func TestMassShareBothWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rwc := rapid.Float64Range(0, 1).Draw(t, "rwc")
		if got := leaf.RWCFromMassShare(leaf.MassShare(rwc)); math.Abs(got-rwc) > 1e-12 {
			t.Fatalf("%v came back as %v", rwc, got)
		}
	})
}
