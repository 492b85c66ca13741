package store

import (
	"bytes"
	"fmt"
	"io"

	bolt "go.etcd.io/bbolt"

	"tubside/model"
)

// A transaction writes its pages, syncs them, and only then writes one of the two
// headers, by turns. When one of the two cannot be read it may have been the newer
// one: torn as the power went, or damaged since. Its pages are then whole on the disk,
// and the header before does not reach them. What they hold is what the grower entered,
// acknowledged or not, so that it is taken in again.

// takeOrphans takes in the entries that go on where the journal ends, from pages that
// the newest state does not reach. Where it is not certain what was written, that is an
// error, and for [Rescue].
func (c *contents) takeOrphans(f io.ReaderAt) error {
	if !c.headless {
		return nil
	}
	found := c.beyond(f)
	for at := c.end; len(found) > 0; {
		seq := at.seq + 1
		values := found[seq]
		delete(found, seq)
		if len(values) != 1 || c.schema == 1 {
			return fmt.Errorf("its newest header cannot be read, and entry %d was written after the one that can", c.end.seq+1)
		}
		line, s, err := unseal(values[0])
		if at = at.next(line); err != nil || at.sum != s {
			return fmt.Errorf("its newest header cannot be read, and entry %d does not follow the one before", seq)
		}
		c.orphans = append(c.orphans, bytes.Clone(line))
	}
	return c.adopt()
}

// beyond finds the values of entries after the newest, each once.
func (c *contents) beyond(f io.ReaderAt) map[model.Seq][][]byte {
	found := map[model.Seq][][]byte{}
	scanPages(f, c.meta, c.size, func(e element) {
		seq := seqOf(e.key)
		if _, _, err := unseal(e.value); seq <= c.end.seq || err != nil && c.schema > 1 {
			return
		}
		if c.schema == 1 && new(model.Entry).UnmarshalJSON(e.value) != nil {
			return
		}
		for _, known := range found[seq] {
			if bytes.Equal(known, e.value) {
				return
			}
		}
		found[seq] = append(found[seq], e.value)
	})
	return found
}

// adopt adds the orphans to what the file says.
func (c *contents) adopt() error {
	for _, line := range c.orphans {
		c.end = c.end.next(line)
		e := model.Entry{Seq: c.end.seq}
		if err := e.UnmarshalJSON(line); err != nil {
			return fmt.Errorf("entry %d: %w", e.Seq, err)
		}
		c.entries, c.sums = append(c.entries, e), append(c.sums, c.end.sum)
		c.keys, c.values = append(c.keys, key(e.Seq)), append(c.values, sealed(line, c.end.sum))
	}
	if len(c.orphans) > 0 {
		c.about[string(lastKey)] = aboutValue(lastKey, c.end.text())
	}
	return nil
}

// mend writes a header in the place of one that cannot be read, and with it the entries
// that only that one led to. bbolt writes its headers by turns: the next is that one.
func (s *Store) mend(c *contents) error {
	if !c.headless {
		return nil
	}
	end := c.endOf(len(c.sums) - len(c.orphans))
	ends := end.through(c.orphans)
	return s.db.Update(func(tx *bolt.Tx) error {
		if len(ends) == 0 {
			return nil
		}
		return appendLines(tx, end, c.orphans, ends)
	})
}

// Mended is how many entries at the end were taken in although the header that leads
// to them cannot be read, as after a power cut.
func (s *Store) Mended() int { return s.mended }

// scanPages gives every element of whatever looks like a leaf page, in use or
// not.
func scanPages(f io.ReaderAt, m meta, size int64, each func(element)) {
	head := make([]byte, pageHeader)
	for id := int64(2); (id+1)*m.pageSize <= size; id++ {
		if _, err := f.ReadAt(head, id*m.pageSize); err != nil || order.Uint16(head[8:]) != leafPage {
			continue
		}
		length := min((1+int64(order.Uint32(head[12:])))*m.pageSize, size-id*m.pageSize)
		page := make([]byte, length)
		if _, err := f.ReadAt(page, id*m.pageSize); err != nil {
			continue
		}
		_ = leaves(page, func(e element) error { return inLeaf(e, each) })
	}
}

// inLeaf gives the elements with keys as the journal has them, among them those
// of a small bucket that stands whole in its value.
func inLeaf(e element, each func(element)) error {
	switch {
	case !e.bucket && len(e.key) == 8:
		each(e)
	case e.bucket && len(e.value) >= bucketHeader+pageHeader && order.Uint64(e.value) == 0:
		return leaves(e.value[bucketHeader:], func(e element) error { return inLeaf(e, each) })
	}
	return nil
}
