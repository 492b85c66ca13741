package store_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/store"
)

func TestAFullDiskLosesNothing(t *testing.T) {
	b := mustOpen(t)
	b.must(sunday, model.Add{Plants: []model.Plant{ionantha(1)}})
	b.mustClose()
	whole := b.opt
	b.opt = store.WithMaxSize(b.opt, 64<<10)
	b.open()
	taken := 0
	var err error
	for err == nil && taken < 1000 {
		if _, err = b.Append(model.NewEntry(sunday, model.Note{Text: strings.Repeat("x", 1500)}, 1)); err == nil {
			taken++
		}
	}
	if !errors.Is(err, store.ErrNotWritten) {
		t.Fatalf("after %d notes: %v", taken, err)
	}
	if p, ok := model.AsProblem(err); !ok || p.Do == "" {
		t.Errorf("nothing to do about %v", err)
	}
	if n := len(b.Book().Entries()); n != taken+1 {
		t.Errorf("the book has %d entries after %d were taken", n, taken+1)
	}
	b.opt = whole
	b.mustReopen()
	if n := len(b.Book().Entries()); n != taken+1 {
		t.Errorf("the disk has %d entries after %d were taken", n, taken+1)
	}
	if e := b.must(sunday, model.Mist{}, 1); e.Seq != model.Seq(taken+2) {
		t.Errorf("with room again entry %d was written", e.Seq)
	}
}

// Nothing is written after an entry that the open book could not take: what came
// next would be checked on a book that is not the file's.
func TestNothingFollowsAnEntryTheBookDidNotTake(t *testing.T) {
	b := mustOpen(t)
	b.must(sunday, model.Add{Plants: []model.Plant{ionantha(1)}})
	err := b.Apply(model.NewEntry(sunday, model.Mist{}, 2))
	if p, ok := model.AsProblem(err); !errors.Is(err, store.ErrUnconfirmed) || !ok || p.Do == "" {
		t.Errorf("a plant that is not in the book was misted: %v", err)
	}
	if _, err := b.Append(model.NewEntry(sunday, model.Mist{}, 1)); !errors.Is(err, store.ErrNotWritten) {
		t.Errorf("an entry was written after one that was not taken: %v", err)
	}
	b.mustReopen()
	b.must(sunday, model.Mist{}, 1)
}

func TestABackupIsABook(t *testing.T) {
	b := mustOpen(t)
	b.must(sunday, model.Add{Plants: []model.Plant{ionantha(1)}})
	path := filepath.Join(t.TempDir(), "away", "copy")
	b.must(sunday, model.Mist{}, 1)
	if err := b.Backup(path); err != nil {
		t.Fatal(err)
	}
	b.must(sunday, model.Mist{}, 1)
	if err := b.Backup(path); err == nil {
		t.Error("a backup replaced one that was there")
	}
	c, err := store.Open(path, store.Options{Zone: time.UTC, ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	if n := len(c.Book().Entries()); n != 2 {
		t.Errorf("%d entries in the copy", n)
	}
	left, err := os.ReadDir(filepath.Dir(path))
	if err != nil || len(left) != 1 {
		t.Errorf("left beside the copy: %v, %v", left, err)
	}
}

func TestABackupNeverReplacesTheBook(t *testing.T) {
	b := mustOpen(t)
	b.must(sunday, model.Add{Plants: []model.Plant{ionantha(1)}})
	link := filepath.Join(t.TempDir(), "link")
	if err := os.Symlink(b.path, link); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{b.path, link} {
		if err := b.Backup(path); err == nil {
			t.Errorf("a backup to %s was made", path)
		}
	}
}

// The day's copy is made at its first opening, of what the days before left; on
// the first day of all, at the end of it.
func TestACopyOfEachDay(t *testing.T) {
	b := mustOpen(t)
	for d := range 10 {
		b.opt.Now = sunday.AddDate(0, 0, d)
		b.mustReopen()
		b.must(b.opt.Now, model.Note{Text: fmt.Sprintf("day %d", d)})
		b.mustReopen()
		b.must(b.opt.Now, model.Note{Text: "later"})
	}
	b.mustReopen()
	copies := b.mustCheck().Copies
	// The last seven days, and 1 March as the newest of its week.
	if len(copies) != 8 || !strings.HasSuffix(copies[0], "book.2026-03-01.bak") ||
		!strings.HasSuffix(copies[1], "book.2026-03-04.bak") {
		t.Errorf("kept %q", copies)
	}
	c, err := store.Open(copies[7], store.Options{ReadOnly: true, Zone: time.UTC})
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	if n := len(c.Book().Entries()); n != 18 {
		t.Errorf("%d entries in the copy made on the tenth day, want the 18 of nine days", n)
	}
}

func TestLookingMakesNoCopy(t *testing.T) {
	b := mustOpen(t)
	b.opt.Now = sunday
	b.mustReopen()
	b.mustReopen()
	if copies := b.mustCheck().Copies; len(copies) != 0 {
		t.Errorf("copies %q", copies)
	}
}

func TestADamagedBookNamesItsNewestGoodCopy(t *testing.T) {
	b := mustOpen(t)
	for d := range 3 {
		b.opt.Now = sunday.AddDate(0, 0, d)
		b.mustReopen()
		b.must(b.opt.Now, model.Note{Text: "soaked all"})
	}
	b.mustClose()
	newest, second := b.path+".2026-03-03.bak", b.path+".2026-03-02.bak"
	for path, size := range map[string]int64{b.path: 9000, newest: 9000} {
		if err := os.Truncate(path, size); err != nil {
			t.Fatal(err)
		}
	}
	_, err := store.Open(b.path, b.opt)
	if !errors.Is(err, store.ErrDamaged) || !strings.Contains(err.Error(), second) ||
		strings.Contains(err.Error(), newest) {
		t.Errorf("%v", err)
	}
}
