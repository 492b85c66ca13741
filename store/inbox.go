package store

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"tubside/model"
)

// The inbox of a book is a folder beside it with one entry a file, as it would
// stand in the journal. Whoever finds the book in use leaves its entry there;
// whoever has the book takes it in.
const (
	inboxSuffix   = ".inbox"
	waitingSuffix = ".json"
	refusedSuffix = ".refused"
)

// Waiting is an entry in a book's inbox.
type Waiting struct {
	Name    string // of its file, without the folder and the suffix
	Left    time.Time
	Entry   model.Entry
	Refused bool  // the book could not take it
	Why     error // what was wrong; nil for one that just waits
}

// Leave puts an entry into the inbox of a book that is in use. It is on the disk
// when Leave returns. An entry without a key of its own is given one, so that it
// is never taken in twice.
func Leave(path string, e model.Entry) error {
	dir := path + inboxSuffix
	err := os.MkdirAll(dir, 0o700)
	if err == nil {
		err = leave(dir, e)
	}
	if err != nil {
		return notWritten(dir, err)
	}
	return nil
}

func leave(dir string, e model.Entry) error {
	f, err := os.CreateTemp(dir, "entry-*.new")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	name := strings.TrimSuffix(filepath.Base(f.Name()), ".new")
	if e.Once == "" {
		info, err := f.Stat()
		if err != nil {
			return errors.Join(err, f.Close())
		}
		e.Once = fmt.Sprintf("%s-%d", name, info.ModTime().UnixNano())
	}
	line, err := json.Marshal(e)
	if err != nil {
		return errors.Join(err, f.Close())
	}
	_, err = f.Write(line)
	if err := errors.Join(err, f.Sync(), f.Close()); err != nil {
		return err
	}
	if err := os.Rename(f.Name(), filepath.Join(dir, name+waitingSuffix)); err != nil {
		return err
	}
	return syncFolder(dir)
}

// Inbox lists the entries left for a book, those it could not take among them, in
// the order they were left.
func Inbox(path string) ([]Waiting, error) {
	dir := path + inboxSuffix
	names, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var all []Waiting
	for _, n := range names {
		name, waits := strings.CutSuffix(n.Name(), waitingSuffix)
		if !waits {
			var refused bool
			if name, refused = strings.CutSuffix(n.Name(), refusedSuffix); !refused {
				continue
			}
		}
		w := Waiting{Name: name, Refused: !waits}
		line, err := os.ReadFile(filepath.Join(dir, n.Name()))
		if errors.Is(err, fs.ErrNotExist) {
			continue // taken in just now
		}
		if err == nil {
			err = w.Entry.UnmarshalJSON(line)
		}
		if info, infoErr := n.Info(); infoErr == nil {
			w.Left = info.ModTime()
		}
		w.Why = err
		all = append(all, w)
	}
	slices.SortStableFunc(all, func(a, b Waiting) int { return a.Left.Compare(b.Left) })
	return all, nil
}

// TakeIn writes the entries that were left in the inbox, in the order they were
// left; taken hears of each once it is written, before the next is. One that the
// book cannot take is set apart and comes back; it stays until the grower tries
// it again or drops it.
func (s *Store) TakeIn(taken func(model.Entry)) (refused []Waiting, err error) {
	all, err := Inbox(s.path)
	for _, w := range all {
		if w.Refused || err != nil {
			continue
		}
		var e model.Entry
		switch e, err = s.takeIn(w); {
		case err == nil:
			if e.Seq != 0 {
				taken(e)
			}
			err = os.Remove(s.waiting(w.Name, waitingSuffix))
		case isRefusal(err):
			w.Refused, w.Why = true, err
			refused = append(refused, w)
			err = os.Rename(s.waiting(w.Name, waitingSuffix), s.waiting(w.Name, refusedSuffix))
		}
	}
	return refused, err
}

// takeIn writes one. One that is in the book already is given without a number.
func (s *Store) takeIn(w Waiting) (model.Entry, error) {
	if w.Why != nil {
		return w.Entry, &model.Problem{What: fmt.Sprintf("an entry left as %s cannot be read (%v)", w.Name, w.Why)}
	}
	if _, done := s.book.Once(w.Entry.Once); done {
		return model.Entry{}, nil
	}
	return s.Append(s.book.Renumber(w.Entry))
}

// isRefusal reports whether it is the entry that is wrong, and not the disk or
// the file.
func isRefusal(err error) bool {
	_, ok := model.AsProblem(err)
	return ok && !errors.Is(err, ErrNotWritten) && !errors.Is(err, ErrUnconfirmed) && !errors.Is(err, ErrMoved) &&
		!errors.Is(err, ErrReadOnly)
}

func (s *Store) waiting(name, suffix string) string {
	return filepath.Join(s.path+inboxSuffix, name+suffix)
}

// TryAgain lets an entry that was refused wait again, and Drop throws away one
// that waits or was refused. Both return a [model.Problem] when there is none of
// that name.
func TryAgain(path, name string) error {
	from := filepath.Join(path+inboxSuffix, filepath.Base(name))
	return known(name, os.Rename(from+refusedSuffix, from+waitingSuffix))
}

// Drop is described at [TryAgain].
func Drop(path, name string) error {
	file := filepath.Join(path+inboxSuffix, filepath.Base(name))
	err := os.Remove(file + refusedSuffix)
	if errors.Is(err, fs.ErrNotExist) {
		err = os.Remove(file + waitingSuffix)
	}
	return known(name, err)
}

func known(name string, err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return &model.Problem{
			What: "there is no entry " + name + " in the inbox",
			Do:   "list them with: tubside book inbox",
		}
	}
	return err
}
