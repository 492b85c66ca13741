package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	bolt "go.etcd.io/bbolt"

	"tubside/model"
)

// keptCopies is how many dated copies stay beside the book. Our own: with one a
// day, a week of soak days to go back to.
const keptCopies = 7

// Backup writes a sound copy of the book to another file. A file of that name
// is replaced only once the copy is complete, synced and checked.
func (s *Store) Backup(path string) error {
	if sameFile(path, s.path) {
		return &model.Problem{What: fmt.Sprintf("%s is the book itself", path), Do: "name another file for the backup"}
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return fmt.Errorf("back up the book: %w", err)
	}
	err := place(path, true, func(temp string) error {
		if err := careful(func() error { return s.copyTo(temp) }); err != nil {
			return err
		}
		return verify(temp)
	})
	if err != nil {
		return fmt.Errorf("back up the book to %s: %w", path, err)
	}
	return nil
}

func sameFile(a, b string) bool {
	x, errX := os.Stat(a)
	y, errY := os.Stat(b)
	return errX == nil && errY == nil && os.SameFile(x, y)
}

// copyTo writes the book as it stands now. bbolt's own CopyFile does not sync.
func (s *Store) copyTo(path string) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_TRUNC, 0o600)
	if err != nil {
		return err
	}
	err = s.db.View(func(tx *bolt.Tx) error {
		_, err := tx.WriteTo(f)
		return err
	})
	return errors.Join(err, f.Sync(), f.Close())
}

// verify opens a copy and checks its pages and its layout.
func verify(path string) error {
	if err := guard(path); err != nil {
		return err
	}
	return careful(func() error {
		db, err := bolt.Open(path, 0o600, &bolt.Options{Timeout: lockWait, ReadOnly: true, PreLoadFreelist: true})
		if err != nil {
			return err
		}
		err = walkPages(path)
		if err == nil {
			err = db.View(func(tx *bolt.Tx) error {
				_, err := readSchema(tx)
				return errors.Join(err, checkPages(tx))
			})
		}
		return errors.Join(err, db.Close())
	})
}

// place makes a file under a temporary name beside path and moves it there when
// fill has succeeded. Unless replace is set a file that is there by then wins.
func place(path string, replace bool, fill func(temp string) error) error {
	dir := filepath.Dir(path)
	f, err := os.CreateTemp(dir, "."+filepath.Base(path)+".new-*") // mode 0600
	if err != nil {
		return err
	}
	temp := f.Name()
	defer os.Remove(temp)
	if err := errors.Join(f.Close(), fill(temp)); err != nil {
		return err
	}
	if err := moveInto(temp, path, replace); err != nil {
		return err
	}
	return syncFolder(dir)
}

// moveInto puts temp at path. A hard link never replaces a file, so two first
// starts cannot wipe each other out; where the disk has no links a rename does.
func moveInto(temp, path string, replace bool) error {
	if !replace {
		err := os.Link(temp, path)
		if err == nil || errors.Is(err, fs.ErrExist) {
			return nil
		}
	}
	return os.Rename(temp, path)
}

// syncFolder makes a new name in a folder last through a power cut.
func syncFolder(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

// dailyCopy keeps a dated copy after the first change of a day, and the newest
// few of those.
func (s *Store) dailyCopy() error {
	if s.opt.Now.IsZero() {
		return nil
	}
	path := fmt.Sprintf("%s.%s.bak", s.path, s.opt.Now.In(s.opt.Zone).Format("2006-01-02"))
	if _, err := os.Stat(path); err == nil {
		return nil
	}
	if err := s.Backup(path); err != nil {
		return fmt.Errorf("%w; the book itself is safe", err)
	}
	copies := datedCopies(s.path)
	for _, old := range copies[:max(0, len(copies)-keptCopies)] {
		if err := os.Remove(old); err != nil {
			return fmt.Errorf("remove an old copy: %w", err)
		}
	}
	return nil
}

// datedCopies lists the dated copies of a book, the oldest first.
func datedCopies(path string) []string {
	names, _ := os.ReadDir(filepath.Dir(path))
	var copies []string
	for _, n := range names {
		if ok, _ := filepath.Match(escape(filepath.Base(path))+".[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9].bak", n.Name()); ok {
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

// soundCopies are the dated copies that open and pass their check.
func soundCopies(path string) []string {
	return slices.DeleteFunc(datedCopies(path), func(c string) bool { return verify(c) != nil })
}
