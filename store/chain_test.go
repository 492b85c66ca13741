package store_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"strings"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"

	"tubside/store"
)

// tampered is a sound book of 20 plants that somebody worked on with another
// tool, one that keeps the file itself in order.
func tampered(t *testing.T, f func(meta, journal *bolt.Bucket) error) []byte {
	t.Helper()
	path := write(t, someBook(t, 20))
	db, err := bolt.Open(path, 0o600, nil)
	if err != nil {
		t.Fatal(err)
	}
	err = db.Update(func(tx *bolt.Tx) error { return f(tx.Bucket([]byte("meta")), tx.Bucket([]byte("journal"))) })
	if err := errors.Join(err, db.Close()); err != nil {
		t.Fatal(err)
	}
	return read(t, path)
}

func keyOf(seq uint64) []byte { return binary.BigEndian.AppendUint64(nil, seq) }

// Pages in good order say nothing of what stands in them: an entry that was
// changed, taken out or put in breaks the chain, and the place is named.
func TestTheChainNoticesWhatPagesDoNot(t *testing.T) {
	for name, c := range map[string]struct {
		do   func(meta, journal *bolt.Bucket) error
		says string
	}{
		"one from the middle gone": {func(_, j *bolt.Bucket) error { return j.Delete(keyOf(7)) }, "where entry 7 should be there is number 8"},
		"the last one gone":        {func(_, j *bolt.Bucket) error { return j.Delete(keyOf(21)) }, "the journal ends with entry 20"},
		"a word changed": {func(_, j *bolt.Bucket) error {
			return j.Put(keyOf(3), bytes.Replace(j.Get(keyOf(3)), []byte("ionantha"), []byte("ionanthb"), 1))
		}, "entry 3: its checksum"},
		"two exchanged": {func(_, j *bolt.Bucket) error {
			a, b := bytes.Clone(j.Get(keyOf(4))), bytes.Clone(j.Get(keyOf(5)))
			return errors.Join(j.Put(keyOf(4), b), j.Put(keyOf(5), a))
		}, "entry 4: its checksum"},
		"one written again at the end": {func(_, j *bolt.Bucket) error {
			return j.Put(keyOf(22), bytes.Clone(j.Get(keyOf(21))))
		}, "entry 22: its checksum"},
		"another end":  {func(m, _ *bolt.Bucket) error { return m.Put([]byte("last"), store.About("last", "3 00")) }, "it should end with 3"},
		"another zone": {func(m, _ *bolt.Bucket) error { return m.Put([]byte("zone"), []byte("Etc/GMT+3")) }, "zone"},
	} {
		err := refused(t, tampered(t, c.do))
		if !errors.Is(err, store.ErrDamaged) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want it to say %q", name, err, c.says)
		}
	}
}

// The number of the next entry is counted from the entries, not from what bbolt
// notes of its bucket: a bit flipped there must not write over an old one.
func TestANumberFlippedInTheBucketOverwritesNothing(t *testing.T) {
	path := write(t, tampered(t, func(_, j *bolt.Bucket) error { return j.SetSequence(4) }))
	b := &book{t: t, path: path, opt: store.Options{Zone: time.UTC}}
	b.open()
	defer b.mustClose()
	if e := b.must(sunday, note("after")); e.Seq != 22 {
		t.Errorf("written as entry %d, want 22", e.Seq)
	}
	if r := b.mustCheck(); r.Entries != 22 {
		t.Errorf("%d entries", r.Entries)
	}
}

// With the newest of the two headers unreadable bbolt goes back to the one before, and
// the last entry with it. That entry is taken in again, for who reads and who writes, and
// the header is mended.
func TestADamagedNewestHeaderLosesNothing(t *testing.T) {
	whole := someBook(t, 20)
	newest := 0
	if at := 16 + 48; binary.NativeEndian.Uint64(whole[4096+at:]) > binary.NativeEndian.Uint64(whole[at:]) {
		newest = 4096
	}
	for at := newest + 16; at < newest+16+64; at++ {
		data := bytes.Clone(whole)
		data[at] ^= 0x10
		b := &book{t: t, path: write(t, data), opt: store.Options{Zone: time.UTC, ReadOnly: true}}
		b.open()
		if n := len(b.Book().Entries()); n != 21 || b.Mended() != 1 {
			t.Fatalf("byte %d: %d entries to read, %d mended", at, n, b.Mended())
		}
		b.mustClose()
		b.opt.ReadOnly = false
		b.open()
		b.must(sunday, note("after"))
		if r := b.mustCheck(); r.Entries != 22 {
			t.Fatalf("byte %d: %d entries", at, r.Entries)
		}
		b.mustClose()
		b.open()
		if b.Mended() != 0 {
			t.Fatalf("byte %d: it was not mended", at)
		}
		b.mustClose()
	}
	// Where two entries may have been the last, nobody can say which.
	data := bytes.Clone(whole)
	data[newest+20] ^= 0x10
	if err := refused(t, append(data, endedOtherwise(t, 20)[2*4096:]...)); !errors.Is(err, store.ErrDamaged) {
		t.Errorf("two ends: %v", err)
	}
	// In the older one it hides nothing: the next entry is written over it.
	data = bytes.Clone(whole)
	data[4096-newest+16+20] ^= 0x10
	b := &book{t: t, path: write(t, data), opt: store.Options{Zone: time.UTC}}
	b.open()
	defer b.mustClose()
	b.must(sunday, note("after"))
	if r := b.mustCheck(); r.Entries != 22 {
		t.Errorf("%d entries", r.Entries)
	}
}

// A branch whose keys are wrong would send bbolt to the wrong page with the next entry.
func TestKeysOutOfOrderAreNoticed(t *testing.T) {
	whole := someBook(t, 60)
	turned := 0
	for page := 2 * 4096; page < len(whole); page += 4096 {
		if binary.NativeEndian.Uint16(whole[page+8:]) != 0x01 { // a branch
			continue
		}
		for n := range int(binary.NativeEndian.Uint16(whole[page+10:])) {
			element := page + 16 + 16*n
			data := bytes.Clone(whole)
			data[element+int(binary.NativeEndian.Uint32(whole[element:]))+7] ^= 0x40
			s, err := store.Open(write(t, data), store.Options{Zone: time.UTC})
			if err == nil {
				_ = s.Close()
			} else if errors.Is(err, store.ErrDamaged) {
				turned++
			}
		}
	}
	if turned < 3 {
		t.Errorf("%d branches with a key turned were noticed", turned)
	}
}
