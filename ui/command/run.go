package command

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/adrg/xdg"

	"tubside/model"
	"tubside/store"
)

// run is one command line being carried out.
type run struct {
	env   Env
	path  string  // of the book, as given
	fixed instant // stands in for the clock when it is not zero
	json  bool
	ascii bool
	began bool // the words were understood
}

// readEnv takes from the environment what no flag gave.
func (r *run) readEnv() error {
	if r.path == "" {
		r.path = r.env.Getenv("TUBSIDE_BOOK")
	}
	r.ascii = r.ascii || r.env.Getenv("TUBSIDE_ASCII") != ""
	if text := r.env.Getenv("TUBSIDE_NOW"); r.fixed.IsZero() && text != "" {
		if err := r.fixed.Set(text); err != nil {
			return fmt.Errorf("TUBSIDE_NOW: %w", err)
		}
	}
	return nil
}

// now is the time of everything this command does.
func (r *run) now() time.Time {
	if !r.fixed.IsZero() {
		return r.fixed.Local()
	}
	return r.env.Clock()
}

// bookPath is the file of the book: the one given, else the one in the user's
// data folder.
func (r *run) bookPath() string {
	if r.path != "" {
		return r.path
	}
	return filepath.Join(xdg.DataHome, "tubside", "book.db")
}

func (r *run) options(readOnly bool) store.Options {
	return store.Options{ReadOnly: readOnly, Begin: !readOnly, Zone: time.Local, Now: r.now()}
}

// look opens the book for reading and lets it go again.
func (r *run) look(f func(*store.Store) error) error {
	return r.with(true, f)
}

// change opens the book for writing, begins it if there is none, and lets it
// go again.
func (r *run) change(f func(*store.Store) error) error {
	return r.with(false, f)
}

func (r *run) with(readOnly bool, f func(*store.Store) error) error {
	s, err := store.Open(r.bookPath(), r.options(readOnly))
	if err != nil {
		return err
	}
	return errors.Join(f(s), s.Close())
}

// peek reads the book, or an empty one where there is none yet, so that
// questions that need no plants have an answer from the first day.
func (r *run) peek(f func(*model.Book) error) error {
	if _, err := os.Stat(r.bookPath()); errors.Is(err, fs.ErrNotExist) {
		return f(model.NewBook(time.Local))
	}
	return r.look(func(s *store.Store) error { return f(s.Book()) })
}
