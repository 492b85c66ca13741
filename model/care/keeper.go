// Package care is today's outlook: it joins the book to the numbers, and says
// what each plant needs now, and why.
package care

import (
	"time"

	"tubside/model"
)

// Keeper follows a book and keeps what is believed of every plant in it. What
// it believes depends on the entries alone, not on when it was started. It is
// not safe for use from several goroutines at once.
type Keeper struct {
	book    *model.Book
	water   map[model.ID]*water
	kinds   map[model.ID]kind
	climate *climate
	drying  *dryingRoom // nil until somebody asks
}

// New reads the whole book, entry by entry, just as it was lived.
func New(b *model.Book) *Keeper {
	k := &Keeper{book: b}
	k.reread()
	return k
}

// reread starts over. Plants are taken as the book now describes them, so that
// a form put right also puts the past right.
func (k *Keeper) reread() {
	rules := k.book.Rules()
	k.water = make(map[model.ID]*water, k.book.Len())
	k.kinds = make(map[model.ID]kind, k.book.Len())
	for _, id := range k.book.IDs() {
		k.kinds[id] = kindOf(k.book.Row(id).Plant, rules)
	}
	k.climate = newClimate(rules)
	k.readLogs()
	for _, e := range k.book.Entries() {
		if !k.book.Struck(e.Seq) {
			k.take(e)
		}
	}
	k.drying = nil
}

// Follow takes in an entry that the book has just applied.
func (k *Keeper) Follow(e model.Entry) {
	k.drying = nil
	switch e.Fact.(type) {
	case *model.Strike, *model.Edit, *model.Import, *model.RuleSet, *model.Readings:
		k.reread() // these change how the past reads
	default:
		k.take(e)
	}
}

// take updates what is believed after one entry.
func (k *Keeper) take(e model.Entry) {
	switch f := e.Fact.(type) {
	case *model.Add:
		k.meet(e.At, f.Plants)
	case *model.Import:
		k.meet(e.At, f.Added)
		k.meet(e.At, f.Changed)
	case *model.Edit:
		k.meet(e.At, f.Plants)
	case *model.Split:
		part := *k.water[e.Plants[0]]
		k.water[f.New.ID] = &part
		k.kinds[f.New.ID] = kindOf(k.book.Row(f.New.ID).Plant, k.book.Rules())
	case *model.Look:
		k.each(e.Plants, func(id model.ID, w *water) { w.lookedAt(e.At, f.Signs, k.kinds[id], k.climate) })
	case *model.Soak:
		k.each(e.Plants, func(id model.ID, w *water) { w.goIn(e.At, k.kinds[id], k.climate) })
	case *model.Out:
		k.each(e.Plants, func(id model.ID, w *water) { w.comeOut(e.At, k.kinds[id]) })
	case *model.FoundDry:
		k.each(e.Plants, func(_ model.ID, w *water) { w.foundDry(e.At) })
	case *model.Damp:
		k.each(e.Plants, func(_ model.ID, w *water) { w.wet = true })
	case *model.Reading:
		k.climate.add(model.ReadingAt{At: e.At, TempC: f.TempC, RH: f.RH})
	}
}

func (k *Keeper) each(ids model.IDs, f func(model.ID, *water)) {
	for _, id := range ids {
		f(id, k.water[id])
	}
}

// meet takes in new rows, and rows of which something new is told. A later soak
// told with a row starts it afresh; otherwise what was learned stays.
func (k *Keeper) meet(at time.Time, plants []model.Plant) {
	for _, p := range plants {
		var told time.Time
		if p.SoakedOn != 0 {
			told = model.NoonOf(p.SoakedOn, k.book.Zone())
		}
		w, known := k.water[p.ID]
		switch {
		case !known:
			k.water[p.ID] = newWater(told, at)
			k.kinds[p.ID] = kindOf(p, k.book.Rules())
		case told.After(w.dry) && !w.wet:
			w.pace = w.seen
			w.refill(told)
		}
	}
}

// Look says what every plant needs at a time. Times must not run before the
// newest entry for the answer to mean much; it is given all the same.
func (k *Keeper) Look(now time.Time) *Outlook {
	b := k.book
	o := &Outlook{At: now, Air: roomNow(b, now), Needs: make([]Need, 0, b.Len())}
	for _, id := range b.IDs() {
		row := b.Row(id)
		if row.State == model.Gone {
			continue
		}
		o.Needs = append(o.Needs, k.need(row, now, o.Air))
		if row.State == model.Drying || row.State == model.Dry {
			o.Drying = append(o.Drying, k.dryOut(row, now))
		}
	}
	return o
}

// Need is what one plant needs at a time.
func (k *Keeper) Need(id model.ID, now time.Time) (Need, bool) {
	row := k.book.Row(id)
	if row == nil || row.State == model.Gone {
		return Need{}, false
	}
	return k.need(row, now, roomNow(k.book, now)), true
}
