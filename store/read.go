package store

import (
	"errors"
	"os"
	"time"

	"tubside/model"
)

// rereads is how often a reader that a writer overtook begins again: a
// page is overwritten at the earliest by the second entry after, so a reader is
// only overtaken by a burst.
const rereads = 20

// readBook reads the file of a book, whether or not it is in use.
func readBook(path string) (*contents, error) { return readFile(path, false) }

// readLean is readBook for who needs the entries and not how they stand in the file: of
// a large book that is half of the memory.
func readLean(path string) (*contents, error) { return readFile(path, true) }

func readFile(path string, lean bool) (c *contents, err error) {
	for range rereads {
		var tx uint64
		if c, tx, err = readOnce(path, lean); err == nil || tx == 0 {
			return c, err
		}
		if now, again := newestTx(path); again != nil || now == tx {
			return nil, err
		}
	}
	return nil, err
}

// readOnce reads one state of the file and gives the transaction it tried to
// read.
func readOnce(path string, lean bool) (*contents, uint64, error) {
	f, err := openPlain(path)
	if err != nil {
		return nil, 0, err
	}
	defer f.Close()
	c := &contents{raw: new(raw)}
	if lean {
		c.full = c.takeAway
	}
	if err := c.fill(f); err != nil {
		return nil, c.tx, err
	}
	if err = c.finish(); err == nil {
		err = c.takeOrphans(f)
	}
	return c, c.tx, err
}

func newestTx(path string) (uint64, error) {
	f, err := openPlain(path)
	if err != nil {
		return 0, err
	}
	defer f.Close()
	m, _, err := newestMeta(f)
	return m.tx, err
}

// openPlain opens a file for reading, and nothing that is not a plain file: a
// pipe would be waited for, for ever.
func openPlain(path string) (*os.File, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, errNotPlain
	}
	return os.Open(path)
}

var errNotPlain = errors.New("it is not a plain file")

// replay builds the book that a file's entries add up to. The house's zone is the
// file's own; zone is for a file that names none.
func (c *contents) replay(zone *time.Location) (*model.Book, error) {
	return model.Replay(c.entries, c.zoneOr(zone))
}

// zoneOr is the house's zone, or the one given when the file names none.
func (c *contents) zoneOr(zone *time.Location) *time.Location {
	if c.zone == "" {
		return zone
	}
	if own, err := time.LoadLocation(c.zone); err == nil {
		return own
	}
	return zone
}
