package store

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"os"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/store/table"
)

// Sheet is a spreadsheet left for a book: it is read again when it is taken in, so
// that it changes the book as that stands then.
type Sheet struct {
	File       string         `json:"file"` // base name, as the entry will have it
	At         time.Time      `json:"at"`   // when it was left
	Dates      model.DayOrder `json:"dates,omitempty"`
	LeaveEmpty bool           `json:"leave_empty,omitempty"`
	LeaveOut   bool           `json:"leave_out,omitempty"`
	MistOnly   bool           `json:"mist_only,omitempty"`
	Yearless   bool           `json:"yearless,omitempty"`
	Text       []byte         `json:"text"`
}

// entry is what the sheet changes in a book; none where it changes nothing.
func (s *Sheet) entry(b *model.Book) ([]model.Entry, error) {
	sheet, err := table.Read(bytes.NewReader(s.Text), table.ReadOptions{Dates: s.Dates, LeaveEmpty: s.LeaveEmpty,
		LeaveOut: s.LeaveOut, MistOnly: s.MistOnly, Yearless: s.Yearless, Today: date.NewAt(s.At.In(b.Zone()))})
	if err != nil {
		return nil, err
	}
	fact, sum, err := table.Plan(b, sheet, s.At)
	if err != nil || !sum.Changes() {
		return nil, err
	}
	fact.File = s.File
	e := model.NewEntry(s.At, fact)
	e.Seq = b.NextSeq()
	return []model.Entry{e}, nil
}

// TakeIn writes what was left in the inbox, in the order in which it was left;
// taken hears of each that wrote something, before the next is written. What the
// book cannot take is set apart, and comes back; it stays until the grower tries
// it again or drops it.
func (s *Store) TakeIn(taken func(Waiting)) (refused []Waiting, err error) {
	all, err := Inbox(s.path)
	for _, w := range all {
		if w.Refused || err != nil {
			continue
		}
		switch w.Entries, err = s.takeIn(w); {
		case err == nil:
			if len(w.Entries) > 0 {
				taken(w)
			}
			err = os.Remove(s.waiting(w.Name, waitingSuffix))
		case isRefusal(err):
			w.Refused, w.Why = true, err
			refused = append(refused, w)
			err = os.Rename(s.waiting(w.Name, waitingSuffix), s.waiting(w.Name, refusedSuffix))
		}
	}
	return refused, err
}

// takeIn writes one, and gives what was written.
func (s *Store) takeIn(w Waiting) ([]model.Entry, error) {
	entries, err := w.on(s.book)
	switch {
	case err != nil || len(entries) == 0:
		return nil, err
	case len(entries) == 1: // a batch needs a second book to be tried on
		entries[0], err = s.Append(entries[0])
		return entries, w.where(0, err)
	}
	wrote, err := s.AppendAll(entries, nil)
	if at, ok := errors.AsType[*AtEntry](err); ok {
		err = w.where(at.Index, at.Err)
	}
	return wrote, err
}

// on is what a book has yet to take of it, renumbered for the book as it stands.
func (w *Waiting) on(b *model.Book) ([]model.Entry, error) {
	switch {
	case w.Why != nil && !w.Refused:
		return nil, &model.Problem{What: fmt.Sprintf("what was left as %s cannot be read (%v)", w.Name, w.Why)}
	case w.Sheet != nil:
		entries, err := w.Sheet.entry(b)
		if _, faults := errors.AsType[table.Faults](err); faults {
			err = &model.Problem{What: w.Sheet.File + ": " + err.Error()}
		}
		return entries, err
	}
	if _, all := b.Once(w.Mark); all {
		return nil, nil
	}
	for i := range w.Entries {
		w.Entries[i].Seq = cmp.Or(w.Entries[i].Seq, w.First+model.Seq(i))
	}
	b.Renumber(w.Entries...)
	fresh, lines := make([]model.Entry, 0, len(w.Entries)), w.Lines
	w.Lines = nil
	for i, e := range w.Entries {
		if _, done := b.Once(e.Once); done {
			continue // by its own key
		}
		fresh = append(fresh, w.onto(b, e))
		if i < len(lines) {
			w.Lines = append(w.Lines, lines[i])
		}
	}
	return fresh, nil
}

// where says which line a refused entry came from.
func (w *Waiting) where(i int, err error) error {
	if err == nil || i >= len(w.Lines) {
		return err
	}
	return fmt.Errorf("%s, line %d: %w", w.From, w.Lines[i], err)
}

// Try says why a book cannot take it, without changing anything.
func (w Waiting) Try(b *model.Book) error {
	_, err := w.try(b)
	return err
}

// Expect gives the book as it will be once what waits for it was taken in.
func Expect(b *model.Book, all []Waiting) *model.Book {
	for _, w := range all {
		if w.Refused {
			continue
		}
		if then, err := w.try(b); err == nil {
			b = then
		}
	}
	return b
}

// try gives a book that has taken it.
func (w Waiting) try(b *model.Book) (*model.Book, error) {
	entries, err := w.on(b)
	if err != nil || len(entries) == 0 {
		return b, err
	}
	trial := b.Copy()
	for i, e := range entries {
		if err := applyChecked(trial, e); err != nil {
			return nil, w.where(i, err)
		}
	}
	return trial, nil
}

// isRefusal reports whether it is the entry that is wrong, and not the disk or
// the file.
func isRefusal(err error) bool {
	_, ok := model.AsProblem(err)
	return ok && !errors.Is(err, ErrNotWritten) && !errors.Is(err, ErrUnconfirmed) && !errors.Is(err, ErrMoved) &&
		!errors.Is(err, ErrReadOnly)
}
