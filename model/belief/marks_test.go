package belief_test

import (
	"math"
	"testing"

	"tubside/model/belief"
)

var sure = belief.Marks{Spread: 0.2}

// Without misclassification and overlooking, two looks are an interval of the
// normal distribution in the logarithm.
func TestTwoLooksAreAnInterval(t *testing.T) {
	var got, want [belief.Points]float64
	for _, looks := range [][]float64{{0, 1.5}, {0.8, 1.5}, {1.2, math.Inf(1)}} {
		sure.Log(looks, &got)
		for i, m := range belief.Multipliers() {
			below := func(x float64) float64 { return math.Erfc(-math.Log(x/m)/0.2/math.Sqrt2) / 2 }
			want[i] = math.Log(below(looks[1]) - below(looks[0]))
		}
		for i := range got {
			if want[i] > -8 && math.Abs(got[i]-want[i]) > 0.03 {
				t.Errorf("looks %v, point %d: %.4f, want %.4f", looks, i, got[i], want[i])
			}
		}
	}
}

// A walk that passed without a word halves what came before it, if it would
// have noticed every second one.
func TestAWalkPastSaysSomething(t *testing.T) {
	m := belief.Marks{Spread: 0.05, Noticed: 0.5}
	var log [belief.Points]float64
	m.Log([]float64{0, 1, 2}, &log)
	multipliers := belief.Multipliers()
	early, late := math.NaN(), math.NaN()
	for i, x := range multipliers {
		if math.Abs(x-0.5) < 0.02 {
			early = log[i]
		}
		if math.Abs(x-1.41) < 0.05 {
			late = log[i]
		}
	}
	if ratio := math.Exp(early - late); math.Abs(ratio-0.5) > 0.01 {
		t.Errorf("dry before the walk is %.3f times as likely as after, want 0.5", ratio)
	}
}

// However wrong, one mark weighs no more than the slips allow.
func TestASlipIsAFloor(t *testing.T) {
	m := belief.Marks{Spread: 0.2, Misclassified: 0.03}
	var log [belief.Points]float64
	m.Log([]float64{4, 5}, &log)
	for i, l := range log {
		if l < math.Log(0.03)-1e-9 || l > 0 {
			t.Errorf("point %d: %g", i, l)
		}
	}
}

func TestLooksThatMakeNoSenseSayNothing(t *testing.T) {
	m := belief.Marks{Spread: 0.2, Misclassified: 0.03, Noticed: 0.5}
	for _, looks := range [][]float64{nil, {1}, {2, 1}, {0, math.NaN()}} {
		log := [belief.Points]float64{7}
		m.Log(looks, &log)
		if log != [belief.Points]float64{} {
			t.Errorf("looks %v: %v", looks, log)
		}
	}
}
