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
