package command

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"tubside/model"
	"tubside/store"
)

// newFile writes a text to a file. A file that is already there stays unless it
// may be replaced.
func newFile(path, text string, force bool) error {
	err := whole(path, force, func(w io.Writer) error {
		_, err := io.WriteString(w, text)
		return err
	})
	if err != nil {
		return fmt.Errorf("write %s: %w", path, err)
	}
	return nil
}

// whole writes a file that is there whole or not at all: under another name
// beside it, then moved into place. It never takes the place of a book, and that
// of another file only when it may.
func whole(path string, force bool, fill func(io.Writer) error) error {
	if store.IsBook(path) {
		return &model.Problem{What: path + " is a book, and nothing is written over a book", Do: "name another file"}
	}
	if _, err := os.Lstat(path); err == nil && !force {
		return &model.Problem{What: path + " is already there", Do: "name another file, or replace it with --force"}
	}
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+".new-*")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	w := bufio.NewWriter(f)
	if err := errors.Join(fill(w), w.Flush(), f.Sync(), f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}
