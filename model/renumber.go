package model

import "slices"

// Renumber gives an entry that was made on an earlier state of the book the next
// free numbers of loads and plants, where those it names were given away since.
func (b *Book) Renumber(e Entry) Entry {
	switch f := e.Fact.(type) {
	case *Soak:
		again := *f
		again.Load = max(f.Load, b.nextLoad)
		e.Fact = &again
	case *Add:
		again := Add{Plants: slices.Clone(f.Plants)}
		e.Plants = slices.Clone(e.Plants)
		for i := range again.Plants {
			again.Plants[i].ID = b.free(again.Plants[i].ID, i, e.Plants)
		}
		e.Fact = &again
	case *Split:
		again := *f
		again.New.ID = b.free(f.New.ID, 0, nil)
		e.Fact = &again
	}
	return e
}

// free is the number for the i-th new plant of an entry: the one it has, or the
// next free one when that is taken; then the entry's own list follows.
func (b *Book) free(id ID, i int, named IDs) ID {
	if b.Row(id) == nil && id >= b.nextID {
		return id
	}
	next := b.nextID + ID(i)
	if at := slices.Index(named, id); at >= 0 {
		named[at] = next
	}
	return next
}
