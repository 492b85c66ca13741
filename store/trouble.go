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

	// ErrMissing is returned when there is no book at the path, and none may be
	// begun there.
	ErrMissing = errors.New("there is no book")

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

	// ErrMoved is returned when the file that is open is no longer the one at
	// the book's path. Nothing is written to it then.
	ErrMoved = errors.New("the book was moved or replaced while it was open")

	// ErrUnconfirmed is returned when an entry is in the file but the disk did
	// not confirm it, or the open book did not take it. It may be there at the next opening or not; until then
	// nothing more is written.
	ErrUnconfirmed = errors.New("the entry was written but not confirmed")

	// ErrNoCopy is returned when a dated copy could not be made. The book
	// itself, and what was written to it, is safe.
	ErrNoCopy = errors.New("no copy of the book was made")
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
		What: fmt.Sprintf("the book %s is in use by %s", path, heldBy(path)),
		Do:   "close that one first; keep the book on a local disk",
	}, nil}
}

// damaged says that nothing was changed and which copy to go back to.
func damaged(path string, cause error) error {
	return &trouble{ErrDamaged, model.Problem{
		What: fmt.Sprintf("the book %s is damaged and was left as it is", path),
		Do:   wayBack(path),
	}, cause}
}

// missing says that there is no book, and what to do: go back to a copy where
// there is one, else begin.
func missing(path string) error {
	p := model.Problem{
		What: fmt.Sprintf("there is no book yet at %s", path),
		Do:   "begin one with: tubside book new, or bring in a list with: tubside import FILE",
	}
	if len(datedCopies(path)) > 0 {
		p.What = fmt.Sprintf("the book %s is missing, and copies of it are there", path)
		p.Do = wayBack(path)
	}
	return &trouble{ErrMissing, p, nil}
}

// wayBack tells how to get going again.
func wayBack(path string) string {
	newest, err := NewestCopy(path)
	if err != nil {
		return "there is no good copy beside it: keep the file, and put back a backup of your own"
	}
	return fmt.Sprintf("the newest good copy is %s: put it back with: tubside book restore", newest.Path)
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

func unconfirmed(path string, seq model.Seq, cause error) error {
	return &trouble{ErrUnconfirmed, model.Problem{
		What: fmt.Sprintf("entry %d was written to %s, but the disk did not confirm it", seq, path),
		Do:   "look at the disk, then open the book again and see whether the entry is there before you do it again",
	}, cause}
}

// notTaken says that an entry is in the file, but the open book is without it.
func notTaken(path string, seq model.Seq, cause error) error {
	return &trouble{ErrUnconfirmed, model.Problem{
		What: fmt.Sprintf("entry %d was written to %s, but the open book could not take it in", seq, path),
		Do:   "leave tubside, open the book again and see whether the entry is there before you do it again",
	}, cause}
}

// moved says that the open file is no longer the book, and where it was saved.
func moved(path, saved string) error {
	p := model.Problem{
		What: fmt.Sprintf("the file %s was moved, replaced or deleted while it was open, so nothing is written to it",
			path),
		Do: "leave tubside: what was open is then saved beside it",
	}
	if saved != "" {
		p.What = fmt.Sprintf("the file %s was moved, replaced or deleted while it was open", path)
		p.Do = fmt.Sprintf("what was open is saved as %s: see which of the two you want to keep", saved)
	}
	return &trouble{ErrMoved, p, nil}
}

func noCopy(path string, cause error) error {
	return &trouble{ErrNoCopy, model.Problem{
		What: fmt.Sprintf("no copy of %s was made; the book itself is safe", path),
		Do:   "look at the folder and at the room on its disk",
	}, cause}
}
