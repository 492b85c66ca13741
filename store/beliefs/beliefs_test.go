package beliefs_test

import (
	"bytes"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"sort"
	"testing"
	"time"

	"tubside/demo"
	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/store"
	"tubside/store/beliefs"
)

// now is the moment of the demo.
var now = time.Date(2026, 5, 4, 9, 0, 0, 0, time.UTC)

// home is a book on disk and a folder for what is kept of it.
type home struct {
	*testing.T
	path, cache string
}

// year is the demo's year, of which what is believed is worth keeping.
func year(t *testing.T) home {
	t.Helper()
	h := home{t, filepath.Join(t.TempDir(), "book.db"), filepath.Join(t.TempDir(), "cache")}
	s := h.open(store.Options{Begin: true, Zone: time.UTC})
	if _, err := demo.Build(s, demo.Options{Seed: 1, Now: now}); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	return h
}

func (h home) open(opt store.Options) *store.Store {
	h.Helper()
	s, err := store.Open(h.path, opt)
	if err != nil {
		h.Fatal(err)
	}
	h.Cleanup(func() { _ = s.Close() })
	return s
}

// files are those in the cache.
func (h home) files() []string {
	files, err := filepath.Glob(filepath.Join(h.cache, "*"))
	if err != nil {
		h.Fatal(err)
	}
	return files
}

// kept has what is believed kept, and gives the file.
func (h home) kept() string {
	h.Helper()
	s := h.open(store.Options{ReadOnly: true})
	if err := beliefs.In(h.cache, s).Keep(estimate.New(s.Book())); err != nil {
		h.Fatal(err)
	}
	files := h.files()
	if len(files) != 1 {
		h.Fatalf("kept: %v", files)
	}
	return files[0]
}

// asTheBook fails unless what is believed is what every entry comes to.
func (h home) asTheBook(why string) {
	h.Helper()
	s := h.open(store.Options{ReadOnly: true})
	got, want := beliefs.In(h.cache, s).Keeper(s.Book()), estimate.New(s.Book())
	if !reflect.DeepEqual(advice.Look(got, now), advice.Look(want, now)) || !estimate.Same(got, want, now) {
		h.Errorf("%s: not what the entries come to", why)
	}
}

// good reports whether the file is of use.
func (h home) good() bool {
	s := h.open(store.Options{ReadOnly: true})
	same, there := beliefs.In(h.cache, s).Check(s.Book(), now)
	if there && !same {
		h.Error("what the file says is not what the entries come to")
	}
	return there
}

// A book cut short anywhere, with what was believed there kept, and the rest written
// after: every number is that of the whole book.
func TestAYearGoesOnFromAnywhere(t *testing.T) {
	book := year(t).open(store.Options{ReadOnly: true}).Book()
	all := book.Entries()
	first := sort.Search(len(all), func(n int) bool { return estimate.Resumes(book, n) })
	draw := rand.New(rand.NewPCG(1, 2))
	used := 0
	for i := range 4 {
		n := first + draw.IntN(len(all)-first)
		if i == 0 { // where what comes after changes how this reads
			n = first - 1
		}
		h := home{t, filepath.Join(t.TempDir(), "book.db"), filepath.Join(t.TempDir(), "cache")}
		s := h.open(store.Options{Begin: true, Zone: time.UTC})
		for i, part := range [][]model.Entry{all[:n], all[n:]} {
			if _, err := s.AppendAll(part, nil); err != nil {
				t.Fatal(err)
			}
			if i == 0 {
				if err := beliefs.In(h.cache, s).Keep(estimate.New(s.Book())); err != nil {
					t.Fatal(err)
				}
			}
		}
		if h.good() {
			used++
		}
		h.asTheBook("a year that went on")
	}
	if used != 3 {
		t.Errorf("%d files of 3 were of use", used)
	}
}

