package store

import (
	"fmt"
	"slices"

	bolt "go.etcd.io/bbolt"

	"tubside/model"
)

// progressEvery is after how many entries AppendAll reports. Our own: often
// enough for a smooth bar, too seldom to cost anything.
const progressEvery = 64

// AppendAll adds entries to the book in order, all of them or none. Each is
// checked on the book as the ones before it leave it, and they are numbered on
// from the newest, so that a strike may name an entry of the same call; then
// they are written and synced in one transaction. progress, which may be nil,
// hears how many have been checked. They come back as they were written, with
// their numbers. A refusal names the entry by its place in the call and wraps its [model.Problem]; other errors are as for
// [Store.Append]. After an error the book is as it was.
func (s *Store) AppendAll(entries []model.Entry, progress func(done, total int)) ([]model.Entry, error) {
	if err := s.writable(); err != nil {
		return nil, err
	}
	if len(entries) == 0 {
		return nil, nil
	}
	trial, values, err := s.try(entries, progress)
	if err != nil {
		return nil, err
	}
	last := s.last
	err = careful(func() error {
		return s.db.Update(func(tx *bolt.Tx) (err error) {
			last, err = appendAll(tx, last, values)
			return err
		})
	})
	if err != nil {
		return nil, s.failed(err)
	}
	*s.book = *trial // in place: others hold the pointer
	s.last, s.wrote = last, true
	all := trial.Entries()
	return slices.Clone(all[len(all)-len(entries):]), nil
}

// try applies entries to a second book with the same past, and gives that book
// and the entries encoded.
func (s *Store) try(entries []model.Entry, progress func(done, total int)) (*model.Book, [][]byte, error) {
	trial, err := model.Replay(slices.Clip(s.book.Entries()), s.opt.Zone)
	if err != nil {
		return nil, nil, fmt.Errorf("read the book again: %w", err)
	}
	values := make([][]byte, len(entries))
	for i, e := range entries {
		e, values[i], err = asRead(e)
		if err == nil {
			e.Seq = s.last + model.Seq(i) + 1
			err = applyChecked(trial, e)
		}
		if err != nil {
			return nil, nil, fmt.Errorf("entry %d of %d: %w", i+1, len(entries), err)
		}
		if done := i + 1; progress != nil && (done%progressEvery == 0 || done == len(entries)) {
			progress(done, len(entries))
		}
	}
	return trial, values, nil
}

func applyChecked(b *model.Book, e model.Entry) error {
	if err := b.Check(e); err != nil {
		return err
	}
	return b.Apply(e)
}

// appendAll puts encoded entries at the end of the journal and gives the number
// of the newest.
func appendAll(tx *bolt.Tx, last model.Seq, values [][]byte) (_ model.Seq, err error) {
	for _, value := range values {
		if last, err = appendEntry(tx, last, value); err != nil {
			return last, err
		}
	}
	return last, nil
}
