package species

import (
	"slices"
	"strings"
)

// Accepted is the name the list has for a plant that came under another: an
// old name, a trade name, a misspelt one. It is a suggestion for the name now;
// the name as received is kept. A cultivar in single quotes goes along. It
// returns false for a name that is not on the list or is the accepted one, and
// for those the list has as a cultivar: a cross of the same parents need not be
// the registered plant.
func Accepted(received string) (string, bool) {
	e, ok := Find(received)
	if !ok || strings.Contains(e.Name, "'") || isAccepted(received, e.Name) {
		return "", false
	}
	if _, cultivar, quoted := strings.Cut(received, " '"); quoted {
		return e.Name + " '" + cultivar, true
	}
	return e.Name, true
}

// isAccepted reports whether a name begins with the accepted one. The genus may
// be left out or shortened where it is Tillandsia, and must stand there where it
// is another: T. cyanea is an old name.
func isAccepted(received, accepted string) bool {
	words, want := normalise(received), normalise(accepted)
	if len(words) < len(want) || !slices.Equal(words[:len(want)], want) {
		return false
	}
	genus, _, _ := strings.Cut(strings.ToLower(accepted), " ")
	first := strings.Fields(plain.Replace(strings.ToLower(received)))[0]
	return genus == "t." || first == genus || first == genus[:1]
}
