package model

import (
	"maps"
	"slices"
)

// Kinds lists every kind of entry there is, for the test that holds an example
// of each.
func Kinds() []Kind { return slices.Sorted(maps.Keys(factOf)) }
