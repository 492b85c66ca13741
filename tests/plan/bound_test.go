package plan_test

import (
	"testing"

	"tubside/model/soak"
)

// The bounds against proven optima: none is better than the best that a general
// solver found, and proved, with a model of its own.
func TestNoBoundIsBeyondAProvenOptimum(t *testing.T) {
	var days []exactDay
	var answers []exactAnswer
	readJSON(t, "exact/instances.json", &days)
	readJSON(t, "exact/answers.json", &answers)
	thirst, free := 0.0, 0.0
	for i, a := range answers {
		p := arrange(t, days[i].session(), soak.Effort{})
		if p.Bound.Thirst < a.Thirst-1e-6 {
			t.Errorf("%s: bound on the thirst %.3f, served was %.3f", a.Name, p.Bound.Thirst, a.Thirst)
		}
		thirst += (p.Bound.Thirst - a.Thirst) / max(a.Thirst, 1)
		if p.Thirst < a.Thirst-1e-6 {
			continue // other plants: another bound
		}
		if p.Bound.HandsFree > a.HandsFree {
			t.Errorf("%s: bound on the hands free %d, they were at %d", a.Name, p.Bound.HandsFree, a.HandsFree)
		}
		free += float64(a.HandsFree-p.Bound.HandsFree) / float64(max(a.HandsFree, 1))
	}
	n := float64(len(answers))
	t.Logf("on average the thirst bound is %.2f %% above the optimum, the bound on the hands free %.2f %% below", 100*thirst/n, 100*free/n)
}
