//go:build unix

package store

import (
	"errors"
	"io/fs"
	"os"
	"syscall"
)

// alive reports whether a process of that number runs.
func alive(pid int) bool { return !errors.Is(syscall.Kill(pid, 0), syscall.ESRCH) }

// lockAlone takes the lock that an open book holds, until the file is closed. It
// reports whether nobody else had it.
func lockAlone(f *os.File) bool {
	return syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB) == nil
}

// rename gives a file another name. One that is there already stays: fs.ErrExist.
func rename(from, to string) error {
	switch err := os.Link(from, to); {
	case err == nil:
		return os.Remove(from)
	case errors.Is(err, fs.ErrExist):
		return err
	}
	if _, err := os.Lstat(to); err == nil {
		return fs.ErrExist
	}
	return os.Rename(from, to) // a disk without links
}

// syncFolder makes a new name in a folder last through a power cut.
func syncFolder(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}
