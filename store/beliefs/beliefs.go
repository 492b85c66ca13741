// Package beliefs keeps what is believed of a book's plants in a file of the cache
// folder, so that a long past need not be read at every start. The file is no part
// of the book: it may be thrown away at any time, and one that is damaged, of
// another build of the program or of another book is as good as none.
package beliefs

import (
	"bufio"
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"fmt"
	"hash"
	"io"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"sync"
	"time"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/store"
)

// worthwhile is how much past may be read at a start, in entries, each counted once
// for every plant it names. A choice: measured, so many take about 30 ms.
const worthwhile = 12000

// mostKept is how many books' files are kept; the oldest goes. A choice.
const mostKept = 4

// ending is how the files are told from others in the folder.
const ending = ".beliefs"

// Cache is where what is believed of one book is kept.
type Cache struct {
	path  string // of the file; "" for none
	chain store.Chain
}

// own is what this program is, found out when somebody asks: not before the first frame.
var own = sync.OnceValues(identity)

// identity is another one for another program, another build of it, and another shape
// of what is kept. Two builds are told apart by their sources and settings, and by the
// size and time of their file: a build of sources that are being worked on says no
// more of itself.
func identity() ([sha256.Size]byte, error) {
	h := sha256.New()
	shape := estimate.Shape()
	h.Write(shape[:])
	if build, ok := debug.ReadBuildInfo(); ok {
		fmt.Fprintln(h, build)
	}
	path, err := os.Executable()
	if err != nil {
		return [sha256.Size]byte{}, err
	}
	file, err := os.Stat(path)
	if err != nil {
		return [sha256.Size]byte{}, err
	}
	fmt.Fprintln(h, file.Size(), file.ModTime().UnixNano())
	return [sha256.Size]byte(h.Sum(nil)), nil
}

// In is the cache of a book in a folder; without a folder nothing is kept. The book
// is taken as it stands now.
func In(folder string, s *store.Store) Cache {
	c := Cache{chain: s.Chain()}
	if path, err := filepath.Abs(s.Path()); err == nil && folder != "" {
		name := sha256.Sum256([]byte(path))
		c.path = filepath.Join(folder, fmt.Sprintf("%x%s", name[:8], ending))
	}
	return c
}

// Keeper is what is believed of the book's plants: from the file if there is a good
// one, else from every entry. The book is the one that the cache was made for, or a
// copy of it.
func (c Cache) Keeper(b *model.Book) *estimate.Keeper {
	k, err := c.resume(b)
	if err == nil {
		return k
	}
	if errors.Is(err, errDamaged) {
		_ = os.Remove(c.path) // or it would be taken for good when there is something new to keep
	}
	return estimate.New(b)
}

// Check holds what comes of the file against what every entry comes to. There is none
// when no file is of use. A file that says something else is thrown away.
func (c Cache) Check(b *model.Book, now time.Time) (same, there bool) {
	k, err := c.resume(b)
	if err != nil {
		return false, false
	}
	if same = estimate.Same(k, estimate.New(b), now); !same {
		_ = os.Remove(c.path)
	}
	return same, true
}

// Keep writes down what a keeper of the book believes, where reading the past again
// would take long. The cache must have been made since the newest entry.
func (c Cache) Keep(k *estimate.Keeper) error {
	b := k.Book()
	if c.path == "" || !k.UpToDate() || len(b.Entries()) != c.chain.Len() {
		return nil
	}
	if from := c.covered(b); past(b.Entries()[from:]) <= worthwhile {
		return nil
	}
	head, ok := c.head(c.chain.Len())
	if !ok {
		return nil
	}
	if err := os.MkdirAll(filepath.Dir(c.path), 0o700); err != nil {
		return err
	}
	if err := c.write(head, k); err != nil {
		return fmt.Errorf("keep what is believed: %w", err)
	}
	c.sweep()
	return nil
}

// past is how much there is to read in some entries.
func past(entries []model.Entry) int {
	n := 0
	for _, e := range entries {
		n += 1 + len(e.Plants)
	}
	return n
}

// covered is how many entries the file there stands for, 0 when it is of no use.
func (c Cache) covered(b *model.Book) int {
	f, err := os.Open(c.path)
	if err != nil {
		return 0
	}
	defer f.Close()
	n, err := c.stands(f, b)
	if err != nil {
		return 0
	}
	return n
}

