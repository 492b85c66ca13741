package demo

import (
	"math/rand/v2"
	"strconv"

	"tubside/model"
)

// shelf is one place in the invented flat where plants hang or stand.
type shelf struct {
	name  string
	spots int
	rows  int        // spots are A1, A2 … over this many rows; 0 for plain numbers
	suits model.Leaf // what does best there
	pace  float64    // how much faster plants lose water there than elsewhere
}

// How much faster plants dry out over a warm radiator, and on a sunny sill. Our
// own.
const (
	overRadiator = 1.4
	inTheSun     = 1.25
)

// shelves is the flat, in walking order. North and South are window sills; Warm
// is the wall over the radiator.
var shelves = []shelf{
	{"Arch", 42, 0, model.Intermediate, 1},
	{"Bath", 48, 0, model.Mesic, 1},
	{"Bay", 72, 4, model.Intermediate, 1},
	{"Desk", 36, 0, model.Mesic, 1},
	{"Hall", 54, 3, model.Mesic, 1},
	{"Loft", 64, 4, model.Xeric, 1},
	{"North", 40, 0, model.Mesic, 1},
	{"Rail", 66, 0, model.Intermediate, 1},
	{"Rung 1", 60, 5, model.Intermediate, 1},
	{"Rung 2", 60, 5, model.Intermediate, 1},
	{"South", 50, 0, model.Xeric, inTheSun},
	{"Warm", 76, 4, model.Xeric, overRadiator},
}

// spot is the name of the i-th spot of a shelf, from 0.
func (s shelf) spot(i int) string {
	if s.rows == 0 {
		return strconv.Itoa(i + 1)
	}
	across := (s.spots + s.rows - 1) / s.rows
	return string(rune('A'+i/across)) + strconv.Itoa(i%across+1)
}

// paceOn is how a shelf changes the pace of what hangs on it.
func paceOn(name string) float64 {
	for _, s := range shelves {
		if s.name == name {
			return s.pace
		}
	}
	return 1
}

// soakedFirst reports whether a shelf has its turn on the first morning of the
// two; the other shelves follow on the second.
func soakedFirst(name string) bool {
	for _, s := range shelves[:len(shelves)/2] {
		if s.name == name {
			return true
		}
	}
	return false
}

// randomSpot is a home somewhere in the flat.
func randomSpot(rng *rand.Rand) model.Home {
	s := shelves[rng.IntN(len(shelves))]
	return model.Home{Shelf: s.name, Spot: s.spot(rng.IntN(s.spots))}
}
