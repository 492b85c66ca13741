package species_test

import (
	"testing"

	"tubside/model/species"
)

// The names as they stand on trade tags, and what the list has for them.
func TestTheAcceptedNameIsSuggested(t *testing.T) {
	for received, want := range map[string]string{
		"T. circinnata":         "T. paucifolia",
		"T. circinnata 'Giant'": "T. paucifolia 'Giant'",
		"Tillandsia cyanea":     "Wallisia cyanea",
		"cyanea":                "Wallisia cyanea",
		"pink quill plant":      "Wallisia cyanea",
		"spanish moss":          "T. usneoides",
		"T. duratti":            "T. duratii",
	} {
		if got, ok := species.Accepted(received); !ok || got != want {
			t.Errorf("%q: %q, %t; want %q", received, got, ok, want)
		}
	}
}

func TestNothingIsSuggestedForAnAcceptedOrUnknownName(t *testing.T) {
	for _, received := range []string{
		"T. ionantha 'Fuego'", "IONANTHA", "Tillandsia ionantha var. rubra", "Wallisia cyanea", "W. cyanea",
		"T. 'Houston'", "T. stricta × recurvifolia", "", "T.", "cactus", "T. ionantha x brachycaulos",
	} {
		if got, ok := species.Accepted(received); ok {
			t.Errorf("%q: %q", received, got)
		}
	}
	for _, e := range species.All() {
		if got, ok := species.Accepted(e.Name); ok {
			t.Errorf("%q would become %q", e.Name, got)
		}
	}
}
