package model

import (
	"reflect"
	"time"
)

// Renumber gives entries that were made one after the other on an earlier state of
// the book the numbers they have now: of loads and plants the next free ones, where
// those they bring were given away since, and of the entries themselves. Seq is the
// number that an entry was made with, and becomes the one it will be written under;
// one that the book has already, by its key, gets the one it was written under.
// What a later entry says of a number follows. The entries are changed.
func (b *Book) Renumber(entries ...Entry) {
	n := &numbers{book: b, plant: b.nextID, load: b.nextLoad, again: map[any]any{}, given: map[ID]bool{}}
	seq := b.NextSeq()
	for i := range entries {
		e := &entries[i]
		made := e.Seq
		if before, done := b.Once(e.Once); done {
			e.Seq = before.Seq
			n.again[made] = e.Seq
			continue
		}
		e.Seq, seq = seq, seq+1
		n.again[made] = e.Seq
		switch f := e.Fact.(type) {
		case *Soak:
			n.again[f.Load] = max(f.Load, n.load)
			n.load = max(f.Load, n.load) + 1
		case *Add:
			n.bring(f.Plants...)
		case *Import:
			n.bring(f.Added...)
		case *Split:
			n.bring(f.New)
		}
		n.rewrite(reflect.ValueOf(&e.Plants))
		n.rewrite(reflect.ValueOf(e.Fact))
	}
}

// numbers are the numbers that entries were made with and those that they get.
type numbers struct {
	book  *Book
	plant ID     // the next free one
	load  LoadID // likewise
	again map[any]any
	given map[ID]bool // to plants these entries bring
}

// bring finds the numbers of new plants.
func (n *numbers) bring(plants ...Plant) {
	for _, p := range plants {
		id := p.ID
		if n.book.Row(id) != nil || n.given[id] || id < n.plant && n.book.isMother(id) {
			id = n.plant
		}
		n.again[p.ID], n.given[id] = id, true
		n.plant = max(n.plant, id+1, p.Mother+1)
	}
}

// isMother reports whether a plant was taken off one of that number, which keeps
// it though it is not in the book.
func (b *Book) isMother(id ID) bool {
	for _, row := range b.rows {
		if row != nil && row.Mother == id {
			return true
		}
	}
	return false
}

// rewrite puts the new number in place of every old one in v.
func (n *numbers) rewrite(v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			n.rewrite(v.Elem())
		}
	case reflect.Struct:
		if v.Type() == reflect.TypeFor[time.Time]() {
			return
		}
		for i := range v.NumField() {
			n.rewrite(v.Field(i))
		}
	case reflect.Slice:
		for i := range v.Len() {
			n.rewrite(v.Index(i))
		}
	case reflect.Map:
		for _, key := range v.MapKeys() {
			n.rewrite(v.MapIndex(key)) // a slice in a map is its own
		}
	default:
		if !v.CanSet() {
			return
		}
		if now, ok := n.again[v.Interface()]; ok {
			v.Set(reflect.ValueOf(now))
		}
	}
}
