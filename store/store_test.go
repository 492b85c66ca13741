package store_test

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"

	"tubside/model"
	"tubside/store"
)

var sunday = time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)

// book is an open store of a test, checked in full when the test ends.
type book struct {
	*store.Store
	t    testing.TB
	path string
	opt  store.Options
}

func mustOpen(t testing.TB) *book {
	t.Helper()
	b := &book{t: t, path: filepath.Join(t.TempDir(), "plants", "book"),
		opt: store.Options{Zone: time.UTC, Begin: true}}
	b.open()
	t.Cleanup(func() {
		if b.Store != nil {
			b.mustCheck()
			b.mustClose()
		}
	})
	return b
}

func (b *book) open() {
	b.t.Helper()
	s, err := store.Open(b.path, b.opt)
	if err != nil {
		b.t.Fatal(err)
	}
	b.Store = s
}

func (b *book) mustClose() {
	b.t.Helper()
	if err := b.Close(); err != nil {
		b.t.Fatal(err)
	}
	b.Store = nil
}

func (b *book) mustReopen() {
	b.t.Helper()
	b.mustClose()
	b.open()
}

func (b *book) mustCheck() store.Report {
	b.t.Helper()
	r, err := b.Check()
	if err != nil {
		b.t.Fatalf("check: %v", err)
	}
	return r
}

func (b *book) must(at time.Time, f model.Fact, ids ...model.ID) model.Entry {
	b.t.Helper()
	e, err := b.Append(model.NewEntry(at, f, ids...))
	if err != nil {
		b.t.Fatalf("%s: %v", f.Kind(), err)
	}
	return e
}

func ionantha(id model.ID) model.Plant {
	return model.Plant{ID: id, Label: "A1", Name: "T. ionantha", Form: model.Rosette, Count: 1,
		Home: model.Home{Shelf: "A", Spot: "1"}}
}

func TestWhatWasWrittenIsThereAfterARestart(t *testing.T) {
	b := mustOpen(t)
	b.must(sunday, model.Add{Plants: []model.Plant{ionantha(1), ionantha(2)}})
	e := b.must(sunday, model.Soak{Load: 1, Vessel: "tub", Due: sunday.Add(time.Hour)}, 1, 2)
	if e.Seq != 2 {
		t.Fatalf("the second entry got number %d", e.Seq)
	}
	b.mustReopen()
	row := b.Book().Row(2)
	if row == nil || row.State != model.Soaking || !row.In.Equal(sunday) {
		t.Fatalf("plant 2 after the restart: %+v", row)
	}
	if due := b.Book().Load(1).Due; !due.Equal(sunday.Add(time.Hour)) {
		t.Fatalf("the load is due %v", due)
	}
}

func TestAStrikeSurvivesARestart(t *testing.T) {
	b := mustOpen(t)
	b.must(sunday, model.Add{Plants: []model.Plant{ionantha(1)}})
	mist := b.must(sunday, model.Mist{}, 1)
	// Given by value, as any other fact: it must count as a strike all the same.
	b.must(sunday, model.Strike{Seq: mist.Seq})
	if got := b.Book().Row(1).Misted; !got.IsZero() {
		t.Fatalf("still misted at %v", got)
	}
	b.mustReopen()
	if got := b.Book().Row(1).Misted; !got.IsZero() || !b.Book().Struck(mist.Seq) {
		t.Fatalf("misted again after the restart: %v", got)
	}
}

func TestTheBookPointerSeesEveryEntry(t *testing.T) {
	b := mustOpen(t)
	held := b.Book()
	add := b.must(sunday, model.Add{Plants: []model.Plant{ionantha(1)}})
	b.must(sunday, model.Strike{Seq: add.Seq})
	if held != b.Book() || held.Len() != 0 {
		t.Fatal("the pointer went stale over a strike")
	}
}

func TestARefusedEntryChangesNothing(t *testing.T) {
	b := mustOpen(t)
	_, err := b.Append(model.NewEntry(sunday, model.Mist{}, 7))
	if _, ok := model.AsProblem(err); !ok {
		t.Fatalf("misting a plant that is not there: %v", err)
	}
	if _, err := b.Append(model.Entry{At: sunday}); err == nil {
		t.Fatal("an entry that says nothing was taken")
	}
	if r := b.mustCheck(); r.Entries != 0 {
		t.Fatalf("%d entries written", r.Entries)
	}
}

func TestFilesAreTheGrowersOwn(t *testing.T) {
	b := mustOpen(t)
	for path, want := range map[string]os.FileMode{b.path: 0o600, filepath.Dir(b.path): 0o700 | os.ModeDir} {
		info, err := os.Stat(path)
		if err != nil || info.Mode() != want {
			t.Errorf("%s: mode %v, %v; want %v", path, info.Mode(), err, want)
		}
	}
}

func TestReadingOnly(t *testing.T) {
	b := mustOpen(t)
	b.must(sunday, model.Add{Plants: []model.Plant{ionantha(1)}})
	b.mustClose()
	b.opt.ReadOnly = true
	b.open()
	if _, err := b.Append(model.NewEntry(sunday, model.Mist{}, 1)); !errors.Is(err, store.ErrReadOnly) {
		t.Fatalf("append: %v", err)
	}
}

// A reader sees what is on disk at that moment, and is in nobody's way.
func TestLookingWhileTheBoardIsOpen(t *testing.T) {
	b := mustOpen(t)
	b.must(sunday, model.Add{Plants: []model.Plant{ionantha(1)}})
	reader, err := store.Open(b.path, store.Options{ReadOnly: true})
	if err != nil {
		t.Fatalf("a reader beside the writer: %v", err)
	}
	defer reader.Close()
	b.must(sunday, model.Mist{}, 1)
	if n := len(reader.Book().Entries()); n != 1 {
		t.Errorf("the reader has %d entries", n)
	}
	if err := reader.Backup(filepath.Join(t.TempDir(), "copy")); err != nil {
		t.Errorf("a backup of a book in use: %v", err)
	}
}

func TestReadingABookThatIsNotThere(t *testing.T) {
	path := filepath.Join(t.TempDir(), "deep", "book")
	if _, err := store.Open(path, store.Options{ReadOnly: true}); err == nil {
		t.Fatal("opened a book that is not there")
	}
	if _, err := os.Stat(filepath.Dir(path)); err == nil {
		t.Fatal("looking made a folder")
	}
}

func TestASecondCopyIsToldTheBookIsInUse(t *testing.T) {
	b := mustOpen(t)
	_, err := store.Open(b.path, store.Options{})
	if !errors.Is(err, store.ErrInUse) {
		t.Errorf("%v", err)
	}
	if p, ok := model.AsProblem(err); !ok || p.Do == "" {
		t.Errorf("nothing to do about %v", err)
	}
}
