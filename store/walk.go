package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
)

// bbolt trusts its pages: one that points back at a page above it sends it round
// for ever, one that claims to be huge fills the memory, and neither can be
// caught. So a book is read here, with plain reads and without bbolt, which also
// needs no lock: see [readRaw]. The layout is bbolt's (internal/common, page.go
// and bucket.go), in the byte order of the machine.
const (
	branchPage   = 0x01
	leafPage     = 0x02
	freelistPage = 0x10
	elementSize  = 16 // of branches and leaves alike
	bucketFlag   = 0x01
	bucketHeader = 16 // root page and sequence, before a value's inline page
)

var order = binary.NativeEndian

// walk reads the trees of pages of one state of the file.
type walk struct {
	file io.ReaderAt
	meta meta
	seen []bool
}

func newWalk(file io.ReaderAt, m meta) *walk {
	return &walk{file: file, meta: m, seen: make([]bool, m.highWater)}
}

// element is a key and its value in a leaf page. The bytes stay good.
type element struct {
	bucket     bool
	key, value []byte
}

// tree gives each element of a tree of pages, in order. Keys must rise, from page to
// page and from branch to leaf: bbolt looks for the place of a new one by them.
func (w *walk) tree(root int64, each func(element) error) error {
	return w.below(root, span{}, each)
}

// span is where the keys below a branch must lie: from first on, and before end; nil is
// no bound.
type span struct{ first, end []byte }

var errOrder = errors.New("its keys are out of order")

func (s span) has(key []byte) bool {
	return bytes.Compare(key, s.first) >= 0 && (s.end == nil || bytes.Compare(key, s.end) < 0)
}

func (w *walk) below(root int64, keys span, each func(element) error) error {
	page, kind, err := w.read(root, branchPage|leafPage)
	if err != nil {
		return err
	}
	if kind == leafPage {
		var before []byte
		err := leaves(page, func(e element) error {
			if !keys.has(e.key) || before != nil && bytes.Compare(e.key, before) <= 0 {
				return errOrder
			}
			before = e.key
			return each(e)
		})
		if err != nil {
			return fmt.Errorf("page %d: %w", root, err)
		}
		return nil
	}
	children, err := branches(page)
	if err != nil {
		return fmt.Errorf("page %d: %w", root, err)
	}
	for i, child := range children {
		within := span{child.key, keys.end}
		if i+1 < len(children) {
			within.end = children[i+1].key
		}
		if !keys.has(child.key) || within.end != nil && bytes.Compare(child.key, within.end) >= 0 {
			return fmt.Errorf("page %d: %w", root, errOrder)
		}
		if err := w.below(child.page, within, each); err != nil {
			return err
		}
	}
	return nil
}

// branch is a page below a branch page, and the key it begins with.
type branch struct {
	page int64
	key  []byte
}

// bucket gives each element of a bucket. A small one has no page of its own: it
// stands whole in its value.
func (w *walk) bucket(value []byte, each func(element) error) error {
	if len(value) < bucketHeader {
		return errOutside
	}
	if root := int64(order.Uint64(value)); root != 0 {
		return w.tree(root, each)
	}
	page := value[bucketHeader:]
	if len(page) < pageHeader || order.Uint16(page[8:]) != leafPage {
		return errOutside
	}
	return leaves(page, each)
}

// read reads a page with its overflow, and sees to it that each is met once.
func (w *walk) read(id int64, kinds uint16) ([]byte, uint16, error) {
	if id < 2 || id >= w.meta.highWater {
		return nil, 0, fmt.Errorf("there is no page %d", id)
	}
	size := w.meta.pageSize
	page := make([]byte, size)
	if _, err := w.file.ReadAt(page, id*size); err != nil {
		return nil, 0, fmt.Errorf("page %d: %w", id, err)
	}
	kind, pages := order.Uint16(page[8:]), 1+int64(order.Uint32(page[12:]))
	known := kind == branchPage || kind == leafPage || kind == freelistPage
	if int64(order.Uint64(page)) != id || !known || kind&kinds == 0 || id+pages > w.meta.highWater {
		return nil, 0, fmt.Errorf("page %d is not what it should be", id)
	}
	for i := id; i < id+pages; i++ {
		if w.seen[i] {
			return nil, 0, fmt.Errorf("page %d is used twice", i)
		}
		w.seen[i] = true
	}
	if pages > 1 {
		page = append(page, make([]byte, (pages-1)*size)...)
		if _, err := w.file.ReadAt(page[size:], (id+1)*size); err != nil {
			return nil, 0, fmt.Errorf("page %d: %w", id, err)
		}
	}
	return page, kind, nil
}

// free holds the list of free pages against the pages met: each page is one or
// the other, or an entry would be written over one day.
func (w *walk) free(list []byte) error {
	count, ids := uint64(order.Uint16(list[10:])), list[pageHeader:]
	if count == 0xFFFF { // too many for the header
		count, ids = order.Uint64(ids), ids[8:]
	}
	if count > uint64(len(ids)/8) {
		return errOutside
	}
	for i := range count {
		id := order.Uint64(ids[8*i:])
		if id < 2 || id >= uint64(len(w.seen)) || w.seen[id] {
			return fmt.Errorf("page %d is listed as free and cannot be", id)
		}
		w.seen[id] = true
	}
	for id, met := range w.seen {
		if id >= 2 && !met {
			return fmt.Errorf("page %d is neither in use nor free", id)
		}
	}
	return nil
}

// branches lists the pages below a branch page.
func branches(page []byte) ([]branch, error) {
	var children []branch
	err := eachElement(page, func(e []byte) error {
		pos, key := order.Uint32(e), order.Uint32(e[4:])
		if err := within(e, pos, key, 0); err != nil {
			return err
		}
		children = append(children, branch{int64(order.Uint64(e[8:])), e[pos : uint64(pos)+uint64(key)]})
		return nil
	})
	return children, err
}

// leaves gives each element of a leaf page.
func leaves(page []byte, each func(element) error) error {
	return eachElement(page, func(e []byte) error {
		pos, key, value := order.Uint32(e[4:]), order.Uint32(e[8:]), order.Uint32(e[12:])
		if err := within(e, pos, key, value); err != nil {
			return err
		}
		from, to := uint64(pos)+uint64(key), uint64(pos)+uint64(key)+uint64(value)
		return each(element{order.Uint32(e)&bucketFlag != 0, e[pos:from:from], e[from:to:to]})
	})
}

var errOutside = fmt.Errorf("an element lies outside it")

// eachElement calls f with each element of a page, the rest of the page behind
// it: positions count from the element.
func eachElement(page []byte, f func(e []byte) error) error {
	if len(page) < pageHeader {
		return errOutside
	}
	count := int(order.Uint16(page[10:]))
	if len(page) < pageHeader+count*elementSize {
		return errOutside
	}
	for i := range count {
		if err := f(page[pageHeader+i*elementSize:]); err != nil {
			return err
		}
	}
	return nil
}

func within(e []byte, pos, key, value uint32) error {
	if uint64(pos)+uint64(key)+uint64(value) > uint64(len(e)) {
		return errOutside
	}
	return nil
}
