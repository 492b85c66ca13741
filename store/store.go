// Package store keeps the book on disk: one bbolt file with a journal of
// entries that is only ever added to. The state of the book is what the
// entries add up to, built anew at every opening.
package store

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	bolt "go.etcd.io/bbolt"
	boltcode "go.etcd.io/bbolt/errors"

	"tubside/model"
)

// lockWait is how long Open waits for another copy to let go of the book. Our
// own: long enough for a shell command to finish, short enough not to be felt
// as a hang. bbolt tries every 50 ms.
const lockWait = 200 * time.Millisecond

// Options say how to open a book.
type Options struct {
	// ReadOnly opens for looking only. Several may look at once; while another
	// copy writes, even this fails with ErrInUse.
	ReadOnly bool

	// Zone is the grower's zone. Nil is the machine's.
	Zone *time.Location

	// Now is the wall-clock time of opening. It dates the copy that Close
	// makes after the day's first change; zero makes none.
	Now time.Time

	maxSize int // bytes; tests make a full disk with it
}

// Store is an open book. It is not safe for use from several goroutines at
// once.
type Store struct {
	path  string
	opt   Options
	db    *bolt.DB
	book  *model.Book
	last  model.Seq // the number of the newest entry
	wrote bool      // something was added since opening
	dead  error     // set when bbolt broke down; db is then not touched again
}

// Open opens the book at path, or begins one there (the file with mode 0600,
// missing folders with 0700) unless it is to be read only. It returns ErrInUse,
// ErrDamaged, ErrForeign, ErrNewer, or an error of the file system. A file it
// refuses is left untouched.
func Open(path string, opt Options) (*Store, error) {
	if opt.Zone == nil {
		opt.Zone = time.Local
	}
	if err := begin(path, opt); err != nil {
		return nil, fmt.Errorf("open the book %s: %w", path, err)
	}
	if err := guard(path); err != nil {
		return nil, explain(path, err)
	}
	s := &Store{path: path, opt: opt}
	err := careful(s.open)
	if err != nil {
		s.letGo(err)
		return nil, explain(path, err)
	}
	return s, nil
}

// begin makes an empty book where there is no file. It is built under another
// name, so that a book is there whole or not at all.
func begin(path string, opt Options) error {
	if _, err := os.Stat(path); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if opt.ReadOnly {
		return &model.Problem{What: "there is no book yet", Do: "add a plant or import a list to begin one"}
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	return place(path, false, func(temp string) error {
		db, err := bolt.Open(temp, 0o600, &bolt.Options{Timeout: lockWait})
		if err != nil {
			return err
		}
		return errors.Join(db.Update(initialise), db.Close())
	})
}

// open opens the file and builds the book.
func (s *Store) open() (err error) {
	s.db, err = bolt.Open(s.path, 0o600, &bolt.Options{
		Timeout: lockWait, ReadOnly: s.opt.ReadOnly, PreLoadFreelist: true, MaxSize: s.opt.maxSize,
	})
	if err != nil {
		return err
	}
	if err := walkPages(s.path); err != nil {
		return err
	}
	var entries []model.Entry
	err = s.db.View(func(tx *bolt.Tx) (err error) {
		if _, err = readSchema(tx); err != nil {
			return err
		}
		if entries, err = readEntries(tx); err != nil {
			return err
		}
		s.last = model.Seq(tx.Bucket(journalBucket).Sequence())
		return checkPages(tx)
	})
	if err != nil {
		return err
	}
	s.book, err = model.Replay(entries, s.opt.Zone)
	return err
}

// explain turns what went wrong at opening into words and a kind.
func explain(path string, err error) error {
	switch {
	case errors.Is(err, boltcode.ErrTimeout):
		return inUse(path)
	case errors.Is(err, ErrForeign):
		return foreign(path)
	case errors.Is(err, ErrNewer):
		return newer(path, err)
	}
	if _, isPath := errors.AsType[*fs.PathError](err); isPath {
		return fmt.Errorf("open the book: %w", err)
	}
	return damaged(path, err)
}

// Book is the state of the book. The pointer stays the same for as long as the
// store is open, and sees every entry appended.
func (s *Store) Book() *model.Book { return s.book }

// Path is the file of the book.
func (s *Store) Path() string { return s.path }

// Append adds an entry to the book: it is checked, written and synced in one
// transaction, then applied; it comes back with its number. A refusal is a
// [model.Problem]; ErrNotWritten and ErrReadOnly are as described there. After
// an error the book is as it was.
func (s *Store) Append(e model.Entry) (model.Entry, error) {
	if err := s.writable(); err != nil {
		return e, err
	}
	e, value, err := asRead(e)
	if err != nil {
		return e, err
	}
	if err := s.book.Check(e); err != nil {
		return e, err
	}
	err = careful(func() error {
		return s.db.Update(func(tx *bolt.Tx) (err error) {
			e.Seq, err = appendEntry(tx, s.last, value)
			return err
		})
	})
	if err != nil {
		e.Seq = 0
		return e, s.failed(err)
	}
	s.last, s.wrote = e.Seq, true
	return e, s.book.Apply(e)
}

func (s *Store) writable() error {
	switch {
	case s.opt.ReadOnly:
		return &trouble{ErrReadOnly, model.Problem{What: "the book is open for reading only"}, nil}
	case s.dead != nil:
		return notWritten(s.path, s.dead)
	}
	return nil
}

// failed notes a breakdown of bbolt and explains a write that did not happen.
func (s *Store) failed(err error) error {
	if _, broke := errors.AsType[*fault](err); broke {
		s.dead = err
	}
	return notWritten(s.path, err)
}

// asRead encodes an entry and gives it back as a later opening will read it, so
// that what is checked and applied now is what will be replayed then.
func asRead(e model.Entry) (model.Entry, []byte, error) {
	if e.Fact == nil {
		return e, nil, &model.Problem{What: "an entry that says nothing"}
	}
	value, err := json.Marshal(e)
	if err != nil {
		return e, nil, fmt.Errorf("encode the entry: %w", err)
	}
	var read model.Entry
	if err := json.Unmarshal(value, &read); err != nil {
		return e, nil, fmt.Errorf("encode the entry: %w", err)
	}
	return read, value, nil
}

// Close lets go of the book, after making the day's dated copy if this was the
// day's first change. Without the copy the book itself is still whole; the
// error says so.
func (s *Store) Close() error {
	var copied error
	if s.wrote && s.dead == nil {
		copied = s.dailyCopy()
	}
	return errors.Join(copied, s.letGo(s.dead))
}

// letGo closes the file unless bbolt broke down with it.
func (s *Store) letGo(why error) error {
	if _, broke := errors.AsType[*fault](why); broke || s.db == nil {
		return nil
	}
	return careful(s.db.Close)
}
