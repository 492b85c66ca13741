package store

import (
	"errors"
	"fmt"
	"io/fs"
	"syscall"

	"tubside/model"
)

// Errors when opening a book.
var (
	// ErrInUse is returned when another running copy holds the book.
	ErrInUse = errors.New("the book is in use")

	// ErrDamaged is returned when the file is cut short, is no bolt file, fails
	// its check, or holds entries that do not add up. The file is left as it is.
	ErrDamaged = errors.New("the book is damaged")

	// ErrForeign is returned for a sound bolt file that is not a book of ours.
	ErrForeign = errors.New("not a tubside book")

	// ErrNewer is returned for a book, or an entry in it, that a later tubside
	// wrote.
	ErrNewer = errors.New("the book was written by a newer tubside")
)

// Errors when writing.
var (
	// ErrReadOnly is returned by Append on a book opened for reading only.
	ErrReadOnly = errors.New("the book is open for reading only")

	// ErrNotWritten is returned when the disk did not take an entry. The book
	// is as it was before.
	ErrNotWritten = errors.New("the entry was not written")
)

// trouble is an error a program can sort by its kind and a person can act on.
type trouble struct {
	kind    error
	problem model.Problem
	cause   error // nil when the problem says it all
}

// Error is one line: the problem, what lies behind it, and what to do.
func (t *trouble) Error() string {
	text := t.problem.What
	if t.cause != nil {
		text += " (" + t.cause.Error() + ")"
	}
	if t.problem.Do != "" {
		text += "; " + t.problem.Do
	}
	return text
}

// Unwrap gives the kind, the [model.Problem] and the cause to errors.Is and
// errors.As.
func (t *trouble) Unwrap() []error {
	all := []error{t.kind, &t.problem}
	if t.cause != nil {
		all = append(all, t.cause)
	}
	return all
}

func inUse(path string) error {
	return &trouble{ErrInUse, model.Problem{
		What: fmt.Sprintf("the book %s is in use by another tubside", path),
		Do:   "close that one first; keep the book on a local disk",
	}, nil}
}

// damaged says that nothing was changed and which copy to go back to.
func damaged(path string, cause error) error {
	return &trouble{ErrDamaged, model.Problem{
		What: fmt.Sprintf("the book %s is damaged and was left as it is", path),
		Do:   rescue(path),
	}, cause}
}

// rescue tells how to get going again.
func rescue(path string) string {
	copies := soundCopies(path)
	if len(copies) == 0 {
		return "there is no dated copy beside it: keep the file, and put back a backup of your own"
	}
	newest := copies[len(copies)-1]
	return fmt.Sprintf("the newest good copy is %s: move the damaged file aside, then copy this one to %s", newest, path)
}

func foreign(path string) error {
	return &trouble{ErrForeign, model.Problem{
		What: fmt.Sprintf("%s is some other program's file, not a tubside book, and was left as it is", path),
		Do:   "name another file for the book",
	}, nil}
}

func newer(path string, cause error) error {
	return &trouble{ErrNewer, model.Problem{
		What: fmt.Sprintf("the book %s was written by a newer tubside and was left as it is", path),
		Do:   "update tubside, or open a copy made before the update",
	}, cause}
}

func notWritten(path string, cause error) error {
	do := "look at the disk, then do it again"
	switch {
	case errors.Is(cause, syscall.ENOSPC), errors.Is(cause, syscall.EDQUOT):
		do = "the disk is full: free some space, then do it again"
	case errors.Is(cause, fs.ErrPermission), errors.Is(cause, syscall.EROFS):
		do = "the file may not be written: look at its permissions, then do it again"
	}
	return &trouble{ErrNotWritten, model.Problem{
		What: fmt.Sprintf("nothing was written to %s and the book is unchanged", path),
		Do:   do,
	}, cause}
}
