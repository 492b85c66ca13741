//go:build unix

package store_test

import (
	"bytes"
	"errors"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"tubside/store"
)

// Either header page wiped: the book is refused as damaged, or it opens and says
// all that it said.
func TestAWipedHeader(t *testing.T) {
	whole := someBook(t, 20)
	want := len(entriesOf(t, whole))
	for page := range 2 {
		data := bytes.Clone(whole)
		clear(data[page*4096 : (page+1)*4096])
		for _, readOnly := range []bool{true, false} {
			s, err := store.Open(write(t, data), store.Options{Zone: time.UTC, ReadOnly: readOnly})
			if err != nil {
				if !errors.Is(err, store.ErrDamaged) {
					t.Errorf("page %d, read only %t: %v", page, readOnly, err)
				}
				continue
			}
			if n := len(s.Book().Entries()); n != want {
				t.Errorf("page %d, read only %t: opened with %d entries of %d", page, readOnly, n, want)
			}
			if err := s.Close(); err != nil {
				t.Error(err)
			}
		}
	}
}

// A pipe in the book's place is refused and not waited for.
func TestAPipeInTheBooksPlace(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book")
	if err := syscall.Mkfifo(path, 0o600); err != nil {
		t.Skip("no pipes here")
	}
	for _, readOnly := range []bool{true, false} {
		if _, err := store.Open(path, store.Options{ReadOnly: readOnly, Begin: true}); !errors.Is(err,
			store.ErrDamaged) {
			t.Errorf("read only %t: %v", readOnly, err)
		}
	}
}
