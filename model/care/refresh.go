package care

import (
	"slices"
	"time"

	"tubside/model"
)

// Need is what a plant needs, or nil when it is gone or unknown.
func (o *Outlook) Need(id model.ID) *Need {
	i, ok := slices.BinarySearchFunc(o.Needs, id, func(n Need, id model.ID) int { return int(n.ID) - int(id) })
	if !ok {
		return nil
	}
	return &o.Needs[i]
}

// DryOut is how far a plant has come with drying, or nil when it is not out of
// the water.
func (o *Outlook) DryOut(id model.ID) *DryOut {
	i, ok := slices.BinarySearchFunc(o.Drying, id, func(d DryOut, id model.ID) int { return int(d.ID) - int(id) })
	if !ok {
		return nil
	}
	return &o.Drying[i]
}

// Refresh brings an outlook up to date after an entry. An entry that touches
// only its own plants costs only those; any other is a new look.
func (k *Keeper) Refresh(o *Outlook, e model.Entry, now time.Time) {
	switch e.Fact.(type) {
	case *model.Look, *model.Weigh, *model.Mist, *model.Bloom, *model.Rot, *model.Note, *model.Move, *model.Pull, *model.PutBack:
		for _, id := range e.Plants {
			if n := o.Need(id); n != nil {
				*n = k.need(k.book.Row(id), now, o.Air)
			}
			if d := o.DryOut(id); d != nil {
				*d = k.dryOut(k.book.Row(id), now)
			}
		}
	default:
		*o = *k.Look(now)
	}
}
