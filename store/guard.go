package store

import (
	"errors"
	"fmt"
	"hash/fnv"
	"io"
	"runtime/debug"
)

// A bolt file is read through memory: touching a page that the file no longer
// has kills the program with a bus error. So before it is opened its two meta
// pages are read the plain way, and the file must be as long as they say. The
// layout is bbolt's (internal/common, page.go and meta.go): a page header of 16
// bytes, then the fields below in the byte order of the machine.
const (
	boltMagic   = 0xED0CDAED
	boltVersion = 2
	pageHeader  = 16
	metaLength  = 64
)

// meta is one of the two meta pages.
type meta struct {
	pageSize  int64
	highWater int64 // the first page never used
	root      int64 // the page where all begins
	freelist  int64 // the page that lists the pages free for use
	tx        uint64
}

var errNoMeta = errors.New("neither of its two header pages can be read")

// guard reports why the file at path must not be opened, if it must not.
func guard(path string) error {
	f, err := openPlain(path)
	if err != nil {
		return err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return err
	}
	m, _, err := newestMeta(f)
	if err != nil {
		return err
	}
	if need := m.highWater * m.pageSize; info.Size() < need {
		return fmt.Errorf("it is cut short: %d bytes of at least %d", info.Size(), need)
	}
	return nil
}

// newestMeta finds the valid meta page of the last transaction, and says whether
// the other one is valid too: they are written by turns, so it should be. The
// second page lies one page size in; when the first cannot tell that size, every
// size that bbolt knows is tried.
func newestMeta(r io.ReaderAt) (newest meta, both bool, err error) {
	first, ok := readMeta(r, 0)
	if ok {
		second, both := readMeta(r, first.pageSize)
		if both && second.tx > first.tx {
			return second, true, nil
		}
		return first, both, nil
	}
	for _, size := range pageSizes() {
		if m, ok := readMeta(r, size); ok && m.pageSize == size {
			return m, false, nil
		}
	}
	return meta{}, false, errNoMeta
}

func readMeta(r io.ReaderAt, offset int64) (meta, bool) {
	b := make([]byte, metaLength)
	if _, err := r.ReadAt(b, offset+pageHeader); err != nil {
		return meta{}, false
	}
	sum := fnv.New64a()
	sum.Write(b[:56])
	if order.Uint32(b) != boltMagic || order.Uint32(b[4:]) != boltVersion || order.Uint64(b[56:]) != sum.Sum64() {
		return meta{}, false
	}
	m := meta{
		pageSize:  int64(order.Uint32(b[8:])),
		root:      int64(order.Uint64(b[16:])),
		freelist:  int64(order.Uint64(b[32:])),
		highWater: int64(order.Uint64(b[40:])),
		tx:        order.Uint64(b[48:]),
	}
	sane := m.pageSize >= 1<<10 && m.pageSize <= 16<<20 && m.highWater > 1 && m.highWater < 1<<40
	return m, sane
}

// careful runs f, in which a damaged file may make bbolt panic or memory
// fault, and gives that back as an error.
func careful(f func() error) (err error) {
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		if p := recover(); p != nil {
			err = &fault{p}
		}
	}()
	return f()
}

// fault is a panic inside bbolt. The database it came from must not be used
// again, not even to close it: its locks may be held.
type fault struct{ what any }

// Error says what went wrong while reading.
func (f *fault) Error() string { return fmt.Sprintf("reading it failed: %v", f.what) }
