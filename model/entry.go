package model

import (
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"slices"
	"time"
)

// EntryVersion is the version of the shape of entries written now. A reader
// meets every version up to its own and must refuse a later one: see
// [ErrNewerEntry].
const EntryVersion = 1

// ErrNewerEntry is returned for an entry written by a later tubside.
var ErrNewerEntry = errors.New("this entry was written by a newer tubside")

// Seq is an entry's place in the book, from 1, in the order they were written.
type Seq uint64

// Kind is the word that says what sort of thing an entry tells.
type Kind string

// Entry is one dated line of the book: something the grower did or saw.
// Entries are only ever added.
type Entry struct {
	Seq    Seq       // given by the store; 0 until then
	At     time.Time // when it happened, by the wall clock, UTC, whole seconds
	Plants IDs       // the plants it names, in order; empty when it is about the room or the house
	Fact   Fact      // what happened
	Once   string    // a key of its own, so that it is not written twice; empty for most
}

// Fact is what an entry tells. Each kind is a struct of its own, kept in the
// file of its topic with its check and what it does to the book.
type Fact interface {
	// Kind is the fact's word on disk.
	Kind() Kind
	// check says why the book as it stands cannot take e, whose fact this is:
	// what it names is not there, or could not be so. It asks neither the house
	// rules nor the zone nor the time, for it is asked again at every replay, and
	// what was once taken must be taken ever after.
	check(b *Book, e Entry) error
	// apply makes the book say what e says. It is only called after check.
	apply(b *Book, e Entry)
}

// ruled is a fact that the house may refuse when it is made, by its rules, its
// zone or the time as they are then. A replay does not ask.
type ruled interface {
	// allow says why the house does not allow e, whose fact this is. It is only
	// called after check.
	allow(b *Book, e Entry) error
}

// NewEntry is an entry at a wall-clock time about some plants.
func NewEntry(at time.Time, fact Fact, plants ...ID) Entry {
	return Entry{At: at.Round(0).UTC().Truncate(time.Second), Plants: plants, Fact: fact}
}

// factOf makes an empty fact to decode into, one per kind.
var factOf = map[Kind]func() Fact{}

// Kinds lists every kind of entry there is.
func Kinds() []Kind { return slices.Sorted(maps.Keys(factOf)) }

// register adds a kind. It is called once per kind while the program starts.
func register[F Fact](kind Kind) struct{} {
	factOf[kind] = func() Fact { return any(new(F)).(Fact) }
	return struct{}{}
}

// line is an entry as it stands on disk.
type line struct {
	V      int             `json:"v"`
	At     time.Time       `json:"at"`
	Kind   Kind            `json:"kind"`
	Once   string          `json:"once,omitempty"`
	Plants IDs             `json:"plants,omitempty"`
	Fact   json.RawMessage `json:"fact,omitempty"`
}

// MarshalJSON writes the entry as it stands in the book; Seq is its key and is
// not repeated.
func (e Entry) MarshalJSON() ([]byte, error) {
	fact, err := json.Marshal(e.Fact)
	if err != nil {
		return nil, fmt.Errorf("write %s entry: %w", e.Fact.Kind(), err)
	}
	if string(fact) == "{}" {
		fact = nil
	}
	return json.Marshal(line{V: EntryVersion, At: e.At, Kind: e.Fact.Kind(), Once: e.Once, Plants: e.Plants,
		Fact: fact})
}

// UnmarshalJSON reads an entry of this or an earlier version. It returns
// [ErrNewerEntry] for a later version or a kind this tubside does not know.
func (e *Entry) UnmarshalJSON(b []byte) error { return new(Reader).Read(b, e) }

// Reader reads one entry after another. A load is pulled, soaked, taken out, found dry
// and hung, and what is told of it was told of others: lists of plants and facts that
// it met a moment ago are the same ones again, which take the memory of one and are
// decoded once. They are not to be changed.
type Reader struct {
	lists   map[string]IDs
	facts   map[factText]Fact
	scratch IDs // room to read a list in
}

// factText is a fact as it stands on disk.
type factText struct {
	kind Kind
	text string
}

// mostKept bounds the lists that are remembered, and the facts. A choice: more loads
// than are under way at once.
const mostKept = 256

// Read reads an entry of this or an earlier version, as [Entry.UnmarshalJSON] does.
func (r *Reader) Read(b []byte, e *Entry) error {
	if l, ok := r.asWritten(b); ok && r.fact(l, e) == nil {
		return nil
	}
	return e.readAny(b)
}

// fact is [Entry.read] for a fact that may have been met before.
func (r *Reader) fact(l line, e *Entry) error {
	if fact, ok := r.facts[factText{l.Kind, string(l.Fact)}]; ok {
		e.At, e.Plants, e.Fact, e.Once = l.At, l.Plants, fact, l.Once
		return nil
	}
	if err := e.read(l); err != nil {
		return err
	}
	r.facts = withRoom(r.facts)
	r.facts[factText{l.Kind, string(l.Fact)}] = e.Fact
	return nil
}

// ids reads a list of plants.
func (r *Reader) ids(text []byte) (IDs, error) {
	if ids, ok := r.lists[string(text)]; ok {
		return ids, nil
	}
	written := string(text)
	read, err := appendIDs(r.scratch[:0], written)
	if err != nil {
		return nil, err
	}
	r.scratch = read
	ids := slices.Clip(append(IDs(nil), read...)) // who adds to one has a list of their own
	if len(ids) < 2 {
		return ids, nil
	}
	r.lists = withRoom(r.lists)
	r.lists[written] = ids
	return ids, nil
}

// withRoom is a map of what is remembered with room for one more: when there is none,
// all of it is forgotten.
func withRoom[K comparable, V any](known map[K]V) map[K]V {
	if known == nil {
		return make(map[K]V, mostKept)
	}
	if len(known) >= mostKept {
		clear(known)
	}
	return known
}

// readAny reads a line of any look.
func (e *Entry) readAny(b []byte) error {
	var l line
	if err := json.Unmarshal(b, &l); err != nil {
		return fmt.Errorf("read entry: %w", err)
	}
	return e.read(l)
}

// read decodes the fact of a line that was taken apart.
func (e *Entry) read(l line) error {
	blank, known := factOf[l.Kind]
	if l.V > EntryVersion || !known {
		return fmt.Errorf("%w: version %d, kind %q", ErrNewerEntry, l.V, l.Kind)
	}
	fact := blank()
	if len(l.Fact) > 0 {
		if err := json.Unmarshal(l.Fact, fact); err != nil {
			return fmt.Errorf("read %s entry: %w", l.Kind, err)
		}
	}
	e.At, e.Plants, e.Fact, e.Once = l.At, l.Plants, fact, l.Once
	return nil
}
