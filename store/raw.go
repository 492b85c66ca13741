package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"os"
	"runtime"
	"slices"
	"sync"

	"tubside/model"
)

// Schema is the version of the file's layout written now: a bucket "meta" that
// says what the file is, its layout, the house's zone and where the journal
// ends, and a bucket "journal" with one entry a key. The key is the entry's
// number in 8 bytes, big-endian; keys run from 1 without a gap. The value is the
// entry in JSON, a line feed and its [sum] in hex. Layout 1 had no sums and no
// zone; it is read, and brought up to date when it is next opened for writing.
const Schema = 2

var (
	metaBucket    = []byte("meta")
	journalBucket = []byte("journal")
	magicKey      = []byte("what")
	magic         = []byte("tubside book")
	schemaKey     = []byte("schema")
	zoneKey       = []byte("zone")
	lastKey       = []byte("last")
)

// raw is one state of a book's file, read with plain reads.
type raw struct {
	size     int64
	tx       uint64 // bbolt's number of the transaction that left this state
	about    map[string][]byte
	journal  bool // there is one
	sequence uint64
	keys     [][]byte
	values   [][]byte
	headless bool // one of the two headers cannot be read
	meta     meta

	// full is called whenever there are as many values as a stretch has, and takes them
	// away; nil: they stay.
	full func() error
	lean bool // some were taken away
}

// stretch is how many entries are decoded at a time where they do not stay: enough for
// every core, and little memory. A choice.
const stretch = 8192

// readRaw reads the file's newest state. Nothing is locked: a page of this state
// is not written to before the second transaction after it, and a reader that
// was overtaken finds its chain broken and the newest transaction another one.
func readRaw(f *os.File) (*raw, error) {
	r := new(raw)
	err := r.fill(f)
	if r.tx == 0 {
		return nil, err
	}
	return r, err
}

// fill is readRaw. tx stays 0 where no header can be read.
func (r *raw) fill(f *os.File) error {
	info, err := f.Stat()
	if err != nil {
		return err
	}
	m, whole, err := newestMeta(f)
	if err != nil {
		return err
	}
	r.size, r.tx, r.about, r.headless, r.meta = info.Size(), m.tx, map[string][]byte{}, !whole, m
	if need := m.highWater * m.pageSize; r.size < need {
		return fmt.Errorf("it is cut short: %d bytes of at least %d", r.size, need)
	}
	w := newWalk(f, m)
	free, _, err := w.read(m.freelist, freelistPage)
	if err != nil {
		return err
	}
	var buckets []element
	if err := w.tree(m.root, func(e element) error { buckets = append(buckets, e); return nil }); err != nil {
		return err
	}
	for _, e := range slices.Backward(buckets) { // meta before the journal: how it is to be read stands there
		if err := r.bucket(w, e); err != nil {
			return err
		}
	}
	return w.free(free)
}

// expected is how many entries the file says it has, as far as that can be: what room
// there should be for them.
func (r *raw) expected() int {
	var n int64
	_, _ = fmt.Sscanf(string(r.about[string(lastKey)]), "%d", &n)
	return int(max(0, min(n, r.size/int64(sealLength))))
}

// bucket takes in one of the file's buckets.
func (r *raw) bucket(w *walk, e element) error {
	take := func(element) error { return nil }
	switch {
	case !e.bucket:
		return nil
	case bytes.Equal(e.key, metaBucket):
		take = func(e element) error { r.about[string(e.key)] = e.value; return nil }
	case bytes.Equal(e.key, journalBucket) && len(e.value) >= bucketHeader:
		r.journal, r.sequence = true, order.Uint64(e.value[8:])
		room := r.expected()
		if r.full != nil {
			room = min(room, stretch)
		}
		r.keys, r.values = make([][]byte, 0, room), make([][]byte, 0, room)
		take = func(e element) error {
			r.keys, r.values = append(r.keys, e.key), append(r.values, e.value)
			if r.full != nil && len(r.values) == stretch {
				return r.full()
			}
			return nil
		}
	}
	return w.bucket(e.value, take)
}

// layout says which layout the file has. It returns ErrForeign for a file that
// is not a book and ErrNewer for a later layout.
func (r *raw) layout() (int, error) {
	known := bytes.Equal(r.about[string(magicKey)], magic)
	value := r.about[string(schemaKey)]
	switch {
	case !known && !r.journal && len(value) == 0:
		return 0, ErrForeign
	case !known:
		return 0, errors.New("it does not say what it is")
	case bytes.Equal(value, []byte("1")):
		return 1, r.hasJournal()
	}
	text, err := readAbout(schemaKey, value)
	if err != nil {
		return 0, err
	}
	var schema int
	if _, err := fmt.Sscanf(text, "%d", &schema); err != nil || schema < 2 {
		return 0, fmt.Errorf("layout %q", text)
	}
	if schema > Schema {
		return schema, fmt.Errorf("%w: layout %d", ErrNewer, schema)
	}
	return schema, r.hasJournal()
}

func (r *raw) hasJournal() error {
	if !r.journal {
		return errors.New("it has no journal")
	}
	return nil
}

// contents is what a sound file says.
type contents struct {
	*raw
	schema  int
	last    string // where the journal should end
	zone    string // the name of the house's zone; "" in layout 1, or where it has no name
	entries []model.Entry
	orphans [][]byte // lines that only a torn header leads to; they are among the entries
	sums    []sum    // of each entry; in layout 1 too: what its chain will be
	end     tail     // the same
}

