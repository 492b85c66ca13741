package model

import (
	"fmt"
	"strings"
)

var (
	_ = register[Add]("add")
	_ = register[Edit]("edit")
	_ = register[Move]("move")
	_ = register[Leave]("gone")
)

// Add brings new plants into the book. The entry's plants are theirs.
type Add struct {
	Plants []Plant `json:"plants"`
}

// Kind implements [Fact].
func (Add) Kind() Kind { return "add" }

func (f Add) check(b *Book, e Entry) error { return b.canInsert(f.Plants) }

func (f Add) apply(b *Book, e Entry) {
	for _, p := range f.Plants {
		b.insert(p, e.At)
	}
}

// canInsert says why rows cannot be added, if they cannot.
func (b *Book) canInsert(plants []Plant) error {
	seen := make(map[ID]bool, len(plants))
	for _, p := range plants {
		if err := p.check(); err != nil {
			return err
		}
		if b.Row(p.ID) != nil || seen[p.ID] {
			return &Problem{What: fmt.Sprintf("plant number %d is already taken", p.ID), Do: fmt.Sprintf("the next free number is %d", b.nextID)}
		}
		seen[p.ID] = true
	}
	return nil
}

// Edit changes what the grower says about plants; the rows replace the old.
type Edit struct {
	Plants []Plant `json:"plants"`
}

// Kind implements [Fact].
func (Edit) Kind() Kind { return "edit" }

func (f Edit) check(b *Book, e Entry) error { return b.canEdit(f.Plants) }

func (f Edit) apply(b *Book, e Entry) { b.edit(f.Plants) }

func (b *Book) canEdit(plants []Plant) error {
	ids := make(IDs, len(plants))
	for i, p := range plants {
		if err := p.check(); err != nil {
			return err
		}
		ids[i] = p.ID
	}
	return b.present(ids)
}

func (b *Book) edit(plants []Plant) {
	for _, p := range plants {
		row := b.rows[p.ID]
		newOn := row.NewOn
		row.Plant = p
		row.tellSoak(p, b.zone)
		row.tellFed(p, b.zone)
		if p.NewOn != newOn {
			row.tellQuarantine(p, b.zone)
		}
	}
}

// Move gives plants a new home. An empty spot is allowed: somewhere on the
// shelf.
type Move struct {
	To Home `json:"to"`
}

// Kind implements [Fact].
func (Move) Kind() Kind { return "move" }

func (f Move) check(b *Book, e Entry) error {
	if f.To.Shelf == "" && f.To.Spot == "" {
		return &Problem{What: "a move without a home", Do: "name the shelf, the spot or both"}
	}
	return b.present(e.Plants)
}

func (f Move) apply(b *Book, e Entry) {
	b.each(e.Plants, func(r *Row) { r.Home = f.To })
}

// The ways a plant leaves.
const (
	Lost  = "lost"
	Sold  = "sold"
	Given = "given"
)

// LossCauses are the usual reasons for a loss, in growers' words. Any other
// text is taken too.
var LossCauses = []string{"rot", "drought", "pests", "burn", "cold", "sun", "age", "unknown"}

// Leave marks plants gone: lost with a cause, sold or given away. They leave
// the shelf, never the book.
type Leave struct {
	How   string `json:"how"`
	Cause string `json:"cause,omitempty"`
	Note  string `json:"note,omitempty"` // for whom, for how much, what was seen
}

// Kind implements [Fact].
func (Leave) Kind() Kind { return "gone" }

func (f Leave) check(b *Book, e Entry) error {
	switch {
	case f.How != Lost && f.How != Sold && f.How != Given:
		return &Problem{What: fmt.Sprintf("gone: %q", f.How), Do: "say lost, sold or given"}
	case f.How == Lost && strings.TrimSpace(f.Cause) == "":
		return &Problem{What: "a loss without a cause", Do: "give one: " + strings.Join(LossCauses, ", ")}
	case f.How != Lost && f.Cause != "":
		return &Problem{What: fmt.Sprintf("a cause goes with lost, not with %s", f.How)}
	}
	return b.present(e.Plants)
}

func (f Leave) apply(b *Book, e Entry) {
	b.each(e.Plants, func(r *Row) {
		if r.State == Soaking {
			b.leaveWater(r)
		}
		b.setState(r, Gone, e.At)
		r.GoneHow, r.GoneCause = f.How, f.Cause
		b.stopWaiting(r.ID)
	})
}
