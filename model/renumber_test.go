package model_test

import (
	"slices"
	"testing"
	"time"

	"tubside/model"
)

// Two hands make an entry on the same state of the book: the second to arrive
// gets the next numbers.
func TestAnEntryMadeEarlierGetsTheNextNumbers(t *testing.T) {
	b := model.NewBook(time.UTC)
	d := &diary{Book: b, at: soakDay}
	plant := func(id model.ID) model.Plant {
		return model.Plant{ID: id, Label: "A", Form: model.Rosette, Count: 3}
	}
	put := func(e model.Entry) model.Entry {
		t.Helper()
		e = b.Renumber(e)
		e.Seq = model.Seq(len(b.Entries()) + 1)
		if err := b.Check(e); err != nil {
			t.Fatal(err)
		}
		if err := b.Apply(e); err != nil {
			t.Fatal(err)
		}
		return e
	}
	add := model.NewEntry(d.at, &model.Add{Plants: []model.Plant{plant(1), plant(2)}}, 1, 2)
	first, second := put(add), put(add)
	if !slices.Equal(first.Plants, model.IDs{1, 2}) || !slices.Equal(second.Plants, model.IDs{3, 4}) ||
		b.Row(4) == nil {
		t.Errorf("added as %v and %v", first.Plants, second.Plants)
	}
	if !slices.Equal(add.Plants, model.IDs{1, 2}) || add.Fact.(*model.Add).Plants[0].ID != 1 {
		t.Error("the entry itself was changed")
	}
	soak := &model.Soak{Load: 1, Vessel: "tub", Due: d.at.Add(time.Hour)}
	put(model.NewEntry(d.at, soak, 1))
	if e := put(model.NewEntry(d.at, soak, 2)); e.Fact.(*model.Soak).Load != 2 {
		t.Errorf("soaked as load %d", e.Fact.(*model.Soak).Load)
	}
	split := &model.Split{New: model.Plant{ID: 3, Label: "B", Form: model.Rosette, Count: 1}}
	if e := put(model.NewEntry(d.at, split, 3)); e.Fact.(*model.Split).New.ID != 5 {
		t.Errorf("split as plant %d", e.Fact.(*model.Split).New.ID)
	}
}
