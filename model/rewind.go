package model

import (
	"maps"
	"slices"
)

// mark is a book as it stood after its first entries: what a strike goes back to,
// so that the whole past need not be read again.
type mark struct {
	at    int // how many entries
	state *Book
}

// A replay leaves marks so many entries before the end, and a book in use one
// every so many entries: what is struck is mostly what was just written.
var (
	markDistances = []int{64, 1024, 16384}
	markEvery     = 64
)

// rowsAnEntry is how many rows an entry may pay for in marks: with more plants
// they stand further apart. It bounds the memory.
const rowsAnEntry = 4

// Copy is the same book, which lives on its own and leaves no marks. The entries
// are shared.
func (b *Book) Copy() *Book {
	c := b.state()
	c.unmarked = true
	c.entries, c.struck, c.once = slices.Clip(b.entries), maps.Clone(b.struck), maps.Clone(b.once)
	c.marks = slices.Clip(b.marks) // states are never changed
	return c
}

// Become makes the book say what a copy of it has come to say, so that everyone
// who holds it sees that.
func (b *Book) Become(c *Book) {
	*b = *c
	b.unmarked = false
	b.noteMark()
}

// state is all that the entries add up to, without the entries. What is only ever
// replaced is shared.
func (b *Book) state() *Book {
	c := *b
	c.entries, c.struck, c.once, c.marks, c.tried = nil, nil, nil, nil, nil
	c.rows = make([]*Row, len(b.rows))
	rows := make([]Row, len(b.order))
	for i, id := range b.order {
		rows[i] = *b.rows[id]
		c.rows[id] = &rows[i]
	}
	c.order, c.named = slices.Clone(b.order), slices.Clone(b.named)
	c.loads, c.inWater = maps.Clone(b.loads), slices.Clone(b.inWater)
	for i, l := range c.inWater { // no other load changes any more
		again := *l
		c.inWater[i], c.loads[l.ID] = &again, &again
	}
	c.waters = make(map[string]*Water, len(b.waters))
	for name, w := range b.waters {
		again := *w
		c.waters[name] = &again
	}
	c.vessels, c.benches, c.shelves = slices.Clone(b.vessels), slices.Clone(b.benches), maps.Clone(b.shelves)
	c.readings, c.fans, c.windows = slices.Clone(b.readings), slices.Clone(b.fans), slices.Clone(b.windows)
	c.trips, c.samples = slices.Clone(b.trips), slices.Clone(b.samples)
	c.waiting, c.session = slices.Clone(b.waiting), slices.Clone(b.session)
	return &c
}

// replay takes the entries from an index on.
func (b *Book) replay(from int) error {
	for i, e := range b.entries[from:] {
		if at := from + i; at > b.lastMark() && slices.Contains(markDistances, len(b.entries)-at) {
			b.marks = append(b.marks, mark{at, b.state()})
		}
		if _, isStrike := e.Fact.(*Strike); isStrike || b.struck[e.Seq] {
			continue
		}
		if err := b.take(e); err != nil {
			return &Refused{e.Seq, e.Fact.Kind(), e.At, err}
		}
	}
	return nil
}

// lastMark is how many entries the newest mark stands behind, 0 when there is none.
func (b *Book) lastMark() int {
	if len(b.marks) == 0 {
		return 0
	}
	return b.marks[len(b.marks)-1].at
}

// noteMark leaves a mark behind a book in use now and then, and thins out those
// before: each twice as far from the end as the one after it.
func (b *Book) noteMark() {
	n := len(b.entries)
	if b.unmarked || n-b.lastMark() < max(markEvery, len(b.order)/rowsAnEntry) {
		return
	}
	kept := []mark{{n, b.state()}}
	for _, m := range slices.Backward(b.marks) {
		if last := kept[len(kept)-1]; n-m.at >= 2*(n-last.at) {
			kept = append(kept, m)
		}
	}
	slices.Reverse(kept)
	b.marks = kept
}

// tried is what a strike that was asked about would make of a book.
type tried struct {
	after int // how many entries the book had
	seq   Seq // what the strike takes back
	book  *Book
}

// withStrikes is the book with other entries struck than now: those that its
// strikes name, and that of a strike to come. From the last mark before the first
// of them it is lived again.
func (b *Book) withStrikes(toCome ...Seq) (*Book, error) {
	struck := strikesIn(b.entries, toCome...)
	first := len(b.entries)
	for _, all := range []map[Seq]bool{struck, b.struck} {
		for seq := range all {
			if struck[seq] != b.struck[seq] {
				first = min(first, max(0, b.find(seq)))
			}
		}
	}
	again, from := NewBook(b.zone), 0
	for _, m := range b.marks {
		if m.at <= first {
			again, from = m.state, m.at
		}
	}
	again = again.state()
	again.entries, again.struck, again.once = b.entries, struck, b.once
	for _, m := range b.marks {
		if m.at <= from {
			again.marks = append(again.marks, m)
		}
	}
	if err := again.replay(from); err != nil {
		return nil, err
	}
	return again, nil
}
