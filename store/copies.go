package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"time"

	bolt "go.etcd.io/bbolt"

	"tubside/model"
)

// Of the dated copies the newest few are kept, and of those before them the
// newest of each of the last weeks and months that have one.
const (
	dailyCopies   = 7
	weeklyCopies  = 5
	monthlyCopies = 12
)

// Backup writes a sound copy of the book to another file, with all entries made
// so far. It never replaces a file.
func (s *Store) Backup(path string) error {
	if _, err := os.Lstat(path); err == nil {
		return &model.Problem{
			What: path + " is already there, and a backup replaces nothing",
			Do:   "name another file for the backup",
		}
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return fmt.Errorf("back up the book: %w", err)
	}
	c, err := s.contents()
	if err == nil {
		err = place(path, false, s.copyOf(c))
	}
	if err != nil {
		return fmt.Errorf("back up the book to %s: %w", path, err)
	}
	return nil
}

// contents reads what the open file says now.
func (s *Store) contents() (*contents, error) {
	if s.file == nil {
		return readBook(s.path)
	}
	// The file that is open, wherever it was moved to.
	r, err := readRaw(s.file)
	if err != nil {
		return nil, err
	}
	return r.read()
}

// copyOf makes a copy of what a file said and reads that back: it counts as good
// when it says the same and adds up to a book.
func (s *Store) copyOf(c *contents) func(temp string) error {
	return func(temp string) error {
		if err := write(temp, c.raw); err != nil {
			return err
		}
		again, err := verify(temp)
		if err == nil && again.end != c.end {
			err = fmt.Errorf("the copy ends with entry %d and the book with %d", again.end.seq, c.end.seq)
		}
		return err
	}
}

// write makes a book's file of what another one says.
func write(path string, r *raw) error {
	if r.lean {
		return errors.New("what is to be written was let go of")
	}
	return careful(func() error {
		db, err := bolt.Open(path, 0o600, &bolt.Options{Timeout: lockWait})
		if err != nil {
			return err
		}
		err = db.Update(r.put)
		for from := 0; err == nil && from < len(r.keys); from += stretch {
			err = db.Update(func(tx *bolt.Tx) error { return r.putSome(tx, from, min(from+stretch, len(r.keys))) })
		}
		return errors.Join(err, db.Close())
	})
}

// put writes the two buckets, with no entries yet.
func (r *raw) put(tx *bolt.Tx) error {
	about, err := tx.CreateBucket(metaBucket)
	if err != nil {
		return err
	}
	for k, v := range r.about {
		if err := about.Put([]byte(k), v); err != nil {
			return err
		}
	}
	journal, err := tx.CreateBucket(journalBucket)
	if err != nil {
		return err
	}
	return journal.SetSequence(r.sequence)
}

// putSome writes a stretch of the entries: bbolt holds all of a transaction in memory.
func (r *raw) putSome(tx *bolt.Tx, from, to int) error {
	journal := tx.Bucket(journalBucket)
	journal.FillPercent = packed
	for i := from; i < to; i++ {
		if err := journal.Put(r.keys[i], r.values[i]); err != nil {
			return err
		}
	}
	return nil
}

// verify reads a copy through: its pages, its chain, its entries, and the book
// they add up to.
func verify(path string) (*contents, error) {
	c, err := readLean(path)
	if err != nil {
		return nil, err
	}
	_, err = c.replay(time.UTC) // any zone: it says where days begin, not what may be
	return c, err
}

// keep makes the dated copy of a day beside the book and in the second folder,
// and lets go of those that are no longer needed. anew replaces the day's copy
// with what the book says now.
func (s *Store) keep(c *contents, anew bool) error {
	if c.end.seq == 0 || s.opt.Now.IsZero() {
		return nil
	}
	errs := []error{s.keepIn(filepath.Dir(s.path), c, anew)}
	if second := s.second; second != "" {
		errs = append(errs, s.keepIn(second, c, anew))
	}
	if err := errors.Join(errs...); err != nil {
		return noCopy(s.path, err)
	}
	return nil
}

