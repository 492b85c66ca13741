// Package store keeps the book on disk: one bbolt file with a journal of
// entries that is only ever added to. Every entry is chained to the one before
// by a checksum. The state of the book is what the entries add up to, built anew
// at every opening.
package store

import (
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

// lockWait is how long Open waits for another copy to let go of the book when
// nobody says: long enough for a shell command to finish, short enough
// not to be felt as a hang. bbolt tries every 50 ms.
const lockWait = 200 * time.Millisecond

// Options say how to open a book.
type Options struct {
	// ReadOnly opens for looking only: the book as it stands on disk at that
	// moment, whoever else may be writing to it.
	ReadOnly bool

	// Begin begins a book where there is none.
	Begin bool

	// Zone is the grower's zone, kept in a book that is begun. A book that knows
	// its own zone is read in that one. Nil is the machine's.
	Zone *time.Location

	// Now is the wall-clock time of opening. It dates the copy that is made at
	// the first opening of a day; zero makes none.
	Now time.Time

	// CopyLater leaves that copy for [Store.CopyBeside], or for the end: making it would
	// be in the way of a first frame.
	CopyLater bool

	// Wait is how long to wait for another copy to let go of the book; zero is
	// a fifth of a second.
	Wait time.Duration

	// As is what opens it, as [AsBoard], told to whoever finds it in use.
	As string

	maxSize int // bytes; tests make a full disk with it
}

// Store is an open book. It is not safe for use from several goroutines at
// once.
type Store struct {
	path   string
	opt    Options
	db     *bolt.DB // nil when open for reading only
	file   *os.File // the file that db holds
	book   *model.Book
	end    tail   // where the journal ends
	sums   []sum  // of each entry
	second string // the second folder for copies; "" none
	begun  bool   // it was begun by this opening
	mended int    // entries whose header was torn
	wrote  bool   // something was added since opening
	dead   error  // set when bbolt broke down or could not confirm; nothing is written then

	uncopied *contents  // what the day's copy is to be made of, later; nil once it is begun
	copying  chan error // gives the outcome of the copy being made; nil when there is none
}

// Open opens the book at path. Where there is none it returns ErrMissing, or
// begins one if it may (the file with mode 0600, missing folders with 0700), but
// never beside copies of a book that was there. It returns ErrInUse, ErrDamaged,
// ErrForeign, ErrNewer, or an error of the file system. A file it refuses is left
// untouched.
func Open(path string, opt Options) (*Store, error) {
	if opt.Zone == nil {
		opt.Zone = time.Local
	}
	if opt.Wait == 0 {
		opt.Wait = lockWait
	}
	s := &Store{path: path, opt: opt}
	if err := s.exists(); err != nil {
		return nil, err
	}
	err := guard(path)
	if err == nil {
		err = careful(s.open)
	}
	if err != nil {
		s.letGo(err)
		return nil, explain(path, err)
	}
	return s, nil
}

// exists begins a book where there is none, if it may.
func (s *Store) exists() error {
	if _, err := os.Stat(s.path); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if !s.opt.Begin || s.opt.ReadOnly || len(datedCopies(s.path)) > 0 {
		return missing(s.path)
	}
	if err := begin(s.path, s.opt.Zone); err != nil && !errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("begin a book at %s: %w", s.path, err)
	} else if err == nil {
		s.begun = true
	}
	return nil
}

// begin makes an empty book. It is built under another name, so that a book is
// there whole or not at all.
func begin(path string, zone *time.Location) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	return place(path, false, func(temp string) error {
		return write(temp, &raw{about: about(zoneName(zone), tail{})})
	})
}

// about is what the meta bucket says.
func about(zone string, end tail) map[string][]byte {
	return map[string][]byte{
		string(magicKey):  magic,
		string(schemaKey): aboutValue(schemaKey, fmt.Sprint(Schema)),
		string(zoneKey):   aboutValue(zoneKey, zone),
		string(lastKey):   aboutValue(lastKey, end.text()),
	}
}

// open reads the book, and for writing locks it first.
func (s *Store) open() (err error) {
	if !s.opt.ReadOnly {
		if err := s.lock(); err != nil {
			return err
		}
	}
	c, err := readLean(s.path)
	if err != nil {
		return err
	}
	s.sums, s.mended = c.sums, len(c.orphans)
	if s.book, err = c.replay(s.opt.Zone); err != nil || s.opt.ReadOnly {
		return err
	}
	if err := s.mend(c); err != nil {
		return err
	}
	s.opt.Zone, s.end, s.second = s.book.Zone(), c.end, s.book.CopiesTo()
	return s.settle(c)
}

// lock opens the file for writing, which locks it.
func (s *Store) lock() (err error) {
	s.db, err = bolt.Open(s.path, 0o600, &bolt.Options{
		Timeout: s.opt.Wait, PreLoadFreelist: true, MaxSize: s.opt.maxSize,
		OpenFile: func(path string, flag int, mode os.FileMode) (f *os.File, err error) {
			s.file, err = os.OpenFile(path, flag&^os.O_CREATE, mode)
			return s.file, err
		},
	})
	return err
}

// settle does what comes first once the book is open for writing.
func (s *Store) settle(c *contents) error {
	s.sign()
	sweep(s.path)
	if c.schema < Schema {
		return s.upgrade(c)
	}
	if s.uncopied = c; s.opt.CopyLater {
		c.shed()
	} else {
		s.CopyBeside()
	}
	return nil
}

// CopyBeside makes the day's copy while the book is already in use, unless that is
// done or under way.
func (s *Store) CopyBeside() {
	c := s.uncopied
	if c == nil {
		return
	}
	s.uncopied, s.copying = nil, make(chan error, 1)
	go func() { s.copying <- careful(func() error { return s.keep(c, false) }) }()
}

// copied waits for the day's copy and gives its outcome.
func (s *Store) copied() (err error) {
	s.CopyBeside()
	if s.copying != nil {
		err = <-s.copying
		s.copying = nil
	}
	return err
}

// KeepCopy makes the day's copy anew, with all that was written so far: before
// something large is brought in. The error is ErrNoCopy.
func (s *Store) KeepCopy() error {
	first := s.copied()
	s.second = s.book.CopiesTo()
	c, err := s.contents()
	if err != nil {
		return noCopy(s.path, err)
	}
	return errors.Join(first, s.keep(c, true))
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
	case errors.Is(err, ErrNotWritten):
		return err
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

// Begun reports whether the book was begun by this opening.
func (s *Store) Begun() bool { return s.begun }

// Wrote reports whether something was added since opening.
func (s *Store) Wrote() bool { return s.wrote }

// Close lets go of the book, once the day's copy is made. On a book's first day
// that copy is made now, of what was written. Without the copy the book itself is
// whole; the error is ErrNoCopy then. When the file was moved, replaced or deleted
// meanwhile, what was open is saved beside where it was, and the error, ErrMoved,
// says where.
func (s *Store) Close() error {
	err := s.copied()
	if s.db != nil && s.dead == nil && s.moved() {
		err = errors.Join(s.saveMoved(), err)
	} else if s.wrote && s.dead == nil {
		s.second = s.book.CopiesTo()
		c, readErr := s.contents()
		if readErr == nil {
			readErr = s.keep(c, false)
		}
		err = errors.Join(err, readErr)
	}
	return errors.Join(err, s.letGo(s.dead))
}

// letGo closes the file unless bbolt broke down with it.
func (s *Store) letGo(why error) error {
	if _, broke := errors.AsType[*fault](why); broke || s.db == nil {
		return nil
	}
	s.unsign()
	return careful(s.db.Close)
}
