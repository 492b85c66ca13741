package attack_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"time"

	"tubside/model"
	"tubside/store"
)

func noteText(e model.Entry) string {
	f, ok := e.Fact.(*model.Note)
	if !ok {
		return ""
	}
	return f.Text
}

// note is the i-th entry: some short, some of several pages.
func note(i int) *model.Note {
	text := fmt.Sprintf("note %d ", i)
	for len(text) < 20+(i*i*37)%1500 {
		text += "damp at the heart, shaken out again; "
	}
	return &model.Note{Text: text[:min(len(text), 1900)]}
}

// victim is a sound book of 120 entries on many pages, and what it says.
func victim(t *testing.T) (data []byte, says []string) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "book")
	s, err := store.Open(path, store.Options{Zone: time.UTC, Begin: true})
	for i := 0; err == nil && i < 120; i++ {
		_, err = s.Append(model.NewEntry(sunday, note(i)))
	}
	if err := errors.Join(err, s.Close()); err != nil {
		t.Fatal(err)
	}
	if data, err = os.ReadFile(path); err != nil {
		t.Fatal(err)
	}
	return data, lines(t, s.Book())
}

func lines(t *testing.T, b *model.Book) []string {
	t.Helper()
	var all []string
	for _, e := range b.Entries() {
		line, err := json.Marshal(e)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, string(line))
	}
	return all
}

// outcome is what became of a damaged file.
type outcome struct{ harmless, noticed, untrue, rescued int }

// try opens a damaged file and, when it is refused, rescues it. Nothing that was
// not written may be read from it either way.
func (o *outcome) try(t *testing.T, what string, data []byte, says []string, write bool) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "book")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	s, err := store.Open(path, store.Options{Zone: time.UTC, ReadOnly: !write})
	switch {
	case err == nil:
		if !equal(lines(t, s.Book()), says) {
			o.untrue++
			t.Errorf("%s: opened, and says something else", what)
		}
		o.harmless++
		if err := s.Close(); err != nil {
			t.Errorf("%s: %v", what, err)
		}
		return
	case !errors.Is(err, store.ErrDamaged):
		o.untrue++
		t.Errorf("%s: damage is called %v", what, err)
	}
	if o.noticed++; o.noticed%4 > 0 {
		return // every fourth is rescued, too
	}
	out, err := store.Rescue(path, time.UTC)
	if err != nil {
		return // nothing could be read: it was said
	}
	s, err = store.Open(path, store.Options{Zone: time.UTC, ReadOnly: true})
	if err != nil {
		o.untrue++
		t.Errorf("%s: rescued, and then: %v", what, err)
		return
	}
	o.rescued++
	lost := map[model.Seq]bool{}
	for _, l := range out.Lost {
		lost[l.Seq] = true
	}
	for i, line := range lines(t, s.Book()) {
		if !lost[model.Seq(i+1)] && (i >= len(says) || line != says[i]) {
			o.untrue++
			t.Errorf("%s: rescued entry %d says %s", what, i+1, line)
		}
	}
}

func equal(a, b []string) bool { return fmt.Sprint(a) == fmt.Sprint(b) }

// One bit flips anywhere in the file: it is noticed, or it changes nothing.
func TestFlippedBits(t *testing.T) {
	data, says := victim(t)
	tries := *flips
	if testing.Short() {
		tries = 150
	}
	r := rand.New(rand.NewPCG(1, 2))
	var o outcome
	for n := range tries {
		bad := bytes.Clone(data)
		at := r.IntN(len(bad))
		if n%3 == 0 { // into the head of a page, where it hurts
			at = r.IntN(len(bad)/4096)*4096 + r.IntN(96)
		}
		bit := r.IntN(8)
		bad[at] ^= 1 << bit
		o.try(t, fmt.Sprintf("byte %d bit %d", at, bit), bad, says, n%10 == 0)
	}
	if o.noticed == 0 || o.harmless == 0 {
		t.Errorf("%+v: the flips prove nothing", o)
	}
	figures(t, fmt.Sprintf("bit flips (%d noticed)", o.noticed), tries, tries-o.untrue, o.untrue)
}

// Whole pages are wiped, exchanged, or come back as they were; the file is cut
// short.
func TestDamagedPages(t *testing.T) {
	data, says := victim(t)
	tries := *pages
	if testing.Short() {
		tries = 60
	}
	const size = 4096
	count := len(data) / size
	r := rand.New(rand.NewPCG(3, 4))
	page := func(b []byte, n int) []byte { return b[n*size : (n+1)*size] }
	var o outcome
	for n := range tries {
		bad := bytes.Clone(data)
		a, b := r.IntN(count), r.IntN(count)
		switch n % 4 {
		case 0:
			clear(page(bad, a))
		case 1:
			copy(page(bad, a), page(data, b))
			copy(page(bad, b), page(data, a))
		case 2:
			copy(page(bad, a), page(data, b))
		case 3:
			bad = bad[:r.IntN(len(bad))]
		}
		o.try(t, fmt.Sprintf("way %d, pages %d and %d", n%4, a, b), bad, says, n%8 < 4)
	}
	figures(t, fmt.Sprintf("damaged pages (%d noticed)", o.noticed), tries, tries-o.untrue, o.untrue)
}
