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
// every so many entries: what is struck is mostly what was just written. Our own.
var (
	markDistances = []int{64, 512, 4096, 32768}
	markEvery     = 64
)

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
	if b.unmarked || n-b.lastMark() < markEvery {
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

// sameStrikes reports whether the book, which was tried with a strike, is what the
// entries come to: the strike was then written and nothing else.
func (b *Book) sameStrikes(entries []Entry) bool {
	n := len(entries)
	if n != len(b.entries) || n > 1 && entries[n-2].Seq != b.entries[n-2].Seq {
		return false
	}
	x, y := entries[n-1], b.entries[n-1]
	written, tried := x.Fact.(*Strike), y.Fact.(*Strike)
	return x.Seq == y.Seq && written.Seq == tried.Seq
}

// withStrikes is the book with entries of which other ones are struck than now:
// from the last mark before the first of those it is lived again.
func (b *Book) withStrikes(entries []Entry) (*Book, error) {
	struck := strikesIn(entries)
	first := len(entries)
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
	again.entries, again.struck, again.once = entries, struck, b.once
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
