package day

import (
	"cmp"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/soak"
)

// AllOut lists all that is in the water in the order in which it is safest to take
// it out when the day breaks off: what is due first, first; what may be sick last.
func AllOut(b *model.Book, now time.Time) model.IDs {
	loads := slices.Clone(b.OpenLoads())
	safest(b, loads, now)
	var ids model.IDs
	for _, l := range loads {
		ids = append(ids, b.StillIn(l)...)
	}
	return ids
}

// safest sorts loads into the order in which to take them out when the day breaks off.
func safest(b *model.Book, loads []*model.Load, now time.Time) {
	worst := func(l *model.Load) (worst soak.Company) {
		for _, id := range l.Plants {
			if row := b.Row(id); row != nil {
				worst = max(worst, advice.CompanyOf(b, row, now))
			}
		}
		return worst
	}
	slices.SortStableFunc(loads, func(x, y *model.Load) int {
		return cmp.Or(cmp.Compare(worst(x), worst(y)), x.Due.Compare(y.Due))
	})
}

// Coming is what the hands take out of one vessel when the day breaks off.
type Coming struct {
	Vessel string
	Plants model.IDs
}

// BrokenOff is what was written out of the water when the grower stopped for the day, in the
// order in which to take it out, and until when the hands are at that; nothing once they are
// done with it.
func (p *Plan) BrokenOff(b *model.Book, now time.Time) (all []Coming, until time.Time) {
	if p.Stopped.IsZero() {
		return nil, time.Time{}
	}
	of, seconds := map[model.LoadID]model.IDs{}, 0
	var loads []*model.Load
	for _, id := range b.IDs() {
		row := b.Row(id)
		if row.State != model.Drying || !row.Out.Equal(p.Stopped) {
			continue
		}
		if of[row.Load] == nil {
			loads = append(loads, b.Load(row.Load))
		}
		of[row.Load] = append(of[row.Load], id)
		h := estimate.HandsFor(row.Plant, b.Rules())
		seconds += h.Out + h.Lay
	}
	if until = p.Stopped.Add(time.Duration(seconds) * time.Second); !now.Before(until) {
		return nil, time.Time{}
	}
	safest(b, loads, now)
	for _, l := range loads {
		all = append(all, Coming{l.Vessel, of[l.ID]})
	}
	return all, until
}

// Stop is the fact that the grower stops for the day, once all is out of the water: what is
// still to go in of an agreed plan is left for another day, and nothing more is proposed.
// Agreed is the plan as it stands, or nil.
func Stop(b *model.Book, agreed *Plan, now time.Time) *model.Agreed {
	now = now.UTC().Truncate(time.Second)
	if agreed == nil || agreed.Agreed.IsZero() {
		return &model.Agreed{Since: now, Stop: now, From: now, Until: now.Add(time.Minute), DryBy: b.Rules().DryBy(now.In(b.Zone())).UTC()}
	}
	a := agreed.Agree(b, now)
	a.Stop, a.Order = now, nil
	a.Loads = slices.DeleteFunc(a.Loads, func(l model.AgreedLoad) bool {
		n, _, ok := agreed.Placed(l.Plants[0])
		if !ok || !agreed.Loads[n].ToCome() {
			return false
		}
		for _, id := range l.Plants {
			a.Left = append(a.Left, model.AgreedLeft{Plant: id, Why: skipped, Load: l.Number})
		}
		return true
	})
	return a
}
