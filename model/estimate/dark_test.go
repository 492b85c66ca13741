package estimate_test

import (
	"testing"

	"tubside/model"
	"tubside/tests/household"
)

// A leaf that is already dark long after a soak is wet outside: from a mist, a drip, dew. It does not make a plant with
// a deep channel a full one.
func TestADarkLeafIsAWetSurface(t *testing.T) {
	left := func(signs model.Signs) float64 {
		h := household.Greens(t, 3)
		h.Say(may(14, 8), &model.Look{Signs: signs}, 1)
		return h.Need(1, may(14, 9)).RWC
	}
	channel := model.Signs{Curl: 2, Tips: model.NotSeen, Shift: model.NotSeen}
	dark, pale := channel, channel
	dark.Shift, pale.Shift = model.AlreadyDark, 2
	without, wet, dry := left(channel), left(dark), left(pale)
	t.Logf("%.3f %.3f %.3f", without, wet, dry)
	if wet > without+0.02 {
		t.Errorf("a deep channel: %.3f left, and a dark leaf: %.3f", without, wet)
	}
	if dry > without {
		t.Errorf("a deep channel: %.3f left, and a drop drawn in at once: %.3f", without, dry)
	}
}
