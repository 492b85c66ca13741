package leaf_test

import (
	"testing"

	"tubside/model/leaf"
)

// Full refill raises the fresh mass of a plant at RWC 0.65 to 0.70 by 32 to 39 %, dry matter a fifth: Ohrui et al.
// 2007 have 30 to 40 % in three hours. So a plant that weighs 1/1.35 of its wet weight stands between those two.
func TestAWeightSpeaksForTheWaterThatMakesIt(t *testing.T) {
	best, at := -1e9, 0.0
	for rwc := 0.3; rwc <= 1; rwc += 0.01 {
		if l := leaf.LogWeight(1/1.35, rwc, 1, 7, 0); l > best {
			best, at = l, rwc
		}
	}
	if at < 0.65 || at > 0.70 {
		t.Errorf("a weight of 1/1.35 speaks most for RWC %.2f", at)
	}
}

func TestAnOldWetWeightSaysLess(t *testing.T) {
	fresh := leaf.LogWeight(0.75, 0.6, 1, 1, 0)
	old := leaf.LogWeight(0.75, 0.6, 1, 400, 0)
	if !(fresh < old && old < 0) {
		t.Errorf("a weight off by much: %.2f after a day, %.2f after a year", fresh, old)
	}
}

// A scale that shows whole grams says little of a plant of ten.
func TestACoarseScaleSaysLess(t *testing.T) {
	fine := leaf.LogWeight(0.75, 0.6, 1, 1, 0.1/10.0)
	coarse := leaf.LogWeight(0.75, 0.6, 1, 1, 1/10.0)
	if !(fine < coarse && coarse < 0) {
		t.Errorf("a weight off by much: %.2f on a fine scale, %.2f on a coarse one", fine, coarse)
	}
}

// A mistyped weight can be outweighed: of two plants that stand 0.9 full, one weighed ten times too heavy goes on
// being believed by its other weights.
func TestAMistypedWeightIsOutweighed(t *testing.T) {
	said := func(rwc float64) float64 {
		return leaf.LogWeight(10, rwc, 1, 1, 0) + leaf.LogWeight(leaf.MassShare(0.9), rwc, 1, 3, 0) +
			leaf.LogWeight(leaf.MassShare(0.9), rwc, 1, 4, 0)
	}
	if right, wrong := said(0.9), said(1); right < wrong+5 {
		t.Errorf("%.1f for what it weighs, %.1f for as full as can be", right, wrong)
	}
}

// A weight that fits nothing tells of the water alone: 22 g of a plant that weighed 40 g full is 0.44 of its water.
func TestAWeightAloneTellsOfTheWater(t *testing.T) {
	s := leaf.NewScale(7, 0.1/40)
	rwc, spread := s.Says(22.0/40, 1)
	near(t, "water", rwc, 0.4375, 1e-9)
	if spread < 0.02 || spread > 0.06 {
		t.Errorf("known to within %.3f", spread)
	}
	if fits := s.Fits(22.0/40, 0.93, 1); fits > s.Unforeseen()/100 {
		t.Errorf("as likely as %g of a plant at 0.93, %g of any", fits, s.Unforeseen())
	}
	if fits := s.Fits(22.0/40, 0.44, 1); fits < 100*s.Unforeseen() {
		t.Errorf("as likely as %g of a plant at 0.44, %g of any", fits, s.Unforeseen())
	}
}
