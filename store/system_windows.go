package store

import (
	"io/fs"
	"os"
)

// alive reports whether a process of that number runs.
func alive(pid int) bool {
	p, err := os.FindProcess(pid) // opens the process, if there is one
	if err != nil {
		return false
	}
	_ = p.Release()
	return true
}

// lockAlone closes the file and is always true: Windows keeps the name of a file that
// somebody has open, so that a book in use cannot be put aside, and this file could not
// either.
func lockAlone(f *os.File) bool {
	_ = f.Close()
	return true
}

// rename gives a file another name. One that is there already stays: fs.ErrExist. A
// second name is no way round: neither can be taken from a file that is open.
func rename(from, to string) error {
	if _, err := os.Lstat(to); err == nil {
		return fs.ErrExist
	}
	return os.Rename(from, to)
}

// syncFolder does nothing: a folder cannot be synced. Windows keeps a journal of its
// names: after a power cut a new one is there or not, never half.
func syncFolder(string) error { return nil }