// headLength is what stands before what is believed: what the file is, for how many
// entries, and a sum over what it must be good for.
const headLength = len(title) + 8 + sha256.Size

const title = "tubside beliefs\n"

// head is the head of a file for the first n entries.
func (c Cache) head(n int) ([]byte, bool) {
	print, ok := c.chain.Print(n)
	program, err := own()
	good := sha256.Sum256(append(print[:], program[:]...))
	head := binary.BigEndian.AppendUint64([]byte(title), uint64(n))
	return append(head, good[:]...), ok && err == nil
}

var errNotOurs = errors.New("it is of another book, or of another build of the program")

// stands reads the head of a file and gives how many of the book's entries it
// stands for.
func (c Cache) stands(r io.Reader, b *model.Book) (int, error) {
	head := make([]byte, headLength)
	if _, err := io.ReadFull(r, head); err != nil {
		return 0, err
	}
	n := binary.BigEndian.Uint64(head[len(title):])
	if n > uint64(c.chain.Len()) {
		return 0, errNotOurs
	}
	want, ok := c.head(int(n))
	if !ok || !bytes.Equal(head, want) || !estimate.Resumes(b, int(n)) {
		return 0, errNotOurs
	}
	return int(n), nil
}

var errDamaged = errors.New("it is damaged")

// resume goes on from the file.
func (c Cache) resume(b *model.Book) (*estimate.Keeper, error) {
	f, err := os.Open(c.path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	n, err := c.stands(f, b)
	if err != nil {
		return nil, err
	}
	length := info.Size() - int64(headLength) - sha256.Size
	if err := sound(f, length); err != nil {
		return nil, err
	}
	k, err := estimate.Resume(b, n, io.NewSectionReader(f, int64(headLength), length))
	if err != nil {
		return nil, errors.Join(errDamaged, err)
	}
	return k, nil
}

// sound holds a file against the sum at its end, which covers all before it.
func sound(f *os.File, length int64) error {
	sum, all := sha256.New(), io.NewSectionReader(f, 0, int64(headLength)+length)
	if _, err := io.Copy(sum, all); err != nil || length < 0 {
		return errors.Join(errDamaged, err)
	}
	said := make([]byte, sha256.Size)
	if _, err := f.ReadAt(said, int64(headLength)+length); err != nil || !bytes.Equal(said, sum.Sum(nil)) {
		return errors.Join(errDamaged, err)
	}
	return nil
}

// write makes the file under another name, so that it is there whole or not at all.
// It is not synced: a file that the disk forgets half of is found out.
func (c Cache) write(head []byte, k *estimate.Keeper) (err error) {
	temp, err := os.CreateTemp(filepath.Dir(c.path), "*"+ending+".part")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			os.Remove(temp.Name())
		}
	}()
	if err := errors.Join(seal(temp, head, k), temp.Close()); err != nil {
		return err
	}
	return os.Rename(temp.Name(), c.path)
}

// seal writes a head, what is believed, and a sum over both.
func seal(f io.Writer, head []byte, k *estimate.Keeper) error {
	sum, w := sha256.New(), bufio.NewWriterSize(f, 1<<16)
	both := summing{w, sum}
	if _, err := both.Write(head); err != nil {
		return err
	}
	if err := k.Snapshot(both); err != nil {
		return err
	}
	if _, err := w.Write(sum.Sum(nil)); err != nil {
		return err
	}
	return w.Flush()
}

// summing writes and adds up.
type summing struct {
	io.Writer
	sum hash.Hash
}

// Write writes, and takes what it writes into the sum.
func (s summing) Write(b []byte) (int, error) {
	s.sum.Write(b)
	return s.Writer.Write(b)
}

// sweep throws away the files of all but the books used last, and what was left
// half written.
func (c Cache) sweep() {
	folder := filepath.Dir(c.path)
	files, _ := filepath.Glob(filepath.Join(folder, "*"+ending))
	changed := func(path string) int64 {
		info, err := os.Stat(path)
		if err != nil {
			return 0
		}
		return info.ModTime().UnixNano()
	}
	slices.SortFunc(files, func(a, b string) int { return cmp.Compare(changed(b), changed(a)) })
	half, _ := filepath.Glob(filepath.Join(folder, "*"+ending+".part"))
	if len(files) > mostKept {
		half = append(half, files[mostKept:]...)
	}
	for _, path := range half {
		_ = os.Remove(path)
	}
}
