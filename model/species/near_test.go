package species_test

import (
	"testing"

	"tubside/model/species"
)

func TestASlipInANameIsSeen(t *testing.T) {
	for typed, want := range map[string]string{
		"T. ionanta": "T. ionantha", "xerografica": "T. xerographica", "caput medussae": "T. caput-medusae",
		"Tillandsia ionantha": "", "T. kolbi": "T. scaposa", "no such plant at all": "", "": "",
	} {
		if got := species.Near(typed); got != want {
			t.Errorf("%q: %q, want %q", typed, got, want)
		}
	}
}
