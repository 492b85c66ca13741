package attack_test

import (
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

// sector is what a disk writes whole or not at all, in bytes.
const sector = 512

// lifetime is all that a program asked of the disk while it wrote a book, and
// which entry it had acknowledged after how many of those operations.
type lifetime struct {
	ops          []operation
	acknowledged []int // entries acknowledged before the operation of that index
}

// writeBook makes a book of n entries of many lengths on a disk that takes
// everything.
func writeBook(t *testing.T, n int) *lifetime {
	t.Helper()
	path := filepath.Join(t.TempDir(), "book")
	s, err := store.Open(path, store.Options{Zone: time.UTC, Begin: true})
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	l := &lifetime{ops: []operation{{kind: "write", data: data}, {kind: "sync"}}, acknowledged: []int{0, 0}}
	acknowledged := 0
	var failed error
	onDisk(t, func(op operation) answer {
		if op.file == path {
			l.ops = append(l.ops, op)
			l.acknowledged = append(l.acknowledged, acknowledged)
		}
		return sound
	}, func() {
		s, err := store.Open(path, store.Options{Zone: time.UTC})
		for i := 0; err == nil && i < n; i++ {
			_, err = s.Append(model.NewEntry(sunday, note(i)))
			acknowledged++
		}
		failed = errors.Join(err, s.Close())
	})
	if failed != nil {
		t.Fatal(failed)
	}
	return l
}

// cut is the disk as a power cut in the middle of an operation leaves it: all that
// was synced, and of what came after each sector or not. With garbage, the sector
// that was just being written is neither old nor new.
func (l *lifetime) cut(r *rand.Rand, at int, garbage bool) []byte {
	synced := 0
	for i, op := range l.ops[:at] {
		if op.kind == "sync" {
			synced = i
		}
	}
	var disk []byte
	grow := func(n int64) {
		if n > int64(len(disk)) {
			disk = append(disk, make([]byte, n-int64(len(disk)))...)
		}
	}
	for i, op := range l.ops[:min(at+1, len(l.ops))] {
		if op.kind == "size" && (i < synced || r.IntN(2) == 0) {
			grow(op.offset)
		}
		if op.kind != "write" {
			continue
		}
		for from := 0; from < len(op.data); from += sector {
			if i >= synced && r.IntN(2) == 0 {
				continue
			}
			to := min(from+sector, len(op.data))
			grow(op.offset + int64(to))
			copy(disk[op.offset+int64(from):], op.data[from:to])
		}
		if garbage && i == at && i > synced {
			from := op.offset + int64(r.IntN(2)*r.IntN(max(1, len(op.data)/sector)))*sector
			grow(from + sector)
			for j := range sector {
				disk[from+int64(j)] = byte(r.Uint32())
			}
		}
	}
	return disk
}

// The power goes at any moment: the book opens by itself when it is back, with every
// entry that was acknowledged by then, also where the disk left a sector that is neither
// old nor new.
func TestPowerCuts(t *testing.T) {
	cuts := *powerCuts
	if testing.Short() {
		cuts = 60
	}
	l := writeBook(t, 40)
	r := rand.New(rand.NewPCG(11, 12))
	dir := t.TempDir()
	lost, torn := 0, 0
	for n := range cuts {
		at := 2 + r.IntN(len(l.ops)-2)
		garbage := n%4 == 3
		path := filepath.Join(dir, fmt.Sprint(n))
		if err := os.WriteFile(path, l.cut(r, at, garbage), 0o600); err != nil {
			t.Fatal(err)
		}
		s, err := store.Open(path, store.Options{Zone: time.UTC})
		if err != nil {
			lost++
			t.Errorf("cut %d, in operation %d (%s): %v", n, at, l.ops[at].kind, err)
			continue
		}
		if s.Mended() > 0 {
			torn++
		}
		if got := kept(s.Book()); got < l.acknowledged[at] {
			lost++
			t.Errorf("cut %d, in operation %d: %d entries of %d acknowledged", n, at, got, l.acknowledged[at])
		}
		// And it goes on.
		if _, err := s.Append(model.NewEntry(sunday, note(0))); err != nil {
			t.Errorf("cut %d: afterwards: %v", n, err)
		}
		if err := s.Close(); err != nil {
			t.Error(err)
		}
		_ = os.Remove(path)
	}
	figures(t, fmt.Sprintf("power cuts (%d headers torn)", torn), cuts, cuts-lost, lost)
}

// kept counts the entries that are as they were written.
func kept(b *model.Book) int {
	n := 0
	for i, e := range b.Entries() {
		f, ok := e.Fact.(*model.Note)
		if !ok || f.Text != note(i).Text {
			break
		}
		n++
	}
	return n
}
