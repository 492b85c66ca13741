package store

import "os"

// alive reports whether a process of that number runs.
func alive(pid int) bool {
	p, err := os.FindProcess(pid) // opens the process, if there is one
	if err != nil {
		return false
	}
	_ = p.Release()
	return true
}

// lockAlone is always true: Windows does not let go of the name of an open book,
// so that it cannot be put aside.
func lockAlone(*os.File) bool { return true }

// syncFolder does nothing: Windows writes a new name through by itself.
func syncFolder(string) error { return nil }
