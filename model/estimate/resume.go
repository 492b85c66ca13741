package estimate

import (
	"io"
	"reflect"
	"time"

	"tubside/model"
	"tubside/model/snapshot"
)

// Shape tells apart how keepers lie in memory: a snapshot is read by the same shape
// of the same program, or not at all.
func Shape() [32]byte { return snapshot.Shape[Keeper]() }

// Snapshot writes down what is believed, for [Resume]. What was worked out for who
// asked is left out: that is worked out again when somebody asks.
func (k *Keeper) Snapshot(w io.Writer) error {
	k.learnSessions()
	k.updatePopulations()
	return snapshot.Write(w, k, k.known()...)
}

// Resume is a keeper that goes on from what another believed when the book had its
// first n entries. It believes what one does that reads the whole book; [Resumes]
// must have said so.
func Resume(b *model.Book, n int, r io.Reader) (*Keeper, error) {
	k := &Keeper{book: b}
	if err := snapshot.Read(r, k, k.known()...); err != nil {
		return nil, err
	}
	k.climate.remember()
	k.readOn(b.Entries()[n:])
	return k, nil
}

// Same reports whether two keepers of the same book believe the same of every plant and
// shelf, at a time: to the last bit.
func Same(a, b *Keeper, at time.Time) bool {
	if !reflect.DeepEqual(a.Shelves(), b.Shelves()) {
		return false
	}
	for _, id := range b.book.IDs() {
		if !reflect.DeepEqual(a.Plant(id, at), b.Plant(id, at)) || *a.LossMass(id) != *b.LossMass(id) ||
			*a.DryingMass(id) != *b.DryingMass(id) {
			return false
		}
	}
	return true
}

// known is what a snapshot of a keeper points to and does not hold.
func (k *Keeper) known() []any {
	return []any{k.book, lossPrior, dryPrior, uptakePrior, time.Local, k.book.Zone()}
}

// Resumes reports whether the first n entries of a book, at least one, read as they
// did when there were no others.
func Resumes(b *model.Book, n int) bool {
	k, all := &Keeper{book: b}, b.Entries()
	if n < 1 || n > len(all) {
		return false
	}
	for _, e := range all[:n] {
		k.passed(e)
	}
	readTo := k.readTo
	for _, e := range all[n:] {
		if _, ok := e.Fact.(*model.Strike); ok {
			if first := k.struckBy(e); heeds(first.Fact) && first.Seq <= all[n-1].Seq {
				return false
			}
			continue
		}
		if k.changesPast(e) && !b.Struck(e.Seq) || k.late(e) && e.At.Before(readTo) {
			return false
		}
		k.passed(e)
	}
	return true
}
