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
		if l := leaf.LogWeight(1/1.35, rwc, 1, 7); l > best {
			best, at = l, rwc
		}
	}
	if at < 0.65 || at > 0.70 {
		t.Errorf("a weight of 1/1.35 speaks most for RWC %.2f", at)
	}
}

func TestAnOldWetWeightSaysLess(t *testing.T) {
	fresh := leaf.LogWeight(0.8, 0.6, 1, 1)
	old := leaf.LogWeight(0.8, 0.6, 1, 400)
	if !(fresh < old && old < 0) {
		t.Errorf("a weight off by much: %.2f after a day, %.2f after a year", fresh, old)
	}
}
