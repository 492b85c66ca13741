package store

import (
	"encoding/binary"
	"errors"
	"fmt"
	"runtime"
	"sync"

	bolt "go.etcd.io/bbolt"

	"tubside/model"
)

// Schema is the version of the file's layout written now: a bucket "meta" with
// the magic and this number in decimal, and a bucket "journal" with one entry a
// key. The key is the entry's number in 8 bytes, big-endian, so that keys sort
// in the order written; the value is the entry in JSON.
const Schema = 1

var (
	metaBucket    = []byte("meta")
	journalBucket = []byte("journal")
	magicKey      = []byte("what")
	magic         = []byte("tubside book")
	schemaKey     = []byte("schema")
)

// packed is how full journal pages may get before they split. Entries are only
// ever added at the end, so no room is kept for later ones.
const packed = 0.95

// initialise writes the buckets of an empty book.
func initialise(tx *bolt.Tx) error {
	about, err := tx.CreateBucket(metaBucket)
	if err != nil {
		return err
	}
	if err := about.Put(magicKey, magic); err != nil {
		return err
	}
	if err := about.Put(schemaKey, fmt.Append(nil, Schema)); err != nil {
		return err
	}
	_, err = tx.CreateBucket(journalBucket)
	return err
}

// readSchema says which layout the file has. It returns ErrForeign for a file
// that is not a book and ErrNewer for a later layout.
func readSchema(tx *bolt.Tx) (int, error) {
	about := tx.Bucket(metaBucket)
	if about == nil || string(about.Get(magicKey)) != string(magic) {
		return 0, ErrForeign
	}
	text := string(about.Get(schemaKey))
	var schema int
	if _, err := fmt.Sscanf(text, "%d", &schema); err != nil || schema < 1 {
		return 0, fmt.Errorf("schema %q", text)
	}
	if schema > Schema {
		return schema, fmt.Errorf("%w: layout %d", ErrNewer, schema)
	}
	if tx.Bucket(journalBucket) == nil {
		return schema, errors.New("it has no journal")
	}
	return schema, nil
}

// readEntries decodes the whole journal in order. Decoding is most of the work
// of opening a book, so every core takes a stretch of it.
func readEntries(tx *bolt.Tx) ([]model.Entry, error) {
	var keys, values [][]byte // good until the transaction ends
	err := tx.Bucket(journalBucket).ForEach(func(k, v []byte) error {
		keys, values = append(keys, k), append(values, v)
		return nil
	})
	if err != nil {
		return nil, err
	}
	entries := make([]model.Entry, len(keys))
	errs := make([]error, runtime.GOMAXPROCS(0))
	var stretches sync.WaitGroup
	for n := range errs {
		stretches.Go(func() {
			for i := n * len(keys) / len(errs); i < (n+1)*len(keys)/len(errs) && errs[n] == nil; i++ {
				entries[i], errs[n] = decode(keys[i], values[i])
			}
		})
	}
	stretches.Wait()
	for _, err := range errs { // the first in the book's order
		if err != nil {
			return nil, err
		}
	}
	return entries, nil
}

// decode reads one entry. An entry of a later tubside is ErrNewer.
func decode(key, value []byte) (model.Entry, error) {
	if len(key) != 8 {
		return model.Entry{}, fmt.Errorf("journal key of %d bytes", len(key))
	}
	e := model.Entry{Seq: model.Seq(binary.BigEndian.Uint64(key))}
	err := e.UnmarshalJSON(value)
	switch {
	case errors.Is(err, model.ErrNewerEntry):
		return e, fmt.Errorf("%w: entry %d: %w", ErrNewer, e.Seq, err)
	case err != nil:
		return e, fmt.Errorf("entry %d: %w", e.Seq, err)
	}
	return e, nil
}

// appendEntry puts an encoded entry at the end of the journal. last is the
// number the book ends with: were the journal ahead of it, an earlier write
// reached the disk that was reported as lost, and nothing may build on that.
func appendEntry(tx *bolt.Tx, last model.Seq, value []byte) (model.Seq, error) {
	journal := tx.Bucket(journalBucket)
	journal.FillPercent = packed
	seq, err := journal.NextSequence()
	if err != nil {
		return 0, err
	}
	if model.Seq(seq) != last+1 {
		return 0, fmt.Errorf("the journal is at entry %d and the book at %d: close tubside and open it again", seq-1, last)
	}
	return model.Seq(seq), journal.Put(binary.BigEndian.AppendUint64(nil, seq), value)
}
