package species_test

import (
	"testing"

	"tubside/model"
	"tubside/model/species"
)

// What nobody said comes from the list and follows the name; what was said
// stays.
func TestFill(t *testing.T) {
	p := species.Fill(model.Plant{Name: "T. ionantha", Size: 5})
	if p.Form != model.Rosette || !p.Assumed.Form || !p.Assumed.Leaf || p.Size != 5 || p.Assumed.Size {
		t.Fatalf("filled as %+v", p)
	}
	p.Name = "bulbosa"
	p = species.Fill(p)
	if p.Form != model.Bulbous || !p.Assumed.Form || p.Size != 5 {
		t.Errorf("after the new name %+v", p)
	}
	p.Form, p.Assumed.Form, p.Name = model.Fuzzy, false, "T. ionantha"
	if p = species.Fill(p); p.Form != model.Fuzzy {
		t.Errorf("what was said did not stay: %+v", p)
	}
	p.Form, p.Assumed.Form, p.Name = "", false, "Xerografica"
	if p = species.Fill(p); p.Form != model.Rosette || p.Leaf != model.Xeric || p.Name != "Xerografica" {
		t.Errorf("a slip of the pen is filled in as %+v", p)
	}
	p = model.Plant{Name: "a name of no list"}
	if got := species.Fill(p); got != p {
		t.Errorf("filled from nowhere: %+v", got)
	}
}
