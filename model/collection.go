package model

import (
	"fmt"
	"reflect"
	"strings"

	"github.com/rickb777/date/v2"
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

func (f Add) allow(b *Book, e Entry) error { return b.allowDays(f.Plants, e) }

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
			return &Problem{
				What: fmt.Sprintf("plant number %d is already taken", p.ID),
				Do:   fmt.Sprintf("the next free number is %d", b.nextID),
			}
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

func (f Edit) allow(b *Book, e Entry) error { return b.allowDays(f.Plants, e) }

func (f Edit) apply(b *Book, e Entry) { b.edit(f.Plants) }

// Onto is an edited row on what the row has become since: only what the edit changed
// of the row as it was is changed of what it is now.
func (p Plant) Onto(was, now Plant) Plant {
	take(reflect.ValueOf(&now).Elem(), reflect.ValueOf(p), reflect.ValueOf(was))
	return now
}

// take takes over the fields that differ from what they were.
func take(now, edited, was reflect.Value) {
	for i := range now.NumField() {
		switch {
		case now.Field(i).Kind() == reflect.Struct:
			take(now.Field(i), edited.Field(i), was.Field(i))
		case !edited.Field(i).Equal(was.Field(i)):
			now.Field(i).Set(edited.Field(i))
		}
	}
}

// LongestAgo is how long ago the last soak of a plant may be told to be, days. A
// choice: six months without water is the longest that is
// published of any of them (Ohrui et al. 2007, Planta 227:47, T. ionantha).
const LongestAgo = 3 * 365

// allowDays says which day told with rows cannot be, if one is told anew.
func (b *Book) allowDays(plants []Plant, e Entry) error {
	today := date.NewAt(e.At.In(b.zone))
	for _, p := range plants {
		var old Plant
		if row := b.Row(p.ID); row != nil {
			old = row.Plant
		}
		for _, d := range []struct {
			what     string
			day, was date.Date
			longest  int // days ago; 0 any
		}{{"last soaked", p.SoakedOn, old.SoakedOn, LongestAgo}, {"last fed", p.FedOn, old.FedOn, 0}} {
			if d.day == d.was || d.day == 0 {
				continue
			}
			if problem := dayTold(d.what, d.day, today, d.longest); problem != nil {
				return problem
			}
		}
	}
	return nil
}

// dayTold is what is odd about a day that is told of a plant; nil is nothing.
func dayTold(what string, day, today date.Date, longest int) *Problem {
	switch ago := int(today - day); {
	case ago < 0:
		return &Problem{
			What: fmt.Sprintf("%s on %s, which is still to come", what, DayWords(day)),
			Do:   "give the day it was, or none when nobody knows",
		}
	case longest > 0 && ago > longest:
		return &Problem{
			What: fmt.Sprintf("%s on %s, %d years ago", what, DayWords(day), ago/365),
			Do:   "give the day it was, or none when nobody knows",
		}
	}
	return nil
}

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
	b.titles = nil
	for _, p := range plants {
		row := b.rows[p.ID]
		newOn, soakedOn := row.NewOn, row.SoakedOn
		row.Plant = p
		if p.SoakedOn != soakedOn {
			row.tellSoak(p, b.zone)
		}
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
