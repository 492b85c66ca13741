package calibration_test

import (
	"tubside/model/advice"
	"tubside/model/estimate"
)

// claim is what the program says of itself before any sign is entered, and what comes of it.
type claim struct {
	homes     int // that it is the mean of
	first     float64
	hits      float64 // share of the driest among those to look at first
	suggested float64 // share of homes in which the shelf over the radiator is suggested
	wrong     float64 // other shelves suggested, a home
	factor    float64 // of the shelf over the radiator
}

func (w *world) claims(thirst []float64) (c claim) {
	k := estimate.New(w.book)
	e := advice.DriestOf(k, w.now)
	score := make([]float64, len(w.lives))
	for i, id := range e.First {
		score[id-1] = float64(len(e.First) - i)
	}
	c.homes, c.first = 1, float64(len(e.First))
	c.hits = found(thirst, score, e.Driest, len(e.First))
	for _, s := range k.Shelves() {
		if s.Name == shelves[0] {
			c.factor = s.Factor
			if s.Suggest {
				c.suggested = 1
			}
		} else if s.Suggest {
			c.wrong++
		}
	}
	return c
}

func (c *claim) add(one claim) {
	c.homes++
	for _, pair := range [][2]*float64{{&c.first, &one.first}, {&c.hits, &one.hits}, {&c.suggested, &one.suggested}, {&c.wrong, &one.wrong}, {&c.factor, &one.factor}} {
		*pair[0] += (*pair[1] - *pair[0]) / float64(c.homes)
	}
}
