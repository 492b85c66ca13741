package species_test

import (
	"strings"
	"testing"

	"tubside/model"
	"tubside/model/species"
)

func TestNamesAsTheyStandOnTags(t *testing.T) {
	for name, want := range map[string]string{
		"T. ionantha":                  "T. ionantha",
		"Tillandsia ionantha 'Fuego'":  "T. ionantha",
		"ionantha":                     "T. ionantha",
		"IONANTHA FUEGO":               "T. ionantha",
		"  till. ionantha var. rubra ": "T. ionantha",
		"T.ionantha":                   "T. ionantha",
		"Caput Medusae":                "T. caput-medusae",
		"T. caput-medusae":             "T. caput-medusae",
		"Medusa’s Head":                "T. caput-medusae",
		"Roland-Gosselinii":            "T. roland-gosselinii",
		"T. circinnata":                "T. paucifolia",
		"Tillandsia cyanea":            "Wallisia cyanea",
		"Wallisia cyanea":              "Wallisia cyanea",
		"T. lindenii":                  "Wallisia lindeniana",
		"Tillandsia wagneriana":        "Barfussia wagneriana",
		"brachycaulos 'abdita'":        "T. brachycaulos",
		"abdita":                       "T. brachycaulos",
		"T. kolbii":                    "T. scaposa",
		"Spanish moss":                 "T. usneoides",
		"T. aëranthos":                 "T. aeranthos",
		"T. 'Houston'":                 "T. 'Houston'",
		"houston":                      "T. 'Houston'",
		"T. stricta × recurvifolia":    "T. 'Houston'",
		"stricta x recurvifolia":       "T. 'Houston'",
		"xerographica (large)":         "T. xerographica",
	} {
		e, ok := species.Find(name)
		if !ok || e.Name != want {
			t.Errorf("%q: found %q, %t; want %q", name, e.Name, ok, want)
		}
	}
}

func TestWhatIsNotOnTheListIsNotGuessed(t *testing.T) {
	for _, name := range []string{
		"", " ", "T.", "Tillandsia", "x", "×", "cactus", "ionanthaa",
		"T. ionantha x brachycaulos", "ionantha × schiedeana", "unknown", "sp.",
	} {
		if e, ok := species.Find(name); ok {
			t.Errorf("%q: found %s", name, e.Name)
		}
	}
}

// The forms that decide how long a plant may soak and how it dries. Common
// practice, no source.
func TestFormsThatDecideASoak(t *testing.T) {
	for name, want := range map[string]model.Form{
		"tectorum": model.Fuzzy, "magnusiana": model.Fuzzy, "plumosa": model.Fuzzy,
		"bulbosa": model.Bulbous, "caput-medusae": model.Bulbous, "pruinosa": model.Bulbous,
		"usneoides": model.Pendent, "cyanea": model.Tank, "recurvata": model.Rosette,
		"gardneri": model.Rosette, "duratii": model.Stemmed, "fuchsii": model.Wispy,
	} {
		if e, _ := species.Find(name); e.Form != want {
			t.Errorf("%s: %s, want %s", name, e.Form, want)
		}
	}
}

func TestEveryRowCanBeUsed(t *testing.T) {
	all := species.All()
	if len(all) < 80 {
		t.Fatalf("%d plants", len(all))
	}
	for _, e := range all {
		if e.Form == "" || e.Leaf == "" || e.SizeCM < 5 || e.SizeCM > 60 || e.Range == "" || e.Source == "" {
			t.Errorf("%+v", e)
		}
		if !strings.Contains(e.Says(), "growers' habit") {
			t.Errorf("%s does not say that it is habit: %s", e.Name, e.Says())
		}
		for _, name := range append([]string{e.Name}, e.Aliases...) {
			if found, ok := species.Find(name); !ok || found.Name != e.Name {
				t.Errorf("%s is found under %q as %q", e.Name, name, found.Name)
			}
		}
	}
}

func BenchmarkFind(b *testing.B) {
	for b.Loop() {
		species.Find("Tillandsia ionantha 'Fuego'")
	}
}
