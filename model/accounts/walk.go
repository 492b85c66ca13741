package accounts

import (
	"fmt"
	"slices"
	"time"

	"tubside/model"
)

// past is a book lived through once more, entry by entry, with what changed on
// the way.
type past struct {
	book    *model.Book // as it ended
	changes []change
	baths   []bath
	spells  map[model.ID][]spell
	labours []labour
	fills   []fill
	mixes   []mix

	then *model.Book // as it stands at the entry at hand
	met  map[model.ID]bool
	last map[model.ID]int // the plant's last bath

	served map[string]served // by vessel
}

// change is a row that came, went, moved or was counted anew.
type change struct {
	at      time.Time
	id      model.ID
	was, is standing
	fact    model.Fact // what told it
}

// standing is what the book says of a row at one moment, as far as the ledger
// asks. The zero standing is a row that is not there.
type standing struct {
	here       bool
	count      int
	shelf      string
	rot        bool
	how, cause string // once gone
}

// walk lives through a book. It only fails on a book that could not have been
// read.
func walk(b *model.Book) (*past, error) {
	w := &past{
		book: b, then: model.NewBook(b.Zone()),
		spells: map[model.ID][]spell{}, met: map[model.ID]bool{}, last: map[model.ID]int{},
		served: map[string]served{},
	}
	for _, e := range b.Entries() {
		if _, strike := e.Fact.(*model.Strike); strike || b.Struck(e.Seq) {
			continue
		}
		if err := w.live(e); err != nil {
			return nil, fmt.Errorf("entry %d (%s): %w", e.Seq, e.Fact.Kind(), err)
		}
	}
	return w, nil
}

// live takes one entry in and notes what it changed.
func (w *past) live(e model.Entry) error {
	ids := w.touched(e)
	was := make([]standing, len(ids))
	for i, id := range ids {
		was[i] = w.stands(id)
	}
	before := w.waterOf(e)
	if err := w.then.Apply(e); err != nil {
		return err
	}
	for i, id := range ids {
		w.compare(e, id, was[i])
	}
	w.meetNew(e)
	w.noteBaths(e)
	w.noteWork(e)
	w.noteWater(e, before)
	return nil
}

// touched lists the rows an entry may change, each once. New ones, which their
// entry may name, are met when it has been taken in.
func (w *past) touched(e model.Entry) model.IDs {
	ids := slices.DeleteFunc(slices.Clone(e.Plants), func(id model.ID) bool { return w.then.Row(id) == nil })
	var rows []model.Plant
	switch f := e.Fact.(type) {
	case *model.Edit:
		rows = f.Plants
	case *model.Import:
		rows = f.Changed
	}
	for _, p := range rows {
		if !e.Plants.Has(p.ID) {
			ids = append(ids, p.ID)
		}
	}
	return ids
}

func (w *past) stands(id model.ID) standing {
	r := w.then.Row(id)
	if r == nil {
		return standing{}
	}
	return standing{r.State != model.Gone, r.Count, r.Home.Shelf, !r.Rot.IsZero(), r.GoneHow, r.GoneCause}
}

func (w *past) compare(e model.Entry, id model.ID, was standing) {
	is := w.stands(id)
	if is == was {
		return
	}
	w.changes = append(w.changes, change{e.At, id, was, is, e.Fact})
	if was.here {
		w.noteRot(e.At, id, was, is)
	} else if is.rot { // a part of a tray that was suspected
		w.spells[id] = []spell{{at: w.then.Row(id).Rot, part: true}}
	}
}

// meetNew finds the rows an entry brought, whatever its kind.
func (w *past) meetNew(e model.Entry) {
	if len(w.met) == w.then.Len() {
		return
	}
	for _, id := range w.then.IDs() {
		if !w.met[id] {
			w.met[id] = true
			w.compare(e, id, standing{})
		}
	}
}
