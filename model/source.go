package model

import (
	"slices"
	"strings"
)

// Source is where water comes from, in growers' words. The empty source means
// nobody has said.
type Source string

// The sources.
const (
	Tap       Source = "tap"       // straight from the tap
	RestedTap Source = "rested"    // tap water left to stand
	Filtered  Source = "filtered"  // through a jug or charcoal filter
	Rain      Source = "rain"      // caught clean
	Well      Source = "well"      // a well or a spring
	Bottled   Source = "bottled"   // still drinking water
	Rice      Source = "rice"      // what rice was washed in
	Aquarium  Source = "aquarium"  // from a freshwater tank
	Pond      Source = "pond"      // from a pond, a river or a lake
	Distilled Source = "distilled" // or from a dehumidifier
	RO        Source = "ro"        // reverse osmosis
	Softened  Source = "softened"  // by a salt softener
	Sea       Source = "sea"       // or from a marine tank
)

// Sources lists the sources, in the order a field offers them.
var Sources = []Source{Tap, RestedTap, Filtered, Rain, Well, Bottled, Rice, Aquarium, Pond, Distilled, RO, Softened,
	Sea}

// ParseSource reads a source by its word or its first letters.
func ParseSource(s string) (Source, error) {
	s = strings.ToLower(strings.TrimSpace(s))
	switch s {
	case "":
		return "", nil
	case "tap": // rather than its longer cousins
		return Tap, nil
	case "spring":
		return Well, nil
	case "osmosis", "reverse osmosis":
		return RO, nil
	case "salt", "marine":
		return Sea, nil
	}
	return oneOf("water", s, Sources)
}

// check refuses a source that nobody knows, and those whose salt stays on the
// leaves: sea water, and tap water softened with salt, which has sodium in the
// place of its lime (over 3 me/L of sodium harms leaves that water wets: FAO
// Irrigation and Drainage Paper 29, Ayers & Westcot 1985, table 1).
func (s Source) check() error {
	switch {
	case s == Sea:
		return &Problem{
			What: "sea water is not for air plants: its salt dries on the leaves",
			Do:   "use rain or tap water",
		}
	case s == Softened:
		return &Problem{
			What: "softened water is not for air plants: it has sodium in the place of the lime",
			Do:   "draw it before the softener, or use rain",
		}
	case s != "" && !slices.Contains(Sources, s):
		return &Problem{What: "water of the source \"" + string(s) + "\"", Do: "use one of the words for water"}
	}
	return nil
}
