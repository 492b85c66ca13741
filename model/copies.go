package model

import (
	"fmt"
	"path/filepath"
)

var _ = register[CopiesTo]("copies")

// CopiesTo names a second folder for the book's dated copies, on another disk.
// It is a house rule that is no number.
type CopiesTo struct {
	Folder string `json:"folder,omitempty"` // a full path; empty: none
}

// Kind implements [Fact].
func (CopiesTo) Kind() Kind { return "copies" }

func (f CopiesTo) check(*Book, Entry) error {
	if TooLong(f.Folder) {
		return &Problem{What: fmt.Sprintf("a folder's name of more than %d characters", MaxText), Do: "shorten it"}
	}
	return nil
}

// allow refuses a path that means another folder from wherever it is read.
func (f CopiesTo) allow(*Book, Entry) error {
	if f.Folder != "" && !filepath.IsAbs(f.Folder) {
		return &Problem{What: fmt.Sprintf("the folder %s", f.Folder), Do: "give its full path"}
	}
	return nil
}

func (f CopiesTo) apply(b *Book, _ Entry) { b.copiesTo = f.Folder }

// CopiesTo is the second folder for copies, "" when there is none.
func (b *Book) CopiesTo() string { return b.copiesTo }
