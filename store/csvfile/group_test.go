package csvfile

import (
	"slices"
	"testing"
)

func TestFaultsOfOneKindAreSaidOnce(t *testing.T) {
	fs := Faults{{Line: 2, Field: "Size", Text: `"big" is not a size`, Do: "give it in cm"}}
	for _, line := range []int{2, 3, 4, 7, 9} {
		fs = append(fs, Fault{Line: line, Field: "Bought",
			Text: `"spring ` + string(rune('0'+line)) + `" is not a date`, Do: "write it as 2026-01-31"})
	}
	fs = append(fs, Fault{Line: 8, Field: "Bought", Text: `"12/2" is not a date`, Do: "write it as 2026-01-31"})
	fs = append(fs, Fault{Line: 9, Text: "neither a label nor a name"})
	want := []string{
		`line 2, Size: "big" is not a size; give it in cm`,
		`Bought: 5 cells like this: "spring 2" is not a date; write it as 2026-01-31 (lines 2-4, 7, 9)`,
		`line 8, Bought: "12/2" is not a date; write it as 2026-01-31`, // it does not look like those
		"line 9: neither a label nor a name",
	}
	if got := fs.Grouped(); !slices.Equal(got, want) {
		t.Errorf("got\n%q\nwant\n%q", got, want)
	}
}
