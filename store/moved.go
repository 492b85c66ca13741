package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
)

// moved reports whether the file that is open is no longer the book's: it was
// moved, deleted, or replaced by a sync program or by hand.
func (s *Store) moved() bool {
	at, err := os.Stat(s.path)
	open, openErr := s.file.Stat()
	return err != nil || openErr != nil || !os.SameFile(at, open)
}

// mostSaved bounds the search for a free name.
const mostSaved = 1000

// saveMoved writes what the open file says to a new file beside where the book
// was.
func (s *Store) saveMoved() error {
	c, err := s.contents()
	for n := 1; err == nil && n < mostSaved; n++ {
		path := fmt.Sprintf("%s.saved-%d", s.path, n)
		if err = place(path, false, s.copyOf(c)); err == nil {
			return moved(s.path, path)
		}
		if errors.Is(err, fs.ErrExist) {
			err = nil
		}
	}
	return errors.Join(moved(s.path, ""), err)
}