// read decodes the journal and holds it against its chain.
func (r *raw) read() (*contents, error) {
	c := &contents{raw: r}
	if err := c.finish(); err != nil {
		return nil, err
	}
	return c, nil
}

// begin reads how the journal is to be read.
func (c *contents) begin() (err error) {
	if c.schema, err = c.layout(); err != nil || c.schema == 1 {
		return err
	}
	if c.zone, err = readAbout(zoneKey, c.about[string(zoneKey)]); err != nil {
		return err
	}
	if c.last, err = readAbout(lastKey, c.about[string(lastKey)]); err != nil {
		return err
	}
	c.entries = make([]model.Entry, 0, c.expected())
	return nil
}

// takeAway decodes what there is, and lets go of it. A journal that is yet to be chained
// stays.
func (c *contents) takeAway() error {
	if c.schema == 0 {
		if err := c.begin(); err != nil {
			return err
		}
	}
	if c.schema == 1 {
		return nil
	}
	err := c.decodeChained()
	clear(c.keys)
	clear(c.values)
	c.keys, c.values, c.lean = c.keys[:0], c.values[:0], true
	return err
}

// shed lets go of the entries and of how they stand in the file. Where they end stays.
func (c *contents) shed() {
	c.keys, c.values, c.entries, c.lean = nil, nil, nil, true
}

// finish decodes what is left, and sees whether the journal ends as it should.
func (c *contents) finish() error {
	if c.schema == 0 {
		if err := c.begin(); err != nil {
			return err
		}
	}
	if c.schema == 1 {
		return c.decodeOld()
	}
	if err := c.decodeChained(); err != nil {
		return err
	}
	if c.end.text() != c.last {
		return fmt.Errorf("the journal ends with entry %d, and the book says it should end with %s", c.end.seq, c.last)
	}
	return nil
}

// numbered sees to it that keys run on from those before without a gap, from 1.
func (c *contents) numbered() error {
	for i, k := range c.keys {
		at := len(c.entries) + i
		if len(k) != 8 {
			return fmt.Errorf("journal key of %d bytes after entry %d", len(k), at)
		}
		if n := binary.BigEndian.Uint64(k); n != uint64(at+1) {
			return fmt.Errorf("where entry %d should be there is number %d", at+1, n)
		}
	}
	return nil
}

// decodeOld reads a journal without a chain and works out what its chain will
// be.
func (c *contents) decodeOld() error {
	if err := c.numbered(); err != nil {
		return err
	}
	if n := uint64(len(c.keys)); c.sequence != n {
		return fmt.Errorf("it counted %d entries and has %d", c.sequence, n)
	}
	for _, value := range c.values {
		c.end = c.end.next(value)
		c.sums = append(c.sums, c.end.sum)
	}
	return c.decode(func(i int) ([]byte, error) { return c.values[i], nil })
}

// decodeChained decodes entries, and holds each against its sum and the one before.
func (c *contents) decodeChained() error {
	if err := c.numbered(); err != nil {
		return err
	}
	taken := len(c.sums)
	c.sums = slices.Grow(c.sums, len(c.values))
	for _, value := range c.values {
		_, s, err := unseal(value)
		if err != nil {
			return fmt.Errorf("entry %d: %w", c.end.seq+1, err)
		}
		c.end = tail{c.end.seq + 1, s}
		c.sums = append(c.sums, s)
	}
	return c.decode(func(i int) ([]byte, error) {
		line := c.values[i][:len(c.values[i])-sealLength]
		if c.endOf(taken+i).next(line).sum != c.sums[taken+i] {
			return nil, errNoSum
		}
		return line, nil
	})
}

// endOf is where the first n entries end.
func (c *contents) endOf(n int) tail {
	if n == 0 {
		return tail{}
	}
	return tail{model.Seq(n), c.sums[n-1]}
}

// decode decodes every entry there is. It is most of the work of opening a book, so
// every core takes a part of it.
func (c *contents) decode(line func(i int) ([]byte, error)) error {
	before, errs := len(c.entries), make([]error, runtime.GOMAXPROCS(0))
	c.entries = slices.Grow(c.entries, len(c.values))[:before+len(c.values)]
	entries := c.entries[before:]
	var parts sync.WaitGroup
	for n := range errs {
		parts.Go(func() {
			errs[n] = careful(func() (err error) {
				var reader model.Reader
				for i := n * len(entries) / len(errs); i < (n+1)*len(entries)/len(errs) && err == nil; i++ {
					entries[i].Seq = model.Seq(before + i + 1)
					err = c.entry(&reader, &entries[i], i, line)
				}
				return err
			})
		})
	}
	parts.Wait()
	for _, err := range errs { // the first in the book's order
		if err != nil {
			return err
		}
	}
	return nil
}

// entry decodes one entry. A kind that this tubside does not know is ErrNewer in
// a chained book; an old one has none, so there it is damage.
func (c *contents) entry(r *model.Reader, e *model.Entry, i int, line func(i int) ([]byte, error)) error {
	text, err := line(i)
	if err == nil {
		err = r.Read(text, e)
	}
	switch {
	case errors.Is(err, model.ErrNewerEntry) && c.schema > 1:
		return fmt.Errorf("%w: entry %d: %w", ErrNewer, e.Seq, err)
	case errors.Is(err, model.ErrNewerEntry):
		return fmt.Errorf("entry %d: it is of no kind that there was", e.Seq)
	case err != nil:
		return fmt.Errorf("entry %d: %w", e.Seq, err)
	}
	return nil
}
