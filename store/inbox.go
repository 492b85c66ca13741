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

// The inbox of a book is a folder beside it. Whoever finds the book in use leaves
// there, a file each time, what it would write; whoever has the book takes it in.
const (
	inboxSuffix   = ".inbox"
	waitingSuffix = ".json"
	refusedSuffix = ".refused"
)

// Left is what is left for a book in use: entries, all of which are taken in or
// none, or a spreadsheet.
type Left struct {
	Entries []model.Entry `json:"entries,omitempty"`
	// First is the number that the first entry was made with.
	First model.Seq `json:"first,omitempty"`
	// Mark is the key of the first entry that came without one of its own: it tells
	// that these entries are in the book already.
	Mark string `json:"mark,omitempty"`
	// From is the file they came from, and Lines where each stood in it. None for
	// one that came by itself.
	From  string `json:"from,omitempty"`
	Lines []int  `json:"lines,omitempty"`

	// Was are the rows that the entries edit, as they stood: what becomes of them
	// before the edit is taken in stays, but for what the edit changes.
	Was []model.Plant `json:"was,omitempty"`

	Sheet *Sheet `json:"sheet,omitempty"`
}

// Edits notes the rows that the entries edit, as they stand in the book that they
// were made on.
func (l *Left) Edits(b *model.Book) {
	for _, e := range l.Entries {
		if f, ok := e.Fact.(*model.Edit); ok {
			for _, p := range f.Plants {
				if row := b.Row(p.ID); row != nil {
					l.Was = append(l.Was, row.Plant)
				}
			}
		}
	}
}

// onto is an entry whose edits change only what they were to change of the rows as
// they are in a book.
func (l *Left) onto(b *model.Book, e model.Entry) model.Entry {
	f, ok := e.Fact.(*model.Edit)
	if !ok {
		return e
	}
	plants := slices.Clone(f.Plants)
	for i, p := range plants {
		was := slices.IndexFunc(l.Was, func(w model.Plant) bool { return w.ID == p.ID })
		if row := b.Row(p.ID); row != nil && was >= 0 {
			plants[i] = p.Onto(l.Was[was], row.Plant)
		}
	}
	e.Fact = &model.Edit{Plants: plants}
	return e
}

// Waiting is what lies in a book's inbox.
type Waiting struct {
	Left
	Name    string // of its file, without the folder and the suffix
	At      time.Time
	Refused bool  // the book could not take it
	Why     error // what was wrong; nil for one that just waits
}

// Leave puts something into the inbox of a book that is in use. It is on the disk
// when Leave returns, and is never taken in twice.
func Leave(path string, l Left) error {
	dir := path + inboxSuffix
	err := os.MkdirAll(dir, 0o700)
	if err == nil {
		err = leave(dir, l)
	}
	if err != nil {
		return notWritten(dir, err)
	}
	return nil
}

func leave(dir string, l Left) error {
	f, err := os.CreateTemp(dir, "entry-*.new")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	name := strings.TrimSuffix(filepath.Base(f.Name()), ".new")
	if i := slices.IndexFunc(l.Entries, func(e model.Entry) bool { return e.Once == "" }); i >= 0 {
		info, err := f.Stat()
		if err != nil {
			return errors.Join(err, f.Close())
		}
		l.Mark = fmt.Sprintf("%s-%d", name, info.ModTime().UnixNano())
		l.Entries = slices.Clone(l.Entries)
		l.Entries[i].Once = l.Mark
	}
	err = json.NewEncoder(f).Encode(l)
	if err := errors.Join(err, f.Sync(), f.Close()); err != nil {
		return err
	}
	if err := os.Rename(f.Name(), filepath.Join(dir, name+waitingSuffix)); err != nil {
		return err
	}
	return syncFolder(dir)
}

// Inbox lists what was left for a book, what it could not take among it, in the
// order in which it was left.
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
		text, err := os.ReadFile(filepath.Join(dir, n.Name()))
		if errors.Is(err, fs.ErrNotExist) {
			continue // taken in just now
		}
		if err == nil {
			w.Left, err = readLeft(text)
		}
		if info, infoErr := n.Info(); infoErr == nil {
			w.At = info.ModTime()
		}
		w.Why = err
		all = append(all, w)
	}
	slices.SortStableFunc(all, func(a, b Waiting) int { return a.At.Compare(b.At) })
	return all, nil
}

// readLeft reads a file of the inbox. An earlier tubside left an entry as it would
// stand in the journal.
func readLeft(text []byte) (l Left, err error) {
	if err := json.Unmarshal(text, &l); err != nil || len(l.Entries) > 0 || l.Sheet != nil {
		return l, err
	}
	l.Entries = make([]model.Entry, 1)
	err = l.Entries[0].UnmarshalJSON(text)
	return l, err
}

func (s *Store) waiting(name, suffix string) string {
	return filepath.Join(s.path+inboxSuffix, name+suffix)
}

// TryAgain lets what was refused wait again, and Drop throws away what waits or
// was refused. Both return a [model.Problem] when there is none of that name.
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
