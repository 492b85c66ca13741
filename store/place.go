package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// place makes a file under a temporary name beside path and moves it there when
// fill has succeeded. Unless replace is set a file that is there by then wins,
// and place returns fs.ErrExist.
func place(path string, replace bool, fill func(temp string) error) error {
	dir := folderOf(path)
	f, err := os.CreateTemp(dir, tempPrefix(path)+strconv.Itoa(os.Getpid())+"-*") // mode 0600
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

// tempPrefix begins the name of a file in the making; the maker's process number
// follows.
func tempPrefix(path string) string { return "." + filepath.Base(path) + ".new-" }

// moveInto puts temp at path. A hard link never replaces a file, so two first
// starts cannot wipe each other out; where the disk has no links a rename does,
// after a look.
func moveInto(temp, path string, replace bool) error {
	if replace {
		return os.Rename(temp, path)
	}
	err := os.Link(temp, path)
	if err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	if _, err := os.Lstat(path); err == nil {
		return fmt.Errorf("%s: %w", path, fs.ErrExist)
	}
	return os.Rename(temp, path)
}

// sweep removes what makers that were killed left beside the book and in the
// folders of its copies. A maker that still runs keeps its file.
func sweep(path string, folders ...string) {
	prefix := "." + filepath.Base(path)
	for _, dir := range append(folders, filepath.Dir(path)) {
		names, _ := os.ReadDir(dir)
		for _, n := range names {
			rest, ours := strings.CutPrefix(n.Name(), prefix)
			_, maker, temp := strings.Cut(rest, ".new-")
			if !ours || !temp {
				continue
			}
			number, _, _ := strings.Cut(maker, "-")
			if pid, err := strconv.Atoi(number); err == nil && !alive(pid) {
				_ = os.Remove(filepath.Join(dir, n.Name())) // it only takes room
			}
		}
	}
}

func folderOf(path string) string { return filepath.Dir(path) }
