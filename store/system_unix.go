//go:build unix

package store

import (
	"errors"
	"os"
	"syscall"
)

// alive reports whether a process of that number runs.
func alive(pid int) bool { return !errors.Is(syscall.Kill(pid, 0), syscall.ESRCH) }

// syncFolder makes a new name in a folder last through a power cut.
func syncFolder(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}
