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
	Zone    string    `json:"zone"`    // the house's zone; empty when it has no name
	Entries int       `json:"entries"` // struck ones too
	Struck  int       `json:"struck"`
	Plants  int       `json:"plants"` // rows ever, gone ones too
	First   time.Time `json:"first,omitzero"`
	Last    time.Time `json:"last,omitzero"`
	Copies  []string  `json:"copies,omitempty"` // sound dated copies, the oldest first
}

// Check reads the whole file again: every page, every entry and its checksum,
// and the state they add up to. It returns ErrDamaged or ErrNewer when something
// is wrong, with the place; nothing is changed.
func (s *Store) Check() (Report, error) {
	r := Report{Path: s.path, Copies: soundCopies(s.path)}
	if s.dead != nil {
		return r, damaged(s.path, s.dead)
	}
	if err := careful(func() error { return s.inspect(&r) }); err != nil {
		return r, explain(s.path, err)
	}
	return r, nil
}

func (s *Store) inspect(r *Report) error {
	c, err := readLean(s.path)
	if err != nil {
		return err
	}
	r.Bytes, r.Schema, r.Zone = c.size, c.schema, c.zone
	book, err := c.replay(s.opt.Zone)
	if err != nil {
		return err
	}
	r.count(book)
	if s.db == nil {
		return nil
	}
	return s.db.View(checkPages)
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

// maxFaults is how many page faults are listed: one broken page is
// often reported many times over.
const maxFaults = 5

// checkPages runs bbolt's own check. It works in another goroutine, where a
// memory fault cannot be caught: [readBook] comes first.
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
