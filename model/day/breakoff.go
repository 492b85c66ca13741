package day

import (
	"cmp"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/soak"
)

// AllOut lists all that is in the water in the order in which it is safest to take
// it out when the day breaks off: what is due first, first; what may be sick last.
func AllOut(b *model.Book, now time.Time) model.IDs {
	loads := slices.Clone(b.OpenLoads())
	sick := func(l *model.Load) int {
		worst := soak.Healthy
		for _, id := range b.StillIn(l) {
			worst = max(worst, advice.CompanyOf(b, b.Row(id), now))
		}
		return int(worst)
	}
	slices.SortStableFunc(loads, func(x, y *model.Load) int { return cmp.Or(cmp.Compare(sick(x), sick(y)), x.Due.Compare(y.Due)) })
	var ids model.IDs
	for _, l := range loads {
		ids = append(ids, b.StillIn(l)...)
	}
	return ids
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
