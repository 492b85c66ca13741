package store_test

import (
	"bytes"
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	bolt "go.etcd.io/bbolt"

	"tubside/model"
	"tubside/store"
)

// someBook is the bytes of a sound book of n plants with some history.
func someBook(t testing.TB, n int) []byte {
	t.Helper()
	return bookOf(t, n, func(b *book) { b.must(sunday, model.Mist{}, b.Book().IDs()...) })
}

// endedOtherwise is the same book but for its last entry.
func endedOtherwise(t testing.TB, n int) []byte {
	t.Helper()
	return bookOf(t, n, func(b *book) { b.must(sunday, model.Mist{}, 1) })
}

func bookOf(t testing.TB, n int, end func(*book)) []byte {
	t.Helper()
	b := mustOpen(t)
	for id := model.ID(1); int(id) <= n; id++ {
		p := ionantha(id)
		p.Note = strings.Repeat("x", 300) // so that it takes many pages
		b.must(sunday, model.Add{Plants: []model.Plant{p}})
	}
	end(b)
	b.mustClose()
	data, err := os.ReadFile(b.path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func write(t testing.TB, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "book")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// refused opens a bad file both ways and returns the error. The file must not
// change.
func refused(t *testing.T, data []byte) error {
	t.Helper()
	path := write(t, data)
	for _, readOnly := range []bool{true, false} {
		s, err := store.Open(path, store.Options{Zone: time.UTC, ReadOnly: readOnly})
		if err == nil {
			s.Close()
			t.Fatal("the file was opened")
		}
		after, readErr := os.ReadFile(path)
		if readErr != nil || !bytes.Equal(after, data) {
			t.Fatalf("the file was changed (%v) by an opening that failed with: %v", readErr, err)
		}
		if readOnly {
			continue
		}
		return err
	}
	return nil
}

func TestAFileCutShortAnywhere(t *testing.T) {
	whole := someBook(t, 100)
	lengths := []int{0, 1, 15, 16, 79, 80, 100, 4095, 4096, 4097, 8191, 8192, 12288, 16384}
	for n := 20000; n < len(whole)/2; n += 4096 {
		lengths = append(lengths, n)
	}
	for _, n := range lengths {
		if err := refused(t, whole[:n]); !errors.Is(err, store.ErrDamaged) {
			t.Errorf("cut to %d bytes: %v", n, err)
		}
	}
}

// A file may be longer than what its pages use, so a cut in that tail is no
// damage; a cut below is.
func TestACutIsNoticedToThePage(t *testing.T) {
	whole := someBook(t, 100)
	sound := false
	for n := len(whole); n > 0; n -= 4096 {
		path := write(t, whole[:n])
		s, err := store.Open(path, store.Options{Zone: time.UTC, ReadOnly: true})
		if err == nil {
			if s.Book().Len() != 100 {
				t.Errorf("cut to %d bytes: opened with %d plants", n, s.Book().Len())
			}
			s.Close()
			sound = true
			continue
		}
		if !errors.Is(err, store.ErrDamaged) {
			t.Errorf("cut to %d bytes: %v", n, err)
		}
	}
	if !sound {
		t.Error("not even the whole file opens")
	}
}

func TestFilesThatAreNoBook(t *testing.T) {
	for name, data := range map[string][]byte{
		"zeros":       make([]byte, 64<<10),
		"text":        []byte(strings.Repeat("soaked all, dried by six\n", 2000)),
		"short text":  []byte("soaked all\n"),
		"random":      noise(64 << 10),
		"zeroed head": append(make([]byte, 8192), someBook(t, 3)[8192:]...),
	} {
		if err := refused(t, data); !errors.Is(err, store.ErrDamaged) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := store.Open(t.TempDir(), store.Options{}); err == nil {
		t.Error("a folder was opened")
	}
}

func noise(n int) []byte {
	r := rand.New(rand.NewPCG(1, 2))
	b := make([]byte, n)
	for i := range b {
		b[i] = byte(r.Uint32())
	}
	return b
}

// entriesOf is what a sound book says.
func entriesOf(t testing.TB, data []byte) []model.Entry {
	t.Helper()
	s, err := store.Open(write(t, data), store.Options{Zone: time.UTC, ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	return s.Book().Entries()
}

// Flipped bytes must never crash the program: either the book opens, the flip
// having hit nothing that counts, or there is a clear error.
func TestFlippedBytes(t *testing.T) {
	whole := someBook(t, 100)
	want := entriesOf(t, whole)
	r := rand.New(rand.NewPCG(3, 4))
	opened := 0
	for range 400 {
		data := bytes.Clone(whole)
		page := r.IntN(len(data) / 4096)
		// Most of them into the head of a page, where they hurt.
		at := page*4096 + r.IntN([]int{16, 64, 4096}[r.IntN(3)])
		data[at] ^= byte(1 + r.IntN(255))
		s, err := store.Open(write(t, data), store.Options{Zone: time.UTC})
		if err == nil {
			opened++
			if diff := cmp.Diff(want, s.Book().Entries()); diff != "" {
				t.Errorf("byte %d: opened, and says something else:\n%s", at, diff)
			}
			s.Close()
			continue
		}
		if !errors.Is(err, store.ErrDamaged) {
			t.Errorf("byte %d: %v", at, err)
		}
	}
	if opened == 0 || opened == 400 {
		t.Errorf("%d of 400 opened: the flips prove nothing", opened)
	}
}

// bolted makes a bolt file with what f puts in it.
func bolted(t *testing.T, f func(tx *bolt.Tx) error) []byte {
	t.Helper()
	path := filepath.Join(t.TempDir(), "file")
	db, err := bolt.Open(path, 0o600, nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(db.Update(f), db.Close()); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// putBook puts a book of the given schema and lines, as on disk.
func putBook(schema string, lines ...string) func(tx *bolt.Tx) error {
	return func(tx *bolt.Tx) error {
		meta, err := tx.CreateBucket([]byte("meta"))
		if err != nil {
			return err
		}
		journal, err := tx.CreateBucket([]byte("journal"))
		if err != nil {
			return err
		}
		errs := []error{meta.Put([]byte("what"), []byte("tubside book")), meta.Put([]byte("schema"), []byte(schema))}
		for _, line := range lines {
			seq, err := journal.NextSequence()
			errs = append(errs, err, journal.Put([]byte{0, 0, 0, 0, 0, 0, byte(seq >> 8), byte(seq)}, []byte(line)))
		}
		return errors.Join(errs...)
	}
}

// putChained puts a book as it is written now.
func putChained(schema string, lines ...string) func(tx *bolt.Tx) error {
	return func(tx *bolt.Tx) error {
		if err := putBook(schema)(tx); err != nil {
			return err
		}
		meta, journal := tx.Bucket([]byte("meta")), tx.Bucket([]byte("journal"))
		values, last := store.Chained(lines...)
		errs := []error{
			meta.Put([]byte("schema"), store.About("schema", schema)),
			meta.Put([]byte("zone"), store.About("zone", "UTC")), meta.Put([]byte("last"), last),
		}
		for i, v := range values {
			errs = append(errs, journal.Put([]byte{0, 0, 0, 0, 0, 0, 0, byte(i + 1)}, v))
		}
		return errors.Join(errs...)
	}
}

func TestBoltFilesThatCannotBeTaken(t *testing.T) {
	const mist = `{"v":1,"at":"2026-03-01T09:00:00Z","kind":"mist","plants":"7"}`
	for name, c := range map[string]struct {
		fill func(tx *bolt.Tx) error
		want error
	}{
		"another program's":    {func(tx *bolt.Tx) error { _, err := tx.CreateBucket([]byte("things")); return err }, store.ErrForeign},
		"an empty one":         {func(tx *bolt.Tx) error { return nil }, store.ErrForeign},
		"one with a meta":      {func(tx *bolt.Tx) error { _, err := tx.CreateBucket([]byte("meta")); return err }, store.ErrForeign},
		"a newer layout":       {putChained("3"), store.ErrNewer},
		"a damaged layout":     {putBook("2"), store.ErrDamaged},
		"a newer entry":        {putChained("2", `{"v":2,"at":"2026-03-01T09:00:00Z","kind":"mist"}`), store.ErrNewer},
		"an unknown kind":      {putChained("2", `{"v":1,"at":"2026-03-01T09:00:00Z","kind":"graft"}`), store.ErrNewer},
		"no layout":            {putBook("x"), store.ErrDamaged},
		"an old newer entry":   {putBook("1", `{"v":2,"at":"2026-03-01T09:00:00Z","kind":"mist"}`), store.ErrDamaged},
		"an old unknown kind":  {putBook("1", `{"v":1,"at":"2026-03-01T09:00:00Z","kind":"graft"}`), store.ErrDamaged},
		"broken JSON":          {putBook("1", `{"v":1,"at":`), store.ErrDamaged},
		"an impossible entry":  {putBook("1", mist), store.ErrDamaged},
		"an entry of no plant": {putBook("1", `{"v":1,"at":"2026-03-01T09:00:00Z","kind":"mist","plants":"a"}`), store.ErrDamaged},
	} {
		err := refused(t, bolted(t, c.fill))
		if !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", name, err, c.want)
		}
		if p, ok := model.AsProblem(err); ok && p.Do == "" {
			t.Errorf("%s: nothing to do about %v", name, err)
		}
	}
	if err := refused(t, bolted(t, putChained("2", mist))); !strings.Contains(err.Error(), "entry 1") {
		t.Errorf("the entry is not named: %v", err)
	}
}
