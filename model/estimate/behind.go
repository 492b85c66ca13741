package estimate

import (
	"time"

	"tubside/model"
)

// Lag is [Keeper.Follow] for whoever cannot wait until the past was read again,
// which takes seconds on a large book. Where an entry asks for that it returns
// true, and from then on what is believed stays as it was, whatever else is
// written: the keeper only learns which plants there are. [Keeper.CatchUp] ends
// that.
func (k *Keeper) Lag(e model.Entry) bool {
	rereads := k.rereads(e)
	if !rereads && !k.behind {
		k.Follow(e)
		return false
	}
	k.behind, k.drying = true, nil
	k.passed(e)
	for _, id := range k.book.IDs() {
		if k.plants[id] == nil {
			p, home := k.newcomer(id), k.book.Row(id).Home
			p.water = newWater(time.Time{}, e.At)
			p.put(home.Shelf, k.book.ShelfFactor(home.Shelf))
		}
	}
	for id := range k.plants {
		if k.book.Row(id) == nil {
			delete(k.plants, id)
		}
	}
	return rereads
}

// CatchUp takes over what a keeper of a copy of the book came to believe, and
// follows what was written since the copy was made, unless it reads that with all
// else. The other is not to be used any more.
func (k *Keeper) CatchUp(other *Keeper) {
	book, read := k.book, len(other.book.Entries())
	*k = *other
	k.book = book
	for _, e := range book.Entries()[read:] {
		if e.Seq > k.newest { // else the past was read again for one before it
			k.Follow(e)
		}
	}
}
