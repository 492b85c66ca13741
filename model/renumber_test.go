package model_test

import (
	"slices"
	"testing"
	"time"

	"tubside/model"
)

// left is a book to which entries come that were made on an earlier state of it.
type left struct {
	*model.Book
	t *testing.T
}

func (b *left) put(first model.Seq, entries ...model.Entry) []model.Entry {
	b.t.Helper()
	for i := range entries {
		entries[i].Seq = first + model.Seq(i)
	}
	b.Renumber(entries...)
	for i := range entries {
		if err := b.Check(entries[i]); err != nil {
			b.t.Fatal(err)
		}
		if err := b.Apply(entries[i]); err != nil {
			b.t.Fatal(err)
		}
	}
	return entries
}

func tray(id model.ID) model.Plant {
	return model.Plant{ID: id, Label: "A", Form: model.Rosette, Count: 3}
}

// Two hands make an entry on the same state of the book: the second to arrive
// gets the next numbers.
func TestAnEntryMadeEarlierGetsTheNextNumbers(t *testing.T) {
	b := &left{model.NewBook(time.UTC), t}
	add := func() model.Entry {
		return model.NewEntry(soakDay, &model.Add{Plants: []model.Plant{tray(1), tray(2)}}, 1, 2)
	}
	first, second := b.put(1, add()), b.put(1, add())
	if !slices.Equal(first[0].Plants, model.IDs{1, 2}) || !slices.Equal(second[0].Plants, model.IDs{3, 4}) ||
		b.Row(4) == nil {
		t.Errorf("added as %v and %v", first, second)
	}
	part := tray(3)
	part.Count = 1
	if e := b.put(3, model.NewEntry(soakDay, &model.Split{New: part}, 1)); e[0].Fact.(*model.Split).New.ID != 5 {
		t.Errorf("split as plant %d", e[0].Fact.(*model.Split).New.ID)
	}
	soak := func(id model.ID) model.Entry {
		return model.NewEntry(soakDay, &model.Soak{Load: 1, Vessel: "tub", Due: soakDay.Add(time.Hour)}, id)
	}
	b.put(3, soak(1))
	if e := b.put(3, soak(2)); e[0].Fact.(*model.Soak).Load != 2 {
		t.Errorf("soaked as load %d", e[0].Fact.(*model.Soak).Load)
	}
}

// What the later entries of a batch say of its plants and of itself follows the
// numbers that these get.
func TestABatchMadeEarlierFollowsItsOwnNumbers(t *testing.T) {
	b := &left{model.NewBook(time.UTC), t}
	b.put(1, model.NewEntry(soakDay, &model.Add{Plants: []model.Plant{tray(1)}}, 1))
	// Made when the book had plant 1 and one entry; meanwhile came plant 2.
	batch := []model.Entry{
		model.NewEntry(soakDay, &model.Add{Plants: []model.Plant{tray(2)}}, 2),
		model.NewEntry(soakDay, &model.Import{Added: []model.Plant{tray(3)}, BloomOn: model.IDs{2, 3},
			Stages: map[model.Stage]model.IDs{model.Open: {3}}}),
		model.NewEntry(soakDay, &model.Rot{}, 1),
		model.NewEntry(soakDay, &model.Mist{}, 1, 2, 3),
		model.NewEntry(soakDay, &model.Strike{Seq: 4}), // that of the rot
		model.NewEntry(soakDay, &model.Strike{Seq: 1 << 40}),
	}
	b.put(2, model.NewEntry(soakDay, &model.Add{Plants: []model.Plant{tray(2)}}, 2))
	b.put(2, batch[:5]...)
	if got := batch[3].Plants; !slices.Equal(got, model.IDs{1, 3, 4}) {
		t.Errorf("misted %v", got)
	}
	if f := batch[1].Fact.(*model.Import); !slices.Equal(f.BloomOn, model.IDs{3, 4}) ||
		!slices.Equal(f.Stages[model.Open], model.IDs{4}) || f.Added[0].ID != 4 {
		t.Errorf("brought in %+v", f)
	}
	if b.Row(1).Rot != (time.Time{}) || !b.Row(2).Bloom.IsZero() || b.Row(4).Bloom.IsZero() {
		t.Error("the strike or the bloom met another")
	}
	// A number that a file gave is kept where it is free, though lower than the next.
	b.put(20, model.NewEntry(soakDay, &model.Add{Plants: []model.Plant{tray(90)}}, 90))
	if e := b.put(20, model.NewEntry(soakDay, &model.Import{Added: []model.Plant{tray(17)}})); e[0].Fact.(*model.Import).Added[0].ID != 17 {
		t.Errorf("brought in as %d", e[0].Fact.(*model.Import).Added[0].ID)
	}
}
