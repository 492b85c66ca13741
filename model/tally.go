package model

import "slices"

// Tally counts the plants of the session at hand. Pulled is always the sum of
// the rest; a plant unaccounted for shows as one that is not yet Hung.
type Tally struct {
	Pulled  int // taken off the shelf in this session
	Waiting int // beside the water
	Soaking int
	Drying  int
	Dry     int // waiting to be hung
	Hung    int // back home
	Gone    int // left during the session
}

// Adds reports whether every pulled plant is accounted for.
func (t Tally) Adds() bool {
	return t.Pulled == t.Waiting+t.Soaking+t.Drying+t.Dry+t.Hung+t.Gone
}

// Open reports whether anything is still away from home.
func (t Tally) Open() bool { return t.Waiting+t.Soaking+t.Drying+t.Dry > 0 }

// Tally counts the session at hand.
func (b *Book) Tally() Tally {
	t := Tally{Pulled: len(b.session), Waiting: len(b.waiting)}
	for _, id := range b.session {
		switch b.rows[id].State {
		case AtHome:
			t.Hung++
		case Soaking:
			t.Soaking++
		case Drying:
			t.Drying++
		case Dry:
			t.Dry++
		case Gone:
			t.Gone++
		}
	}
	t.Hung -= t.Waiting // waiting plants are at home in the book's sense
	return t
}

// Waiting lists the plants pulled and not yet in the water, in the order they
// were pulled. The caller must not change it.
func (b *Book) Waiting() IDs { return b.waiting }

// enterSession marks plants as part of the session at hand. When nothing is
// away from home a new session begins.
func (b *Book) enterSession(ids IDs) {
	if b.away == 0 && len(b.waiting) == 0 {
		b.each(b.session, func(r *Row) { r.InSession = false })
		b.session = nil
		b.forgetAssumed()
	}
	b.each(ids, func(r *Row) {
		if !r.InSession {
			r.InSession = true
			b.session = append(b.session, r.ID)
		}
	})
}

// leaveSession takes a plant out of the session, as if it had not been pulled.
func (b *Book) leaveSession(r *Row) {
	r.InSession = false
	if i := slices.Index(b.session, r.ID); i >= 0 {
		b.session = slices.Delete(b.session, i, i+1)
	}
}

// History lists the entries that name a plant, oldest first, struck ones left
// out.
func (b *Book) History(id ID) []Entry {
	var past []Entry
	for _, e := range b.entries {
		if !b.struck[e.Seq] && e.Names(id) {
			past = append(past, e)
		}
	}
	return past
}

// Names reports whether an entry is about a plant.
func (e Entry) Names(id ID) bool {
	switch f := e.Fact.(type) {
	case *Add:
		return rowsHave(f.Plants, id)
	case *Edit:
		return rowsHave(f.Plants, id)
	case *Import:
		return rowsHave(f.Added, id) || rowsHave(f.Changed, id) || f.marked().Has(id)
	case *Split:
		return f.New.ID == id || e.Plants.Has(id)
	}
	return e.Plants.Has(id)
}

func rowsHave(plants []Plant, id ID) bool {
	for _, p := range plants {
		if p.ID == id {
			return true
		}
	}
	return false
}
