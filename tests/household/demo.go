package household

import (
	"path/filepath"
	"testing"
	"time"

	"tubside/demo"
	"tubside/model"
	"tubside/store"
)

// Moment is a moment of the demo in one of the homes that a seed makes, in UTC.
type Moment struct {
	Scene string
	Seed  uint64
	Now   time.Time
}

// made is the entries of the moments that were asked for: a test takes what another made.
var made = map[Moment][]model.Entry{}

// Book is the book at the moment, a new one each time. It is not for tests that run at once.
func (m Moment) Book(t testing.TB) *model.Book {
	t.Helper()
	if made[m] == nil {
		s, err := store.Open(filepath.Join(t.TempDir(), "book.db"), store.Options{Begin: true, Zone: time.UTC})
		if err != nil {
			t.Fatal(err)
		}
		defer s.Close()
		if _, err := demo.Build(s, demo.Options{Scene: m.Scene, Seed: m.Seed, Now: m.Now}); err != nil {
			t.Fatal(err)
		}
		made[m] = s.Book().Entries()
	}
	b, err := model.Replay(made[m], time.UTC)
	if err != nil {
		t.Fatal(err)
	}
	return b
}
