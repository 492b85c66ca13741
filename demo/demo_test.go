package demo_test

import (
	"bytes"
	"encoding/json"
	"path/filepath"
	"testing"
	"time"

	"tubside/demo"
	"tubside/model"
	"tubside/store"
)

// now is a Wednesday afternoon in winter.
var now = time.Date(2026, 2, 11, 14, 20, 0, 0, time.UTC)

// build makes the demo in a book of its own and checks the file.
func build(t testing.TB, opt demo.Options) (*model.Book, *demo.Truth) {
	t.Helper()
	s, err := store.Open(filepath.Join(t.TempDir(), "book"), store.Options{Zone: opt.Now.Location(), Begin: true})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	truth, err := demo.Build(s, opt)
	if err != nil {
		t.Fatalf("%+v: %v", opt, err)
	}
	if _, err := s.Check(); err != nil {
		t.Fatalf("check: %v", err)
	}
	return s.Book(), truth
}

func journal(t *testing.T, b *model.Book) []byte {
	t.Helper()
	var all bytes.Buffer
	for _, e := range b.Entries() {
		line, err := json.Marshal(e)
		if err != nil {
			t.Fatal(err)
		}
		all.Write(append(line, '\n'))
	}
	return all.Bytes()
}

func TestTheSameSeedGivesTheSameJournal(t *testing.T) {
	opt := demo.Options{Seed: 7, Now: now}
	one, truth := build(t, opt)
	opt.Now = opt.Now.Add(300 * time.Millisecond) // the same second
	two, again := build(t, opt)
	if !bytes.Equal(journal(t, one), journal(t, two)) {
		t.Error("two journals of one seed differ")
	}
	for id, n := range truth.Plants {
		if again.Plants[id] != n {
			t.Fatalf("plant %d: %+v, then %+v", id, n, again.Plants[id])
		}
	}
	opt.Seed++
	if three, _ := build(t, opt); bytes.Equal(journal(t, one), journal(t, three)) {
		t.Error("another seed gives the same journal")
	}
}

// Any moment will do: midnight, the days when the clocks change, new year, the
// zones at the ends of the world, a leap day.
func TestAnyMomentWillDo(t *testing.T) {
	for _, moment := range []struct {
		zone, at, scene string
		seed            uint64
	}{
		{"Europe/Tallinn", "2026-03-29T00:05:00+02:00", "homecoming", 2},
		{"America/New_York", "2026-11-01T01:30:00-04:00", "bench", 3},
		{"Pacific/Kiritimati", "2027-01-01T00:00:00+14:00", "soakday", 4},
		{"America/Havana", "2028-02-29T23:59:59-05:00", "quiet", 5},
	} {
		zone, err := time.LoadLocation(moment.zone)
		if err != nil {
			t.Fatal(err)
		}
		at, err := time.Parse(time.RFC3339, moment.at)
		if err != nil {
			t.Fatal(err)
		}
		b, _ := build(t, demo.Options{Scene: moment.scene, Seed: moment.seed, Now: at.In(zone)})
		inOrder(t, b, at)
	}
}

// inOrder checks that nothing is told before it happened or after the scene.
func inOrder(t *testing.T, b *model.Book, now time.Time) {
	t.Helper()
	var last time.Time
	for _, e := range b.Entries() {
		if e.At.Before(last) || e.At.After(now) {
			t.Fatalf("entry %d (%s) at %v, after one at %v; the scene is at %v", e.Seq, e.Fact.Kind(), e.At, last, now)
		}
		last = e.At
	}
	if len(b.Entries()) > 1 && b.Entries()[0].At.After(now.AddDate(0, 0, -360)) {
		t.Errorf("the past begins only at %v", b.Entries()[0].At)
	}
}

func TestWhatTheDemoRefuses(t *testing.T) {
	s, err := store.Open(filepath.Join(t.TempDir(), "book"), store.Options{Zone: time.UTC, Begin: true})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	refused := func(what string, opt demo.Options) {
		t.Helper()
		before := len(s.Book().Entries())
		_, err := demo.Build(s, opt)
		if _, ok := model.AsProblem(err); !ok {
			t.Errorf("%s: %v", what, err)
		}
		if len(s.Book().Entries()) != before {
			t.Errorf("%s: entries were written", what)
		}
	}
	refused("a scene there is none of", demo.Options{Scene: "moonrise", Now: now})
	refused("no time", demo.Options{})
	if _, err := s.Append(model.NewEntry(now, &model.Reading{TempC: 21, RH: 40})); err != nil {
		t.Fatal(err)
	}
	refused("a book with entries", demo.Options{Scene: "first", Now: now})
}

func TestProgressIsHeard(t *testing.T) {
	var last, all int
	b, _ := build(t, demo.Options{Scene: "quiet", Now: now, Progress: func(done, total int) {
		if done <= last {
			t.Errorf("%d after %d", done, last)
		}
		last, all = done, total
	}})
	if n := len(b.Entries()); last != n || all != n {
		t.Errorf("heard %d of %d, want %d", last, all, n)
	}
}

func BenchmarkBuild(b *testing.B) {
	for b.Loop() {
		s, err := store.Open(filepath.Join(b.TempDir(), "book"), store.Options{Zone: time.UTC, Begin: true})
		if err != nil {
			b.Fatal(err)
		}
		if _, err := demo.Build(s, demo.Options{Seed: 1, Now: now}); err != nil {
			b.Fatal(err)
		}
		s.Close()
	}
}
