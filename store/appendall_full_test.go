package store

import (
	"errors"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tubside/model"
)

// A full disk in the middle of many entries leaves none of them, and the book
// goes on.
func TestManyEntriesOnAFullDisk(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book")
	s, err := Open(path, Options{Zone: time.UTC, Begin: true})
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	s, err = Open(path, Options{Zone: time.UTC, maxSize: 256 << 10})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	at := time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)
	note := model.NewEntry(at, &model.Note{Text: strings.Repeat("damp ", 300)})
	many := make([]model.Entry, 400) // some 600 kB
	for i := range many {
		many[i] = note
	}
	if _, err := s.AppendAll(many, nil); !errors.Is(err, ErrNotWritten) {
		t.Fatalf("600 kB into a book of at most 256: %v", err)
	}
	if n := len(s.Book().Entries()); n != 0 {
		t.Errorf("%d entries in the book", n)
	}
	if _, err := s.AppendAll(many[:4], nil); err != nil {
		t.Errorf("afterwards: %v", err)
	}
	if r, err := s.Check(); err != nil || r.Entries != 4 {
		t.Errorf("%d entries on disk, %v", r.Entries, err)
	}
}
