package store

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"slices"
	"time"

	"tubside/model"
)

// Rescued says what was brought out of a damaged file.
type Rescued struct {
	Aside   string // where the damaged file is kept
	Entries int    // of the new book, the places of lost ones among them
	Lost    []LostEntry
}

// LostEntry is an entry that could not be brought over. Its place in the book
// keeps its number.
type LostEntry struct {
	Seq model.Seq
	Why string
	Was string // what can still be read of it
}

// Rescue brings every entry that can still be read out of a damaged file into a
// new book in its place. The damaged file is kept beside it. An entry whose
// checksum is wrong is left out, and what can be read of it is said: nobody knows
// that it is what was written. zone is for a file that no longer names the
// house's.
func Rescue(path string, zone *time.Location) (Rescued, error) {
	f, err := openPlain(path)
	if err != nil {
		return Rescued{}, fmt.Errorf("rescue the book: %w", err)
	}
	defer f.Close()
	if _, err := verify(path); err == nil {
		return Rescued{}, &model.Problem{What: path + " is sound: there is nothing to rescue"}
	}
	w, err := findWreck(f)
	if err != nil {
		return Rescued{}, fmt.Errorf("rescue the book: %w", err)
	}
	found := w.choose()
	entries, lost := standing(found, w.zoneOr(zone))
	r := Rescued{Entries: len(entries), Lost: lost}
	if len(entries) == len(lost) {
		return r, &model.Problem{What: "no entry of " + path + " can be read", Do: wayBack(path)}
	}
	s := &Store{path: path}
	c, err := chained(entries, cmp.Or(w.zone, zoneName(zone)))
	if err != nil {
		return r, fmt.Errorf("rescue the book: %w", err)
	}
	r.Aside, err = instead(path, s.copyOf(c))
	return r, err
}

// wreck is what was found in a damaged file: for each number the values that
// pages hold under it, in use or not.
type wreck struct {
	contents
	found   map[model.Seq][][]byte
	chained bool // the values have sums
}

// findWreck goes through every page.
func findWreck(f *os.File) (*wreck, error) {
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	m, _, err := newestMeta(f)
	if err != nil {
		m = meta{pageSize: int64(os.Getpagesize())}
	}
	w := &wreck{found: map[model.Seq][][]byte{}}
	if r, _ := readRaw(f); r != nil {
		w.raw = r
		w.zone, _ = readAbout(zoneKey, r.about[string(zoneKey)])
		if last, err := readAbout(lastKey, r.about[string(lastKey)]); err == nil {
			_, _ = fmt.Sscanf(last, "%d", &w.end.seq)
		}
	}
	scanPages(f, m, info.Size(), w.take)
	if len(w.found) == 0 {
		return nil, errors.New("no page with entries is left in it")
	}
	return w, nil
}

// take notes a value.
func (w *wreck) take(e element) {
	seq := seqOf(e.key)
	if _, _, err := unseal(e.value); err == nil {
		w.chained = true
	}
	if !slices.ContainsFunc(w.found[seq], func(v []byte) bool { return bytes.Equal(v, e.value) }) {
		w.found[seq] = append(w.found[seq], e.value)
	}
}

// candidate is what was found of one entry.
type candidate struct {
	entry model.Entry
	why   string // it is not to be trusted; "" when it is
	was   string
}

// choose picks for each number the value that its neighbours prove.
func (w *wreck) choose() []candidate {
	all := make([]candidate, w.length())
	for i := range all {
		all[i] = w.pick(model.Seq(i + 1))
	}
	return all
}

// length is how many entries there were: what the book says, or else the last
// that follows another without a gap.
func (w *wreck) length() int {
	n := w.end.seq
	if n > model.Seq(2*len(w.found)+1) { // a number that cannot be
		n = 0
	}
	for len(w.found[n+1]) > 0 || n == 0 && len(w.found[2]) > 0 {
		n++
	}
	return int(n)
}

