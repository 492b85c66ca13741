package day

import (
	"slices"
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// Lying is a plant that dries already when a plan begins.
type Lying struct {
	ID  model.ID
	Dry time.Time // at the latest
}

// lies are those that a session finds drying.
func (p *planning) lies(s *soak.Session) (all []Lying) {
	for _, d := range s.Drying {
		if id := model.ID(d.ID); p.book.Row(id).State == model.Drying {
			all = append(all, Lying{id, p.at(d.Dry)})
		}
	}
	return all
}

// Wet is who may still be wet at the hour by which all should be dry, in the order they
// went out, those from before first, and until when the last may be: also of what dries
// already, which no plan can hurry. What soaks over night is not meant.
func (p *Plan) Wet() (ids model.IDs, last time.Time) {
	wet := func(id model.ID, dry time.Time) {
		if dry.After(p.Ask.DryBy) && !slices.Contains(ids, id) {
			ids, last = append(ids, id), model.Later(last, dry)
		}
	}
	for _, l := range p.Lying {
		wet(l.ID, l.Dry)
	}
	for _, l := range p.Loads {
		for _, t := range l.Plants {
			if !l.Night {
				wet(t.ID, t.Dry)
			}
		}
	}
	return ids, last
}
