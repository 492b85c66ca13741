package board

import (
	"testing"

	"tubside/model"
	"tubside/model/species"
)

// A form that gives a plant another name fills it in as the shell and a list do.
func TestARenamedPlantIsFilledInAnew(t *testing.T) {
	was := species.Fill(model.Plant{ID: 4, Count: 1, Label: "one", Name: "T. ionantha", Size: 5})
	f := &form{desk: newGrower(t).board.desk, fields: plantFields(newGrower(t).board.desk, was)}
	f.fields[plantName].input.SetValue("bulbosa")
	p, err := f.plant(was)
	if err != nil || p.Form != model.Bulbous || !p.Assumed.Form || p.Size != 5 || p.Assumed.Size {
		t.Errorf("%+v, %v", p, err)
	}
}

// A second plant of a name says where the first one hangs.
func TestASecondPlantOfANameSaysSo(t *testing.T) {
	g := newGrower(t).shelves().keys("+").types("fuchsii").keys("ctrl+s").sees("another of this name is #5, Loft 1")
	g.keys("+").types("fuchsii").keys("ctrl+s").sees("2 others of this name, the first is #5, Loft 1")
}
