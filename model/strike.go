package model

import (
	"fmt"
	"slices"
)

var _ = register[Strike]("strike")

// Strike takes an entry back. The struck entry stays in the book and stops
// counting. Striking a strike brings the entry back.
type Strike struct {
	Seq Seq `json:"entry"`
}

// Kind implements [Fact].
func (Strike) Kind() Kind { return "strike" }

func (s Strike) check(b *Book, e Entry) error {
	i := b.find(s.Seq)
	switch {
	case i < 0:
		return &Problem{What: fmt.Sprintf("there is no entry %d", s.Seq), Shell: "list them with: tubside book --entries"}
	case b.struck[s.Seq]:
		return &Problem{What: fmt.Sprintf("entry %d is undone already", s.Seq)}
	}
	again, err := b.withStrikes(s.Seq)
	b.tried = &tried{len(b.entries), s.Seq, again}
	if err != nil {
		return &Problem{
			What: fmt.Sprintf("entry %d cannot be undone: a later entry builds on it (%v)", s.Seq, err),
			Do:   "undo the later one first",
		}
	}
	return nil
}

func (s Strike) apply(*Book, Entry) {} // its work is done by strikesIn

// strikesIn is what the strikes among entries take back. It goes from the newest
// entry to the oldest: a strike names an earlier entry, so whether it is itself
// struck is known by the time it is met. A struck strike takes nothing back. toCome
// is what strikes that are not among them yet will take back.
func strikesIn(entries []Entry, toCome ...Seq) map[Seq]bool {
	struck := map[Seq]bool{}
	for _, seq := range toCome {
		struck[seq] = true
	}
	for _, e := range slices.Backward(entries) {
		if s, ok := e.Fact.(*Strike); ok && !struck[e.Seq] {
			struck[s.Seq] = true
		}
	}
	return struck
}

// find is the index of an entry, or -1.
func (b *Book) find(seq Seq) int {
	// Numbers rise by one from 1 in every book but a salvaged one.
	if i := int(seq) - 1; i >= 0 && i < len(b.entries) && b.entries[i].Seq == seq {
		return i
	}
	for i := range b.entries {
		if b.entries[i].Seq == seq {
			return i
		}
	}
	return -1
}

// Entry finds an entry by its number, struck or not.
func (b *Book) Entry(seq Seq) (Entry, bool) {
	if i := b.find(seq); i >= 0 {
		return b.entries[i], true
	}
	return Entry{}, false
}

// Struck reports whether an entry has been taken back.
func (b *Book) Struck(seq Seq) bool { return b.struck[seq] }

// LastToStrike is the last entry that counts and is not itself a strike: what
// undo takes back. It returns false when there is none.
func (b *Book) LastToStrike() (Entry, bool) {
	for i := len(b.entries) - 1; i >= 0; i-- {
		e := b.entries[i]
		if _, isStrike := e.Fact.(*Strike); !isStrike && !b.struck[e.Seq] {
			return e, true
		}
	}
	return Entry{}, false
}

// LastStrike is the newest entry when that is a strike which still counts:
// what bringing back undoes. It returns false when something was written since.
func (b *Book) LastStrike() (Entry, bool) {
	for i := len(b.entries) - 1; i >= 0; i-- {
		e := b.entries[i]
		if _, isStrike := e.Fact.(*Strike); !isStrike {
			return Entry{}, false
		}
		if !b.struck[e.Seq] && !b.givesBack(e) {
			return e, true
		}
	}
	return Entry{}, false
}

// givesBack reports whether a strike's own target is a strike.
func (b *Book) givesBack(e Entry) bool {
	i := b.find(e.Fact.(*Strike).Seq)
	if i < 0 {
		return false
	}
	_, ok := b.entries[i].Fact.(*Strike)
	return ok
}
