package care

import (
	"time"

	"tubside/model"
)

// weeks is a range of weeks.
type weeks struct{ from, to float64 }

// bloomWeeks is how long a bloom keeps its colour, from the first open flower,
// by form and leaf. Growers' habit, from memory: no published lengths were found
// for species kept at home. Single flowers last days; it is the bracts that hold.
var bloomWeeks = map[model.Form]map[model.Leaf]weeks{
	model.Rosette: {model.Mesic: {2, 6}, model.Intermediate: {2, 8}, model.Xeric: {3, 20}},
	model.Bulbous: {model.Mesic: {2, 5}, model.Intermediate: {3, 8}, model.Xeric: {3, 10}},
	model.Wispy:   {model.Mesic: {1, 4}, model.Intermediate: {1, 6}, model.Xeric: {2, 6}},
	model.Stemmed: {model.Mesic: {1, 4}, model.Intermediate: {2, 4}, model.Xeric: {2, 8}},
	model.Fuzzy:   {model.Mesic: {1, 4}, model.Intermediate: {1, 4}, model.Xeric: {1, 6}},
	model.Tank:    {model.Mesic: {8, 16}, model.Intermediate: {8, 16}, model.Xeric: {8, 16}},
	model.Pendent: {model.Mesic: {1, 3}, model.Intermediate: {1, 3}, model.Xeric: {1, 3}},
}

// BloomEnd is between when and when an open bloom is expected to be spent; false
// for a plant whose bloom is not open, or of which only yes or no was said long
// ago. It is growers' habit by form and leaf, not a forecast.
func BloomEnd(row *model.Row) (low, high time.Time, ok bool) {
	if row.Bloom.IsZero() || row.Stage == model.Bud {
		return low, high, false
	}
	since := row.Bloom
	if row.Stage == model.Open {
		since = row.StageAt
	}
	w := bloomWeeks[orElse(row.Form, assumedForm)][orElse(row.Leaf, assumedLeaf)]
	after := func(n float64) time.Time { return since.Add(time.Duration(n * 7 * 24 * float64(time.Hour))) }
	return after(w.from), after(w.to), true
}
