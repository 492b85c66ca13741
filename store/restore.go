package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

	"tubside/model"
)

// Restore puts a copy in the place of the book at path. What is there now is
// kept under another name, which comes back, "" when nothing was there. The copy
// is read through first; a book in use is left alone.
func Restore(path, from string) (aside string, err error) {
	if _, err := verify(from); err != nil {
		return "", fmt.Errorf("put back %s: %w", from, err)
	}
	c, err := readBook(from)
	if err != nil {
		return "", fmt.Errorf("put back %s: %w", from, err)
	}
	s := &Store{path: path}
	return instead(path, s.copyOf(c))
}

// instead puts a new file in the place of a book, and keeps the old one under
// another name.
func instead(path string, fill func(temp string) error) (aside string, err error) {
	old, err := openPlain(path)
	switch {
	case err == nil:
		defer old.Close()
		if !lockAlone(old) {
			return "", inUse(path)
		}
	case !errors.Is(err, fs.ErrNotExist):
		return "", err
	}
	err = place(path+".next", true, fill)
	if err != nil {
		return "", err
	}
	if old != nil {
		if aside, err = putAside(path); err != nil {
			return "", errors.Join(err, os.Remove(path+".next"))
		}
	}
	return aside, moveNext(path)
}

// moveNext makes the new file the book.
func moveNext(path string) error {
	if err := moveInto(path+".next", path, false); err != nil {
		return err
	}
	if err := os.Remove(path + ".next"); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return syncFolder(folderOf(path))
}

// putAside gives a file a name of its own beside where it was.
func putAside(path string) (string, error) {
	for n := 1; n < mostSaved; n++ {
		aside := fmt.Sprintf("%s.aside-%d", path, n)
		if err := rename(path, aside); !errors.Is(err, fs.ErrExist) {
			return aside, err
		}
	}
	return "", &model.Problem{What: "too many files were put aside beside " + path, Do: "move them away"}
}
