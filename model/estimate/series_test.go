package estimate_test

import (
	"math"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/leaf"
	"tubside/tests/household"
)

// Taken out every half hour, a plant that drinks half as fast as most is found out by that, whatever water clings to
// it.
func TestAPlantWeighedInTheWaterTellsHowFastItDrinks(t *testing.T) {
	for _, slow := range []float64{0.5, 1, 2} {
		h, in := household.Greens(t, 1), may(31, 9)
		dry := h.Need(1, in).RWC
		h.Say(in, &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: in.Add(4 * time.Hour)}, 1)
		for _, minutes := range []float64{1, 30, 60, 90, 120, 180} {
			left := leaf.Refilled(dry, minutes, slow*leaf.TauDefault)
			grams := math.Round(10*40*(0.1+leaf.MassShare(left))) / 10
			h.Say(in.Add(time.Duration(minutes)*time.Minute), &model.Weigh{Grams: grams, Wet: true}, 1)
		}
		k := estimate.New(h.Book)
		m, _ := k.UptakeMultiplier(1)
		if before := estimate.AssumedUptake; m.High/m.Low > 0.95*before.High/before.Low {
			t.Errorf("%g times as slow: %+v, assumed %+v", slow, m, before)
		}
		if slow > 1 != (m.Median > 1.05) || slow < 1 != (m.Median < 0.95) {
			t.Errorf("%g times as slow: %+v", slow, m)
		}
		if w := h.Row(1).WetWeight; w.Grams != 0 {
			t.Errorf("half soaked it is taken for full: %+v", w)
		}
	}
}