// Damage and what was left half written is found out, loses nothing, and is made again.
func TestADamagedFileIsAsGoodAsNone(t *testing.T) {
	h := year(t)
	path := h.kept()
	sound, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !h.good() {
		t.Fatal("what was just kept is of no use")
	}
	h.asTheBook("kept")
	draw := rand.New(rand.NewPCG(3, 4))
	for i := range 60 {
		bad := bytes.Clone(sound)
		switch at := draw.IntN(len(bad)); {
		case i < 20:
			bad = bad[:at]
		case i < 25: // in the head
			bad[at%80] ^= 1 << draw.IntN(8)
		default:
			bad[at] ^= 1 << draw.IntN(8)
		}
		if err := os.WriteFile(path, bad, 0o600); err != nil {
			t.Fatal(err)
		}
		if h.good() {
			t.Fatalf("try %d: a damaged file was read", i)
		}
	}
	h.asTheBook("damaged")
	if err := os.WriteFile(path+".part", sound, 0o600); err != nil {
		t.Fatal(err)
	}
	h.kept()
	h.asTheBook("made again")
}

// What is kept of one book says nothing of another one at its place.
func TestAnotherBookAtTheSamePlace(t *testing.T) {
	h := year(t)
	h.kept()
	if err := os.Remove(h.path); err != nil {
		t.Fatal(err)
	}
	s := h.open(store.Options{Begin: true, Zone: time.UTC})
	if _, err := demo.Build(s, demo.Options{Seed: 2, Now: now}); err != nil {
		t.Fatal(err)
	}
	if h.good() {
		t.Error("it was read for another book")
	}
	h.asTheBook("another book")
}

// What changes how the past reads is not passed over: an edit, and an entry taken back
// that was there before. One that came after is no matter.
func TestWhatChangesThePast(t *testing.T) {
	h := year(t)
	h.kept()
	s := h.open(store.Options{})
	add := func(f model.Fact, plants ...model.ID) model.Seq {
		e, err := s.Append(model.NewEntry(now, f, plants...))
		if err != nil {
			t.Fatal(err)
		}
		return e.Seq
	}
	seen := add(&model.Look{Signs: model.Signs{Curl: 2, Tips: 0, Shift: model.NotSeen}}, 3)
	add(&model.Strike{Seq: seen})
	if !h.good() {
		t.Error("a look since then that was taken back made it of no use")
	}
	row := s.Book().Row(3).Plant
	row.Size += 10
	edit := add(&model.Edit{Plants: []model.Plant{row}})
	if h.good() {
		t.Error("an edit was passed over")
	}
	add(&model.Strike{Seq: edit})
	if !h.good() {
		t.Error("an edit that was taken back made it of no use")
	}
	for _, e := range s.Book().Entries() {
		if _, ok := e.Fact.(*model.Reading); ok && !s.Book().Struck(e.Seq) {
			add(&model.Strike{Seq: e.Seq})
			break
		}
	}
	if h.good() {
		t.Error("a reading that was taken back still counts")
	}
	h.asTheBook("changed")
}

// Little is not worth keeping, nothing is kept where no folder is named, and no more
// than a few books have a file.
func TestWhatIsNotKept(t *testing.T) {
	h := year(t)
	s := h.open(store.Options{ReadOnly: true})
	k := estimate.New(s.Book())
	if err := beliefs.In("", s).Keep(k); err != nil || len(h.files()) > 0 {
		t.Errorf("kept %v, %v", h.files(), err)
	}
	path := h.kept()
	first, _ := os.Stat(path)
	h.kept()
	if again, _ := os.Stat(path); !os.SameFile(first, again) {
		t.Error("it was written again with nothing new to say")
	}
	for _, other := range "abcdefgh" {
		if err := os.WriteFile(filepath.Join(h.cache, string(other)+".beliefs"), nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	if err := beliefs.In(h.cache, s).Keep(k); err != nil || len(h.files()) > 4 {
		t.Errorf("%d files are kept, %v", len(h.files()), err)
	}
}
