package store_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/store"
)

func note(text string) *model.Note { return &model.Note{Text: text} }

func read(t testing.TB, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// on opens the book on a day, writes, and closes it.
func (b *book) on(day time.Time) {
	b.t.Helper()
	b.opt.Now = day
	if b.Store == nil {
		b.open()
	} else {
		b.mustReopen()
	}
	b.must(day, note(day.Format(time.DateOnly)))
	b.mustClose()
}

func (b *book) copies() (days []string) {
	b.t.Helper()
	names, err := filepath.Glob(b.path + ".*.bak")
	if err != nil {
		b.t.Fatal(err)
	}
	for _, n := range names {
		days = append(days, strings.TrimSuffix(strings.TrimPrefix(n, b.path+"."), ".bak"))
	}
	return days
}

// A copy that is left for later is made when it is asked for, or at the end; of what the
// file says then.
func TestTheDaysCopyMayWait(t *testing.T) {
	for _, ask := range []bool{false, true} {
		b := mustOpen(t)
		b.on(sunday)
		b.opt.Now, b.opt.CopyLater = sunday.AddDate(0, 0, 1), true
		b.open()
		if days := b.copies(); len(days) != 1 {
			t.Fatalf("%q: a copy was made before it was asked for", days)
		}
		if ask {
			b.CopyBeside()
			b.CopyBeside() // once is enough
		}
		b.must(b.opt.Now, note("today"))
		b.mustClose()
		monday := b.path + ".2026-03-02.bak"
		if c, err := store.Open(monday, store.Options{ReadOnly: true}); err != nil {
			t.Errorf("asked for %v: %v", ask, err)
		} else if n := len(c.Book().Entries()); n < 1 || !ask && n != 2 {
			t.Errorf("asked for %v: %d entries in the copy", ask, n)
		}
	}
}

// A year of days leaves the last seven, five weeks, and twelve months.
func TestCopiesOfDaysWeeksAndMonths(t *testing.T) {
	b := mustOpen(t)
	for d := range 400 {
		if d < 330 && d%3 > 0 { // not every day, to be done sooner
			continue
		}
		b.on(sunday.AddDate(0, 0, d))
	}
	got := b.copies()
	last := sunday.AddDate(0, 0, 399)
	for d := range 7 {
		if day := last.AddDate(0, 0, -d).Format(time.DateOnly); !slices.Contains(got, day) {
			t.Errorf("no copy of %s", day)
		}
	}
	months := map[string]bool{}
	for _, day := range got {
		months[day[:7]] = true
	}
	if len(months) != 12 || len(got) < 7+3+10 || len(got) > 7+5+12 {
		t.Errorf("kept %d of %d months: %v", len(got), len(months), got)
	}
}

// Days of a wrong clock far ahead, then true days: no copy of the true past goes,
// and those dated ahead push nothing out.
func TestAWrongClockRemovesNoCopy(t *testing.T) {
	b := mustOpen(t)
	for d := range 7 {
		b.on(sunday.AddDate(0, 0, d))
	}
	before := b.copies()
	for d := range 8 {
		b.on(sunday.AddDate(4, 0, d))
	}
	for d := range 10 {
		b.on(sunday.AddDate(0, 0, 8+d))
	}
	got := b.copies()
	newest := sunday.AddDate(0, 0, 17).Format(time.DateOnly)
	if !slices.Contains(got, newest) || !slices.Contains(got, "2026-03-07") {
		t.Errorf("kept %v of %v", got, before)
	}
	ahead := slices.DeleteFunc(got, func(day string) bool { return day < "2030" })
	if len(ahead) < 7 {
		t.Errorf("of the copies dated ahead %v are left", ahead)
	}
}

// A new book in the place of an old one must not push out the old one's copies.
func TestANewBookPushesOutNoCopyOfAnother(t *testing.T) {
	b := mustOpen(t)
	for d := range 7 {
		b.on(sunday.AddDate(0, 0, d))
	}
	old := b.copies()
	if err := os.Remove(b.path); err != nil {
		t.Fatal(err)
	}
	if _, err := store.Open(b.path, b.opt); !errors.Is(err, store.ErrMissing) {
		t.Fatalf("a book was begun beside the copies of another: %v", err)
	}
	// Even one that was put there by hand.
	other := mustOpen(t)
	other.must(sunday, note("another book"))
	other.mustClose()
	if err := os.Rename(other.path, b.path); err != nil {
		t.Fatal(err)
	}
	other.open() // so that its own test ends as others do
	for d := range 20 {
		b.on(sunday.AddDate(0, 0, 7+d))
	}
	for _, day := range old {
		if !slices.Contains(b.copies(), day) {
			t.Errorf("the copy of %s is gone", day)
		}
	}
}

// Where the day's copy is another book's, or the folder cannot be written, the
// entry is safe and the trouble is said.
func TestACopyThatCannotBeMadeIsSaid(t *testing.T) {
	b := mustOpen(t)
	b.opt.Now = sunday
	b.mustReopen()
	b.must(sunday, note("first"))
	dir := filepath.Dir(b.path)
	if err := os.Chmod(dir, 0o500); err != nil {
		t.Fatal(err)
	}
	defer os.Chmod(dir, 0o700)
	if f, err := os.Create(filepath.Join(dir, "probe")); err == nil {
		f.Close()
		t.Skip("this user may write anywhere")
	}
	err := b.Close()
	if !errors.Is(err, store.ErrNoCopy) || errors.Is(err, store.ErrNotWritten) {
		t.Errorf("%v", err)
	}
	b.Store = nil
	b.open()
	if n := len(b.Book().Entries()); n != 1 {
		t.Errorf("%d entries", n)
	}
}

// What a maker that was killed left behind goes; one that still runs keeps its
// file.
func TestStraysAreSweptUp(t *testing.T) {
	b := mustOpen(t)
	dir, base := filepath.Dir(b.path), filepath.Base(b.path)
	const nobody = 1 << 30 // more than any system numbers its processes
	strays := []string{fmt.Sprintf(".%s.new-%d-1", base, nobody),
		fmt.Sprintf(".%s.2026-03-01.bak.new-%d-77", base, nobody)}
	kept := []string{fmt.Sprintf(".%s.new-%d-1", base, os.Getpid()), fmt.Sprintf(".other.new-%d-1", nobody), ".other"}
	for _, n := range append(strays, kept...) {
		if err := os.WriteFile(filepath.Join(dir, n), make([]byte, 1<<20), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	b.mustReopen()
	for _, n := range strays {
		if _, err := os.Stat(filepath.Join(dir, n)); err == nil {
			t.Errorf("%s is still there", n)
		}
	}
	for _, n := range kept {
		if _, err := os.Stat(filepath.Join(dir, n)); err != nil {
			t.Errorf("%s is gone", n)
		}
	}
}

// The file goes away under an open book: nothing more is acknowledged, and what
// was is saved.
func TestTheFileIsTakenAwayWhileItIsOpen(t *testing.T) {
	for name, take := range map[string]func(path string) error{
		"moved":   func(path string) error { return os.Rename(path, path+".elsewhere") },
		"deleted": os.Remove,
		"replaced": func(path string) error {
			return errors.Join(os.WriteFile(path+".synced", []byte("from another machine"), 0o600),
				os.Rename(path+".synced", path))
		},
	} {
		b := mustOpen(t)
		b.must(sunday, note("kept"))
		if err := take(b.path); err != nil {
			t.Fatal(err)
		}
		_, err := b.Append(model.NewEntry(sunday, note("refused")))
		if !errors.Is(err, store.ErrMoved) {
			t.Errorf("%s: acknowledged, or %v", name, err)
		}
		err = b.Close()
		b.Store = nil
		saved := b.path + ".saved-1"
		if p, ok := model.AsProblem(err); !errors.Is(err, store.ErrMoved) || !ok || !strings.Contains(p.Do, saved) {
			t.Errorf("%s: at the end %v", name, err)
		}
		s, err := store.Open(saved, store.Options{ReadOnly: true})
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if n := len(s.Book().Entries()); n != 1 {
			t.Errorf("%s: %d entries saved", name, n)
		}
	}
}