func (w *wreck) pick(seq model.Seq) candidate {
	lost := candidate{why: "it is not in the file any more"}
	var proved, trusted []candidate
	for _, value := range w.found[seq] {
		line, s, err := unseal(value)
		if !w.chained {
			line, err = value, nil
		}
		c := candidate{entry: model.Entry{Seq: seq}}
		if err == nil {
			err = c.entry.UnmarshalJSON(line)
		}
		switch {
		case err != nil:
			lost = candidate{why: "it is damaged", was: legible(value)}
		case !w.chained || w.proves(seq, line, s) && w.follows(seq, s):
			proved = append(proved, c)
		case w.proves(seq, line, s) || len(w.found[seq-1]) == 0 && seq > 1:
			trusted = append(trusted, c)
		default:
			lost = candidate{why: "its checksum is wrong", was: legible(line)}
		}
	}
	if all := append(proved, trusted...); len(all) > 0 {
		return all[0]
	}
	return lost
}

// proves reports whether a line's sum follows from that of an entry before.
func (w *wreck) proves(seq model.Seq, line []byte, s sum) bool {
	if seq == 1 {
		return tail{}.next(line).sum == s
	}
	return slices.ContainsFunc(w.found[seq-1], func(before []byte) bool {
		_, b, err := unseal(before)
		return err == nil && tail{seq - 1, b}.next(line).sum == s
	})
}

// follows reports whether an entry after goes on from a sum, or there is none.
func (w *wreck) follows(seq model.Seq, s sum) bool {
	next := w.found[seq+1]
	return len(next) == 0 || slices.ContainsFunc(next, func(after []byte) bool {
		line, a, err := unseal(after)
		return err == nil && tail{seq, s}.next(line).sum == a
	})
}

// mostLegible is how much of a damaged entry is kept, in bytes.
const mostLegible = 1000

func legible(line []byte) string {
	return string(bytes.ToValidUTF8(line[:min(len(line), mostLegible)], []byte("?")))
}

// standing is the entries that make a book, each lost one's place kept. An entry
// that the others do not allow, because one it builds on is lost, is lost too.
func standing(found []candidate, zone *time.Location) (entries []model.Entry, lost []LostEntry) {
	var at time.Time // of the entry before, for one that does not say
	if i := slices.IndexFunc(found, func(c candidate) bool { return c.why == "" }); i >= 0 {
		at = found[i].entry.At
	}
	lose := func(i int, why, was string) {
		seq := model.Seq(i + 1)
		lost = append(lost, LostEntry{Seq: seq, Why: why, Was: was})
		entries[i] = model.Entry{Seq: seq, At: at, Fact: &model.Unread{Why: why, Was: was}}
	}
	entries = make([]model.Entry, len(found))
	for i, c := range found {
		if c.why != "" {
			lose(i, c.why, c.was)
			continue
		}
		at, entries[i] = c.entry.At, c.entry
	}
	for range entries { // each round loses one more
		_, err := model.Replay(entries, zone)
		refused, ok := errors.AsType[*model.Refused](err)
		if !ok {
			break
		}
		i := int(refused.Seq) - 1
		was, _ := json.Marshal(entries[i])
		at = entries[i].At
		lose(i, "it builds on an entry that is lost", legible(was))
	}
	slices.SortFunc(lost, func(a, b LostEntry) int { return cmp.Compare(a.Seq, b.Seq) })
	return entries, lost
}

// chained is a file's contents made of entries.
func chained(entries []model.Entry, zone string) (*contents, error) {
	c := &contents{raw: &raw{}, schema: Schema, zone: zone, entries: entries}
	for _, e := range entries {
		line, err := json.Marshal(e)
		if err != nil {
			return nil, err
		}
		c.end = c.end.next(line)
		c.keys, c.values = append(c.keys, key(c.end.seq)), append(c.values, sealed(line, c.end.sum))
	}
	c.about = about(zone, c.end)
	return c, nil
}
