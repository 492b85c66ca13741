package store

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"

	"tubside/model"
)

// pagedBook is a book whose journal takes many pages, closed.
func pagedBook(t *testing.T) (path string, data []byte, m meta) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "book")
	s, err := Open(path, Options{Zone: time.UTC, Begin: true})
	if err != nil {
		t.Fatal(err)
	}
	at := time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)
	for range 500 {
		if _, err := s.Append(model.NewEntry(at, &model.Note{Text: "soaked all, dried by six, hung by eight"})); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if data, err = os.ReadFile(path); err != nil {
		t.Fatal(err)
	}
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if m, _, err = newestMeta(f); err != nil {
		t.Fatal(err)
	}
	return path, data, m
}

func mustBeDamaged(t *testing.T, path string, data []byte) {
	t.Helper()
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	s, err := Open(path, Options{Zone: time.UTC})
	if err == nil {
		s.Close()
	}
	if !errors.Is(err, ErrDamaged) {
		t.Errorf("opened with %v", err)
	}
}

// bbolt would follow such a page round and round until the memory is full.
func TestAPageThatPointsBackAtItself(t *testing.T) {
	path, data, m := pagedBook(t)
	loops := 0
	for id := int64(2); id < m.highWater; id++ {
		page := data[id*m.pageSize:]
		if order.Uint16(page[8:]) == branchPage {
			order.PutUint64(page[pageHeader+8:], uint64(id))
			loops++
		}
	}
	if loops == 0 {
		t.Fatal("the book has no branch page")
	}
	mustBeDamaged(t, path, data)
}

// A page that is in use and listed as free would be written over one day. Only
// bbolt's own check sees that.
func TestAPageInUseThatIsListedAsFree(t *testing.T) {
	path, data, m := pagedBook(t)
	free := data[m.freelist*m.pageSize:]
	if order.Uint16(free[10:]) == 0 {
		t.Fatal("the book has no free page")
	}
	order.PutUint64(free[pageHeader:], uint64(m.root))
	mustBeDamaged(t, path, data)
}

// When a failed write reached the disk after all, nothing may build on it.
func TestAJournalAheadOfTheBook(t *testing.T) {
	path, _, _ := pagedBook(t)
	s, err := Open(path, Options{Zone: time.UTC})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	s.end.seq--
	before := len(s.book.Entries())
	at := time.Date(2026, 3, 1, 10, 0, 0, 0, time.UTC)
	if _, err := s.Append(model.NewEntry(at, &model.Note{Text: "more"})); !errors.Is(err, ErrNotWritten) {
		t.Errorf("append: %v", err)
	}
	if r, err := s.Check(); err != nil || r.Entries != before || len(s.book.Entries()) != before {
		t.Errorf("%d entries on disk, %d in the book, %d before; %v", r.Entries, len(s.book.Entries()), before, err)
	}
}
