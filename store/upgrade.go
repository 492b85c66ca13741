package store

import (
	"os"

	bolt "go.etcd.io/bbolt"
)

// upgrade brings a book of layout 1 up to date: after a copy of it as it is, its
// entries are chained and the house's zone is noted, in one transaction. A copy
// that cannot be made stops it.
func (s *Store) upgrade(c *contents) error {
	if s.opt.Now.IsZero() { // nobody says what day it is: the day of its last change
		info, err := os.Stat(s.path)
		if err != nil {
			return err
		}
		s.opt.Now = info.ModTime()
	}
	if err := s.keep(c, true); err != nil {
		return notWritten(s.path, err)
	}
	err := s.db.Update(func(tx *bolt.Tx) error { return s.chain(tx, c) })
	if err != nil {
		return notWritten(s.path, err)
	}
	return nil
}

// chain writes a sum behind every entry, and where they end.
func (s *Store) chain(tx *bolt.Tx, c *contents) error {
	journal, end := tx.Bucket(journalBucket), tail{}
	journal.FillPercent = packed
	for i, line := range c.values {
		end = end.next(line)
		if err := journal.Put(c.keys[i], sealed(line, end.sum)); err != nil {
			return err
		}
	}
	if err := journal.SetSequence(0); err != nil {
		return err
	}
	for k, v := range about(zoneName(s.opt.Zone), end) {
		if err := tx.Bucket(metaBucket).Put([]byte(k), v); err != nil {
			return err
		}
	}
	return nil
}
