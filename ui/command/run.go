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
	"tubside/model/estimate"
	"tubside/store"
	"tubside/store/beliefs"
	"tubside/ui/show"
)

// run is one command line being carried out.
type run struct {
	env   Env
	path  string  // of the book, as given
	fixed instant // stands in for the clock when it is not zero
	once  string  // the key of the entry's own
	plain string  // the screen to write as lines
	json  bool
	ascii bool
	began bool // the words were understood

	beliefs  beliefs.Cache    // of the open book
	believed *estimate.Keeper // what was made of it; nil when nobody asked
}

// readEnv takes from the environment what no flag gave.
func (r *run) readEnv() error {
	if r.path == "" {
		r.path = r.env.Getenv("TUBSIDE_BOOK")
	}
	if zone, ok := store.ZoneOf(r.bookPath()); ok {
		time.Local = zone // days and times are the house's, wherever the machine is
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

// look opens the book for reading and lets it go again. Whoever else has it is
// not in the way.
func (r *run) look(f func(*store.Store) error) error {
	return r.with(store.Options{ReadOnly: true}, f)
}

// first opens the book for writing, begins it if there is none, and lets it go
// again.
func (r *run) first(f func(*store.Store) error) error {
	return r.with(store.Options{Begin: true}, f)
}

// open opens the book.
func (r *run) open(opt store.Options) (*store.Store, error) {
	opt.Now = r.now()
	s, err := store.Open(r.bookPath(), opt)
	if err == nil {
		r.beliefs = beliefs.In(r.env.Cache, s)
	}
	if err == nil && s.Begun() {
		r.warn("began a new book at %s", s.Path())
	}
	if err == nil && s.Mended() > 0 {
		r.warn("the last write to the book was cut off, as when the power goes; %s found whole, and in the book",
			show.Count(s.Mended(), "entry was", "entries were"))
	}
	return s, err
}

// keeper is what is believed of the plants of a book.
func (r *run) keeper(b *model.Book) *estimate.Keeper {
	r.believed = r.beliefs.Keeper(b)
	return r.believed
}

// keepBeliefs leaves what was worked out for the next command. Without it that one
// takes longer, and no more.
func (r *run) keepBeliefs(s *store.Store) {
	if r.believed != nil && r.believed.Book() == s.Book() {
		_ = beliefs.In(r.env.Cache, s).Keep(r.believed)
	}
}

func (r *run) with(opt store.Options, f func(*store.Store) error) error {
	s, err := r.open(opt)
	if err != nil {
		return err
	}
	if err := r.trustClock(s, opt); err != nil {
		return r.ended(s, err)
	}
	if !opt.ReadOnly {
		r.takeIn(s)
	}
	err = f(s)
	r.keepBeliefs(s)
	return r.ended(s, err)
}

// ended lets the book go. What went wrong after an entry was written is a
// warning: a script that tried again would write it twice.
func (r *run) ended(s *store.Store, err error) error {
	closed := s.Close()
	if errors.Is(closed, store.ErrNoCopy) {
		r.warn("%v", closed)
		closed = nil
	}
	var unsaid *outputError
	if errors.As(err, &unsaid) && s.Wrote() {
		r.warn("it was written, but the answer could not be given: %v", unsaid.error)
		err = nil
	}
	return errors.Join(err, closed)
}

// warn tells a person something on standard error that is no failure.
func (r *run) warn(format string, args ...any) {
	fmt.Fprintf(r.env.Err, "tubside: %s\n", clean(fmt.Sprintf(format, args...)))
}

// peek reads the book, or an empty one where there is none yet, so that
// questions that need no plants have an answer from the first day.
func (r *run) peek(f func(*model.Book) error) error {
	if _, err := os.Stat(r.bookPath()); errors.Is(err, fs.ErrNotExist) {
		return f(model.NewBook(time.Local))
	}
	return r.look(func(s *store.Store) error { return f(s.Book()) })
}
