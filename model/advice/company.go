package advice

import (
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// CompanyOf is the company a plant may keep in the water at a time.
func CompanyOf(b *model.Book, row *model.Row, now time.Time) soak.Company {
	return CompanyFor(b.Health(row, now))
}

// CompanyFor is the company that goes with a plant's health.
func CompanyFor(h model.Health) soak.Company {
	switch h {
	case model.Newcomer:
		return soak.Newcomer
	case model.Suspect:
		return soak.Suspect
	case model.Sick:
		return soak.Sick
	}
	return soak.Healthy
}

// Clash is who would share the water with a load, and must not.
type Clash struct {
	With soak.Company
	Lies bool // they lie in the vessel; else they lay in its water before
}

// ClashIn says whom a load of a company would meet in a vessel as that is: worse company
// that lay in its water, or better company that lies in it now.
func ClashIn(b *model.Book, vessel string, company soak.Company, now time.Time) (Clash, bool) {
	if w := b.Water(vessel); w != nil && CompanyFor(w.Worst) > company {
		return Clash{With: CompanyFor(w.Worst)}, true
	}
	for _, load := range b.InVessel(vessel) {
		for _, id := range b.StillIn(load) {
			if with := CompanyOf(b, b.Row(id), now); with < company {
				return Clash{With: with, Lies: true}, true
			}
		}
	}
	return Clash{}, false
}
