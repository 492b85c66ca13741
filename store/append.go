package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	bolt "go.etcd.io/bbolt"

	"tubside/model"
)

// packed is how full journal pages may get before they split. Entries are only
// ever added at the end, so no room is kept for later ones.
const packed = 0.95

// Append adds an entry to the book: it is checked, written and synced in one
// transaction, then applied; it comes back with its number. A refusal is a
// [model.Problem]; ErrNotWritten, ErrUnconfirmed, ErrMoved and ErrReadOnly are as
// described there. After an error the open book is as it was, and the file too,
// but for ErrUnconfirmed: then only another opening can say.
func (s *Store) Append(e model.Entry) (model.Entry, error) {
	if err := s.writable(); err != nil {
		return e, err
	}
	e, line, err := asRead(e)
	if err != nil {
		return e, err
	}
	if err := s.book.Check(e); err != nil {
		return e, err
	}
	if err := s.write(line); err != nil {
		return e, err
	}
	e.Seq = s.end.seq
	return e, s.apply(e)
}

// apply has the open book take what was just written. It was checked on the same
// book, so that only a bug can stand in the way; should one, the book in memory is
// no longer that of the file, and nothing may build on it.
func (s *Store) apply(e model.Entry) error {
	err := s.book.Apply(e)
	if err == nil {
		return nil
	}
	s.dead = err
	return notTaken(s.path, e.Seq, err)
}

// writable says why nothing can be written, if nothing can.
func (s *Store) writable() error {
	switch {
	case s.opt.ReadOnly:
		return &trouble{ErrReadOnly, model.Problem{What: "the book is open for reading only"}, nil}
	case s.dead != nil:
		return notWritten(s.path, s.dead)
	case s.moved():
		return moved(s.path, "")
	}
	return nil
}

// write puts lines at the end of the journal, in one transaction.
func (s *Store) write(lines ...[]byte) error {
	ends := s.end.through(lines)
	err := careful(func() error {
		return s.db.Update(func(tx *bolt.Tx) error { return appendLines(tx, s.end, lines, ends) })
	})
	end := ends[len(ends)-1]
	if err == nil {
		s.end, s.wrote = end, true
		for _, e := range ends {
			s.sums = append(s.sums, e.sum)
		}
		return nil
	}
	if _, broke := errors.AsType[*fault](err); broke {
		s.dead = err
		return notWritten(s.path, err)
	}
	return s.failed(err, end)
}

// failed says what a failed write left behind. When the last step of all failed
// the entry is in the file, and whether it is on the disk nobody can say; nothing
// may build on it until the book was opened again.
func (s *Store) failed(err error, meant tail) error {
	var there bool
	look := careful(func() error {
		return s.db.View(func(tx *bolt.Tx) error {
			there = endsWith(tx, meant) == nil
			return nil
		})
	})
	if look != nil || there {
		s.dead = err
	}
	if there {
		return unconfirmed(s.path, meant.seq, err)
	}
	return notWritten(s.path, err)
}

// appendLines puts encoded entries, with where the journal ends after each, at its
// end. end is where the open book ends: were the file ahead of it, an earlier write
// reached the disk that was reported as lost, and nothing may build on that.
func appendLines(tx *bolt.Tx, end tail, lines [][]byte, ends []tail) error {
	if err := endsWith(tx, end); err != nil {
		return err
	}
	journal := tx.Bucket(journalBucket)
	journal.FillPercent = packed
	for i, line := range lines {
		end = ends[i]
		if err := journal.Put(key(end.seq), sealed(line, end.sum)); err != nil {
			return err
		}
	}
	return tx.Bucket(metaBucket).Put(lastKey, aboutValue(lastKey, end.text()))
}

// endsWith says why a journal does not end there, if it does not.
func endsWith(tx *bolt.Tx, end tail) error {
	about, journal := tx.Bucket(metaBucket), tx.Bucket(journalBucket)
	if about == nil || journal == nil {
		return errors.New("the journal is gone")
	}
	newest, _ := journal.Cursor().Last()
	if !bytes.Equal(newest, key(end.seq)) && (end.seq > 0 || newest != nil) ||
		!bytes.Equal(about.Get(lastKey), aboutValue(lastKey, end.text())) {
		return fmt.Errorf("the file does not end with entry %d as the open book does: close tubside and open it again",
			end.seq)
	}
	return nil
}

// asRead encodes an entry and gives it back as a later opening will read it, so
// that what is checked and applied now is what will be replayed then.
func asRead(e model.Entry) (model.Entry, []byte, error) {
	if e.Fact == nil {
		return e, nil, &model.Problem{What: "an entry that says nothing"}
	}
	line, err := json.Marshal(e)
	if err != nil {
		return e, nil, fmt.Errorf("encode the entry: %w", err)
	}
	line = cleaned(line)
	var read model.Entry
	if err := json.Unmarshal(line, &read); err != nil {
		return e, nil, fmt.Errorf("encode the entry: %w", err)
	}
	return read, line, nil
}

// progressEvery is after how many entries AppendAll reports: often
// enough for a smooth bar, too seldom to cost anything.
const progressEvery = 64

// AppendAll adds entries to the book in order, all of them or none. Each is
// checked on the book as the ones before it leave it, and they are numbered on
// from the newest, so that a strike may name an entry of the same call; then
// they are written and synced in one transaction. progress, which may be nil,
// hears how many have been checked. They come back as they were written, with
// their numbers. A refusal is an [AtEntry] around its [model.Problem]; other errors
// are as for [Store.Append]. After an error the book is as it was.
func (s *Store) AppendAll(entries []model.Entry, progress func(done, total int)) ([]model.Entry, error) {
	if err := s.writable(); err != nil {
		return nil, err
	}
	if len(entries) == 0 {
		return nil, nil
	}
	trial, lines, err := s.try(entries, progress)
	if err != nil {
		return nil, err
	}
	if err := s.write(lines...); err != nil {
		return nil, err
	}
	s.book.Become(trial)
	all := trial.Entries()
	return slices.Clone(all[len(all)-len(entries):]), nil
}

// AtEntry is what is wrong with one of several entries.
type AtEntry struct {
	Index int // in the call, from 0
	Err   error
}

// Error says which one it is, and why.
func (a *AtEntry) Error() string { return fmt.Sprintf("entry %d: %v", a.Index+1, a.Err) }

// Unwrap gives why.
func (a *AtEntry) Unwrap() error { return a.Err }

// try applies entries to a second book with the same past, and gives that book
// and the entries encoded.
func (s *Store) try(entries []model.Entry, progress func(done, total int)) (*model.Book, [][]byte, error) {
	trial, lines := s.book.Copy(), make([][]byte, len(entries))
	for i, e := range entries {
		e, line, err := asRead(e)
		lines[i] = line
		if err == nil {
			e.Seq = s.end.seq + model.Seq(i) + 1
			err = applyChecked(trial, e)
		}
		if err != nil {
			return nil, nil, &AtEntry{i, err}
		}
		if done := i + 1; progress != nil && (done%progressEvery == 0 || done == len(entries)) {
			progress(done, len(entries))
		}
	}
	return trial, lines, nil
}

func applyChecked(b *model.Book, e model.Entry) error {
	if err := b.Check(e); err != nil {
		return err
	}
	return b.Apply(e)
}
