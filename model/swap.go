package model

import "fmt"

var _ = register[Swap]("swap")

// Swap says that two plants hang on each other's hooks: each has the home of the
// other from now on.
type Swap struct {
	To []Home `json:"to"` // the new home of each plant, in the order of the entry's plants
}

// Kind implements [Fact].
func (Swap) Kind() Kind { return "swap" }

func (f Swap) check(b *Book, e Entry) error {
	if err := b.present(e.Plants); err != nil {
		return err
	}
	if len(e.Plants) != 2 || len(f.To) != 2 {
		return &Problem{What: "a swap takes two plants", Do: "name the two that hang on each other's hooks"}
	}
	one, other := b.Row(e.Plants[0]), b.Row(e.Plants[1])
	switch {
	case one.Home == other.Home:
		return &Problem{
			What: fmt.Sprintf("%s and %s both hang on %s", one.Title(), other.Title(), one.Home),
			Do:   "there is nothing to swap",
		}
	case f.To[0] != other.Home || f.To[1] != one.Home:
		return &Problem{What: fmt.Sprintf("%s and %s do not hang on each other's hooks", one.Title(), other.Title())}
	}
	return nil
}

func (f Swap) apply(b *Book, e Entry) {
	for i, id := range e.Plants {
		b.rows[id].Home = f.To[i]
	}
}

// NewSwap is that two plants have each other's homes.
func NewSwap(one, other *Row) *Swap { return &Swap{To: []Home{other.Home, one.Home}} }
