package store

import (
	"encoding/binary"
	"fmt"
	"io"
	"os"
)

// bbolt trusts its pages: one that points back at a page above it sends it round
// for ever, one that claims to be huge fills the memory, and neither can be
// caught. So once the file is locked, and before bbolt follows them, its pages
// are walked here with plain reads. The layout is bbolt's (internal/common,
// page.go and bucket.go), in the byte order of the machine.
const (
	branchPage   = 0x01
	leafPage     = 0x02
	freelistPage = 0x10
	elementSize  = 16 // of branches and leaves alike
	bucketFlag   = 0x01
	bucketHeader = 16 // root page and sequence, before a value's inline page
)

var order = binary.NativeEndian

// walkPages reports the first page of the file at path that cannot be.
func walkPages(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	m, err := newestMeta(f)
	if err != nil {
		return err
	}
	w := &walk{file: f, meta: m, seen: make([]bool, m.highWater)}
	if _, _, err := w.read(m.freelist, freelistPage); err != nil {
		return err
	}
	return w.tree(m.root)
}

type walk struct {
	file io.ReaderAt
	meta meta
	seen []bool
	page []byte // the page being read, with its overflow
}

// tree walks a tree of pages from its root.
func (w *walk) tree(root int64) error {
	page, kind, err := w.read(root, branchPage|leafPage)
	if err != nil {
		return err
	}
	below := leaves
	if kind == branchPage {
		below = branches
	}
	children, err := below(page)
	if err != nil {
		return fmt.Errorf("page %d: %w", root, err)
	}
	for _, child := range children {
		if err := w.tree(child); err != nil {
			return err
		}
	}
	return nil
}

// read reads a page and its overflow, and sees to it that each is met once. The
// bytes are good until the next read.
func (w *walk) read(id int64, kinds uint16) ([]byte, uint16, error) {
	if id < 2 || id >= w.meta.highWater {
		return nil, 0, fmt.Errorf("there is no page %d", id)
	}
	var head [pageHeader]byte
	if _, err := w.file.ReadAt(head[:], id*w.meta.pageSize); err != nil {
		return nil, 0, fmt.Errorf("page %d: %w", id, err)
	}
	kind, pages := order.Uint16(head[8:]), 1+int64(order.Uint32(head[12:]))
	known := kind == branchPage || kind == leafPage || kind == freelistPage
	if int64(order.Uint64(head[:])) != id || !known || kind&kinds == 0 || id+pages > w.meta.highWater {
		return nil, 0, fmt.Errorf("page %d is not what it should be", id)
	}
	for i := id; i < id+pages; i++ {
		if w.seen[i] {
			return nil, 0, fmt.Errorf("page %d is used twice", i)
		}
		w.seen[i] = true
	}
	if need := int(pages * w.meta.pageSize); cap(w.page) < need {
		w.page = make([]byte, need)
	}
	w.page = w.page[:pages*w.meta.pageSize]
	if _, err := w.file.ReadAt(w.page, id*w.meta.pageSize); err != nil {
		return nil, 0, fmt.Errorf("page %d: %w", id, err)
	}
	return w.page, kind, nil
}

// branches lists the pages below a branch page.
func branches(page []byte) ([]int64, error) {
	var children []int64
	err := eachElement(page, func(e []byte) error {
		children = append(children, int64(order.Uint64(e[8:])))
		return within(e, order.Uint32(e), order.Uint32(e[4:]), 0)
	})
	return children, err
}

// leaves lists the roots of the buckets in a leaf page. A small bucket has no
// page of its own: it stands whole in its value.
func leaves(page []byte) ([]int64, error) {
	var roots []int64
	err := eachElement(page, func(e []byte) error {
		pos, key, value := order.Uint32(e[4:]), order.Uint32(e[8:]), order.Uint32(e[12:])
		if err := within(e, pos, key, value); err != nil || order.Uint32(e)&bucketFlag == 0 {
			return err
		}
		bucket := e[uint64(pos)+uint64(key):][:value]
		if len(bucket) < bucketHeader {
			return errOutside
		}
		if root := int64(order.Uint64(bucket)); root != 0 {
			roots = append(roots, root)
			return nil
		}
		if inline := bucket[bucketHeader:]; len(inline) < pageHeader || order.Uint16(inline[8:]) != leafPage {
			return errOutside
		}
		inner, err := leaves(bucket[bucketHeader:])
		roots = append(roots, inner...)
		return err
	})
	return roots, err
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
