package model

import (
	"fmt"
	"slices"
	"strings"
)

var _ = register[ShelfSet]("shelf")

// ShelfSet says how much faster plants dry out on a shelf than elsewhere: 1.4
// over a radiator, 0.8 in a damp corner. It holds for the whole past of the
// shelf too; 1 is as elsewhere.
type ShelfSet struct {
	Name   string  `json:"name"`
	Factor float64 `json:"factor"`
}

// Limits of a shelf's factor. A choice: no two places in a home differ more.
const (
	MinShelfFactor = 0.25
	MaxShelfFactor = 4.0
)

// Kind implements [Fact].
func (ShelfSet) Kind() Kind { return "shelf" }

func (f ShelfSet) check(b *Book, e Entry) error {
	switch {
	case strings.TrimSpace(f.Name) == "":
		return &Problem{What: "a shelf without a name", Do: "name one that plants hang on"}
	case !(f.Factor >= MinShelfFactor && f.Factor <= MaxShelfFactor):
		return &Problem{
			What: fmt.Sprintf("shelf %s: %g times as fast", f.Name, f.Factor),
			Do:   fmt.Sprintf("give %g to %g; 1 is as elsewhere", MinShelfFactor, MaxShelfFactor),
		}
	case f.Factor != 1 && !b.hasShelf(f.Name):
		return &Problem{What: fmt.Sprintf("no plants on shelf %q", f.Name)}
	}
	return nil
}

func (b *Book) hasShelf(name string) bool {
	return slices.ContainsFunc(b.order, func(id ID) bool { return strings.EqualFold(b.rows[id].Home.Shelf, name) })
}

func (f ShelfSet) apply(b *Book, e Entry) { b.shelves[ShelfKey(f.Name)] = f.Factor }

// ShelfKey is what a shelf is known by, however it is written.
func ShelfKey(name string) string { return strings.ToLower(strings.TrimSpace(name)) }

// ShelfFactor is how many times as fast plants dry out on a shelf; 1 until
// somebody said otherwise.
func (b *Book) ShelfFactor(name string) float64 {
	if f, ok := b.shelves[ShelfKey(name)]; ok {
		return f
	}
	return 1
}
