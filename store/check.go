package store

import (
	"errors"
	"fmt"
	"time"

	bolt "go.etcd.io/bbolt"

	"tubside/model"
)

// Report is what there is to know about the file of a book.
type Report struct {
	Path    string    `json:"path"`
	Bytes   int64     `json:"bytes"`
	Schema  int       `json:"schema"`
	Entries int       `json:"entries"` // struck ones too
	Struck  int       `json:"struck"`
	Plants  int       `json:"plants"` // rows ever, gone ones too
	First   time.Time `json:"first,omitzero"`
	Last    time.Time `json:"last,omitzero"`
	Copies  []string  `json:"copies,omitempty"` // sound dated copies, the oldest first
}

// Check reads the whole file again: every page, every entry, and the state they
// add up to. It returns ErrDamaged or ErrNewer when something is wrong; nothing
// is changed.
func (s *Store) Check() (Report, error) {
	r := Report{Path: s.path, Copies: soundCopies(s.path)}
	if s.dead != nil {
		return r, damaged(s.path, s.dead)
	}
	err := careful(func() error { return s.db.View(func(tx *bolt.Tx) error { return s.inspect(tx, &r) }) })
	if err != nil {
		return r, explain(s.path, err)
	}
	return r, nil
}

func (s *Store) inspect(tx *bolt.Tx, r *Report) (err error) {
	r.Bytes = tx.Size()
	if err := walkPages(s.path); err != nil {
		return err
	}
	if r.Schema, err = readSchema(tx); err != nil {
		return err
	}
	entries, err := readEntries(tx)
	if err != nil {
		return err
	}
	if err := checkPages(tx); err != nil {
		return err
	}
	book, err := model.Replay(entries, s.opt.Zone)
	if err != nil {
		return err
	}
	r.count(book)
	return nil
}

// count fills in the numbers of a sound book.
func (r *Report) count(b *model.Book) {
	r.Entries, r.Plants = len(b.Entries()), b.Len()
	for i, e := range b.Entries() {
		if b.Struck(e.Seq) {
			r.Struck++
		}
		if i == 0 || e.At.Before(r.First) {
			r.First = e.At
		}
		if e.At.After(r.Last) {
			r.Last = e.At
		}
	}
}

// maxFaults is how many page faults are listed. Our own: one broken page is
// often reported many times over.
const maxFaults = 5

// checkPages runs bbolt's own check. It works in another goroutine, where a
// memory fault cannot be caught: [walkPages] comes first.
func checkPages(tx *bolt.Tx) error {
	var found []error
	more := 0
	for err := range tx.Check() { // must be drained
		if len(found) < maxFaults {
			found = append(found, err)
		} else {
			more++
		}
	}
	if more > 0 {
		found = append(found, fmt.Errorf("and %d more", more))
	}
	return errors.Join(found...)
}
