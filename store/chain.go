package store

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"

	"tubside/model"
)

// sum is the checksum of an entry and, through the sum of the entry before, of
// all that came before it: the first 16 bytes of SHA-256 over the sum before,
// the key and the line. An entry that is changed, missing or out of place breaks
// the chain at that place. The sum before the first entry is zero.
type sum [16]byte

// sealLength is what a sum takes behind a line: a line feed and 32 hex digits.
const sealLength = 1 + 2*len(sum{})

// after is the sum of an entry that follows the one with this sum.
func (s sum) after(seq model.Seq, line []byte) sum {
	var head [len(s) + 8]byte
	copy(head[:], s[:])
	binary.BigEndian.PutUint64(head[len(s):], uint64(seq))
	h := sha256.New()
	h.Write(head[:])
	h.Write(line)
	var all [sha256.Size]byte
	return sum(h.Sum(all[:0])[:len(s)])
}

// sealed is a line with a sum behind it, as it stands on disk.
func sealed(line []byte, s sum) []byte {
	value := make([]byte, len(line)+sealLength)
	n := copy(value, line)
	value[n] = '\n'
	hex.Encode(value[n+1:], s[:])
	return value
}

var errNoSum = errors.New("its checksum is missing or broken")

// unseal takes a value apart.
func unseal(value []byte) (line []byte, s sum, err error) {
	n := len(value) - sealLength
	if n < 0 || value[n] != '\n' {
		return nil, s, errNoSum
	}
	var again [2 * len(s)]byte // capitals stand for the same and are not as it was written
	if _, err := hex.Decode(s[:], value[n+1:]); err != nil {
		return nil, s, errNoSum
	}
	if hex.Encode(again[:], s[:]); !bytes.Equal(again[:], value[n+1:]) {
		return nil, s, errNoSum
	}
	return value[:n], s, nil
}

// aboutValue is the value of a key in the meta bucket, sealed with a sum over
// both, so that a damaged version, zone or end is not taken for another one.
func aboutValue(key []byte, text string) []byte {
	return sealed([]byte(text), aboutSum(key, []byte(text)))
}

func aboutSum(key, text []byte) sum {
	return sum{}.after(0, bytes.Join([][]byte{key, text}, []byte{0}))
}

// readAbout reads such a value.
func readAbout(key, value []byte) (string, error) {
	text, s, err := unseal(value)
	if err == nil && s != aboutSum(key, text) {
		err = errNoSum
	}
	if err != nil {
		return "", fmt.Errorf("what it says of its %s: %w", key, err)
	}
	return string(text), nil
}

// tail is where a journal ends: the number of its newest entry and that entry's
// sum. It stands a second time in the meta bucket, so that entries missing from
// the end are noticed.
type tail struct {
	seq model.Seq
	sum sum
}

// text is the tail as it stands in the meta bucket.
func (t tail) text() string { return fmt.Sprintf("%d %x", t.seq, t.sum[:]) }

// next is the tail after another line.
func (t tail) next(line []byte) tail {
	return tail{t.seq + 1, t.sum.after(t.seq+1, line)}
}

// through is the tail after each of some more lines.
func (t tail) through(lines [][]byte) []tail {
	ends := make([]tail, len(lines))
	for i, line := range lines {
		t = t.next(line)
		ends[i] = t
	}
	return ends
}

// Chain tells what the entries of a book come to, from the first to any other.
type Chain struct {
	zone string
	sums []sum
}

// Chain is the book's chain as it stands. It stays as it is while entries are added.
func (s *Store) Chain() Chain { return Chain{zoneText(s.book.Zone()), s.sums} }

// Len is the number of entries.
func (c Chain) Len() int { return len(c.sums) }

// Print is the same for two books only where their first n entries are the same, to
// the byte, and are read in the same zone. It returns false when the
// book has fewer.
func (c Chain) Print(n int) ([sha256.Size]byte, bool) {
	if n < 1 || n > len(c.sums) {
		return [sha256.Size]byte{}, false
	}
	return sha256.Sum256(fmt.Appendf(nil, "%s %d %x", c.zone, n, c.sums[n-1])), true
}

// key is the journal key of an entry: 8 bytes, big-endian, so that keys sort in
// the order written.
func key(seq model.Seq) []byte { return binary.BigEndian.AppendUint64(nil, uint64(seq)) }

// seqOf is the number that a key of 8 bytes stands for.
func seqOf(key []byte) model.Seq { return model.Seq(binary.BigEndian.Uint64(key)) }
