// Package soak is how long plants soak and how much room they take in a
// vessel, on plain numbers.
package soak

// Band is how long a plant should soak, named by length.
type Band int

// The bands, from none to longest.
const (
	Rest Band = iota // nothing
	Mist             // wet the leaves where it hangs
	Dip
	Short
	Long
	Deep
	Overnight
	bandCount
)

// Bands lists every band, shortest first.
var Bands = []Band{Rest, Mist, Dip, Short, Long, Deep, Overnight}

var bandWords = [bandCount]string{"Rest", "Mist", "Dip", "Short", "Long", "Deep", "Overnight"}

// bandLetters tell the bands apart where there is one column for them and no
// colour.
var bandLetters = [bandCount]string{"R", "M", "D", "S", "L", "P", "O"}

// String is the band's name.
func (b Band) String() string { return bandWords[b] }

// Letter is the one letter that stands for the band: P is Deep, because D is
// Dip.
func (b Band) Letter() string { return bandLetters[b] }

// MarshalText writes the band's name.
func (b Band) MarshalText() ([]byte, error) { return []byte(b.String()), nil }

// InWater reports whether the band means going into a vessel.
func (b Band) InWater() bool { return b >= Dip }

// Window is a length of soak in minutes: the shortest that does it, and the longest that may be.
type Window struct{ From, To float64 }
