package estimate

import (
	"cmp"
	"iter"
	"slices"
	"time"

	"tubside/model"
)

// Entries are read in the order in which things happened, whenever they were written: a log that was kept on paper, a
// soak that was forgotten, or one that was undone and is written anew. What the book itself holds to stays as it was
// written: of no plant anything is read before it came; from the water to being felt dry, what is done to it keeps its
// order; and so do its moves. An entry that is written late has the past read again: from where that was kept last, if
// it happened since (see [Resumes]), else all of it.

// lateFor is how long before the newest entry one may have happened and be read as of then. One that is dated further
// back is read where it was written: where a machine's clock was a year ahead for a day, all that comes after it is
// not late. A choice.
const lateFor = 60 * 24 * time.Hour

// counts reports whether an entry has a place in that order: it was not taken back, and something is learned from it.
func (k *Keeper) counts(e model.Entry) bool {
	_, isStrike := e.Fact.(*model.Strike)
	return !isStrike && heeds(e.Fact) && !k.book.Struck(e.Seq)
}

// late reports whether an entry happened before others that were read.
func (k *Keeper) late(e model.Entry) bool {
	return k.counts(e) && e.At.Before(k.readTo) && k.readTo.Sub(e.At) <= lateFor
}

// inOrder is what there is to read among entries that follow those that were read, in the order in which that is
// done, and the time up to which all will have been read then.
func (k *Keeper) inOrder(entries []model.Entry) (iter.Seq[model.Entry], time.Time) {
	if last, inTime := k.inTime(entries); inTime {
		return slices.Values(entries), last
	}
	r, places, order := reading{newest: k.readTo}, make([]int64, len(entries)), make([]int32, 0, len(entries))
	for i, e := range entries {
		if k.counts(e) {
			places[i] = r.place(e).UnixNano()
			order = append(order, int32(i))
		}
	}
	slices.SortStableFunc(order, func(a, b int32) int { return cmp.Compare(places[a], places[b]) })
	return func(yield func(model.Entry) bool) {
		for _, i := range order {
			if !yield(entries[i]) {
				return
			}
		}
	}, r.newest
}

// inTime reports whether entries were written as things happened, and when the last did.
func (k *Keeper) inTime(entries []model.Entry) (last time.Time, inTime bool) {
	last = k.readTo
	for _, e := range entries {
		if !k.counts(e) {
			continue
		}
		if e.At.Before(last) {
			return last, false
		}
		last = e.At
	}
	return last, true
}

// reading goes through entries as they were written, and gives each its place in time.
type reading struct {
	newest time.Time // place of all up to now
	plants []lastOf  // by number
}

// lastOf is the places of what was last told of one plant, of each kind that keeps its order.
type lastOf [kinds]time.Time

// kind is what keeps its order as it was written.
type kind int

const (
	coming   kind = iota // into the book: before all else
	hanging              // where it hangs, and what it is
	handling             // in the water and on the bench
	kinds
)

// place is where an entry stands in time: when it happened, unless that cannot be.
func (r *reading) place(e model.Entry) time.Time {
	at := e.At
	if r.newest.Sub(at) > lateFor {
		at = r.newest
	}
	switch f := e.Fact.(type) {
	case *model.Add:
		r.came(f.Plants, at)
	case *model.Import:
		at = r.after(hanging, idsOf(f.Changed), at)
		r.came(f.Added, at)
	case *model.Edit:
		at = r.after(hanging, idsOf(f.Plants), at)
	case *model.Split: // the part has lived as the whole did until it was written
		at = model.Later(at, r.newest)
		r.came([]model.Plant{f.New}, at)
	case *model.Move, *model.Swap:
		at = r.after(hanging, e.Plants, at)
	case *model.Out, *model.FoundDry, *model.Damp, *model.Laid, *model.Leave:
		at = r.after(handling, e.Plants, at)
	default:
		for _, id := range e.Plants {
			at = model.Later(at, r.of(id)[coming])
		}
		if _, ok := f.(*model.Soak); ok { // it may have been before another
			for _, id := range e.Plants {
				r.of(id)[handling] = at
			}
		}
	}
	r.newest = model.Later(r.newest, at)
	return at
}

// after is the first time from at on that does not come before what was written of some plants.
func (r *reading) after(k kind, ids model.IDs, at time.Time) time.Time {
	for _, id := range ids {
		at = model.Later(at, r.of(id)[k])
	}
	for _, id := range ids {
		r.of(id)[k] = at
	}
	return at
}

// came notes plants that come into the book.
func (r *reading) came(plants []model.Plant, at time.Time) {
	for _, p := range plants {
		*r.of(p.ID) = lastOf{at, at, at}
	}
}

func (r *reading) of(id model.ID) *lastOf {
	if missing := int(id) + 1 - len(r.plants); missing > 0 {
		r.plants = append(r.plants, make([]lastOf, missing)...)
	}
	return &r.plants[id]
}

func idsOf(plants []model.Plant) model.IDs {
	ids := make(model.IDs, len(plants))
	for i, p := range plants {
		ids[i] = p.ID
	}
	return ids
}