func (s *Store) keepIn(dir string, c *contents, anew bool) error {
	path := filepath.Join(dir, filepath.Base(s.path))
	day := s.opt.Now.In(c.zoneOr(s.opt.Zone)).Format(time.DateOnly)
	dated := path + "." + day + ".bak"
	if _, err := os.Lstat(dated); err == nil {
		if !anew {
			return nil
		}
		if old, err := readLean(dated); err == nil && !c.continues(old) {
			return fmt.Errorf("%s is a copy of another book: move it away", dated)
		}
	}
	c, err := s.whole(c)
	if err == nil {
		err = place(dated, true, s.copyOf(c))
	}
	if err != nil {
		return err
	}
	return prune(datedCopies(path), day, c)
}

// whole is what the file says now, where how c stood in it was let go of.
func (s *Store) whole(c *contents) (*contents, error) {
	if !c.lean {
		return c, nil
	}
	again, err := readBook(s.path)
	if err == nil && (again.end.seq < c.end.seq || again.sums[c.end.seq-1] != c.end.sum) {
		err = errors.New("the file was replaced meanwhile")
	}
	return again, err
}

// continues reports whether a book's journal goes on from another's: whether all
// that the other says is in it.
func (c *contents) continues(old *contents) bool {
	n := old.end.seq
	return n <= c.end.seq && (n == 0 || c.sums[n-1] == old.end.sum)
}

// prune removes copies that the rule of days, weeks and months does not keep,
// but none that is dated after today, and none that says what the book does not
// say.
func prune(copies []string, today string, c *contents) error {
	for _, old := range unkept(copies, today) {
		past, err := readLean(old)
		if err != nil || !c.continues(past) {
			continue
		}
		if err := os.Remove(old); err != nil {
			return fmt.Errorf("remove an old copy: %w", err)
		}
	}
	return nil
}

// unkept lists the copies that are no longer needed on a day.
func unkept(copies []string, today string) []string {
	days, weeks, months := map[string]bool{}, map[string]bool{}, map[string]bool{}
	first := func(seen map[string]bool, name string, most int) bool {
		if seen[name] || len(seen) == most {
			return false
		}
		seen[name] = true
		return true
	}
	var out []string
	for _, c := range slices.Backward(copies) {
		day := dayOf(c)
		at, err := time.Parse(time.DateOnly, day)
		if err != nil || day > today {
			continue
		}
		year, week := at.ISOWeek()
		daily := first(days, day, dailyCopies)
		weekly := first(weeks, fmt.Sprint(year, week), weeklyCopies)
		monthly := first(months, day[:len("2026-01")], monthlyCopies)
		if !daily && !weekly && !monthly {
			out = append(out, c)
		}
	}
	return out
}

// dayOf is the day in a dated copy's name.
func dayOf(path string) string {
	const tail = len("2006-01-02.bak")
	return path[len(path)-tail : len(path)-len(".bak")]
}

// datedCopies lists the dated copies of a book, the oldest first.
func datedCopies(path string) []string {
	names, _ := os.ReadDir(filepath.Dir(path))
	var copies []string
	for _, n := range names {
		if ok, _ := filepath.Match(escape(filepath.Base(path))+".[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9].bak",
			n.Name()); ok {
			copies = append(copies, filepath.Join(filepath.Dir(path), n.Name()))
		}
	}
	slices.Sort(copies)
	return copies
}

// escape makes a file name stand for itself in a pattern.
func escape(name string) string {
	var b []byte
	for i := range len(name) {
		if slices.Contains([]byte(`\*?[`), name[i]) {
			b = append(b, '\\')
		}
		b = append(b, name[i])
	}
	return string(b)
}

// soundCopies are the dated copies that open and add up to a book, the oldest
// first.
func soundCopies(path string) []string {
	return slices.DeleteFunc(datedCopies(path), func(c string) bool {
		_, err := verify(c)
		return err != nil
	})
}

// NewestCopy is the newest dated copy beside a book that is whole. It returns
// fs.ErrNotExist when there is none.
func NewestCopy(path string) (Copy, error) {
	for _, c := range slices.Backward(datedCopies(path)) {
		if in, err := verify(c); err == nil {
			last := in.entries[len(in.entries)-1]
			return Copy{Path: c, Entries: len(in.entries), Last: last.At}, nil
		}
	}
	return Copy{}, fs.ErrNotExist
}

// HasCopies reports whether there are dated copies beside a book, good or not.
func HasCopies(path string) bool { return len(datedCopies(path)) > 0 }

// Copy is a dated copy of a book.
type Copy struct {
	Path    string
	Entries int
	Last    time.Time // of its newest entry
}
