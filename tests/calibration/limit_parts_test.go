package calibration_test

import (
	"math"

	"tubside/model"
)

// What the plants of a form share is looked for this far on each side of the
// middle, in steps of the paces.
const (
	sharedReach = 10
	sharedSteps = 2*sharedReach + 1
)

type shared [sharedSteps]float64

// limit is the thirst of every plant as it would be reckoned by who knows the
// invented world.
func (w *world) limit() []float64 {
	grades, own := w.chances(), normal(math.Sqrt(w.own*w.own+weeks*w.drift*w.drift))
	thirst := make([]shared, len(w.lives))
	said := map[model.Form]*shared{} // log likelihood
	for i, l := range w.lives {
		form := l.row.Form
		if said[form] == nil {
			said[form] = &shared{}
		}
		tales := w.tales(l, grades)
		for c := range sharedSteps {
			var sum, all float64
			for _, t := range tales {
				for u, likelihood := range t.likelihood {
					p := likelihood * own[abs(u-fineReach-(c-sharedReach))]
					sum += p * t.thirst[u]
					all += p
				}
			}
			thirst[i][c] = sum / all
			said[form][c] += math.Log(all)
		}
	}
	parts := w.parts(said)
	score := make([]float64, len(w.lives))
	for i, l := range w.lives {
		for c, p := range parts[l.row.Form] {
			score[i] += p * thirst[i][c]
		}
	}
	return score
}

// parts is what is believed of the part that all share and a form's own part,
// together, when this was said of each form's.
func (w *world) parts(said map[model.Form]*shared) map[model.Form]shared {
	apart, all := normal(w.form), normal(w.all)
	given := map[model.Form]*[sharedSteps]shared{} // at each part of all
	var log shared
	for a := range log {
		log[a] = math.Log(all[abs(a-sharedReach)])
	}
	for _, f := range forms { // in their order, so that the sums come out the same each time
		s := said[f.form]
		if s == nil {
			continue
		}
		top := s[0]
		for _, l := range s {
			top = max(top, l)
		}
		given[f.form] = &[sharedSteps]shared{}
		for a := range log {
			its, sum := &given[f.form][a], 0.0
			for c, l := range s {
				its[c] = apart[abs(c-a)] * math.Exp(l-top)
				sum += its[c]
			}
			its.times(1 / sum)
			log[a] += math.Log(sum)
		}
	}
	top, sum := log[0], 0.0
	for _, l := range log {
		top = max(top, l)
	}
	for a, l := range log {
		log[a] = math.Exp(l - top)
		sum += log[a]
	}
	parts := map[model.Form]shared{}
	for form, its := range given {
		var part shared
		for a, p := range log {
			for c := range part {
				part[c] += p / sum * its[a][c]
			}
		}
		parts[form] = part
	}
	return parts
}

func (s *shared) times(by float64) {
	for i := range s {
		s[i] *= by
	}
}

// normal is the normal density, up to a constant, at whole steps of the paces.
func normal(spread float64) (density [finePaces + sharedSteps]float64) {
	for i := range density {
		z := fineStep * float64(i) / spread
		density[i] = math.Exp(-z * z / 2)
	}
	return density
}

func abs(i int) int { return max(i, -i) }
