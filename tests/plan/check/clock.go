package check

import (
	"slices"

	"tubside/model/soak"
)

// work is one piece of handling.
type work struct {
	from, to int
	in       bool
	id       int
}

func handling(p *soak.Plan, late map[int]soak.Late) []work {
	var all []work
	for _, l := range p.Loads {
		for _, t := range l.Plants {
			if t.Index >= 0 {
				all = append(all, work{t.In, t.In + t.HandsIn, true, t.ID})
			}
			if !(l.Given && late[t.ID].NoHands) {
				all = append(all, work{t.Out, t.Out + t.HandsOut, false, t.ID})
			}
		}
	}
	slices.SortFunc(all, func(a, b work) int {
		if a.from != b.from {
			return a.from - b.from
		}
		return a.to - b.to
	})
	return all
}

// hoursOf is the stretch of hours that holds a piece of time; nil if none does.
func hoursOf(s *soak.Session, from, to int) *soak.Hours {
	for i := range s.Hours {
		if h := &s.Hours[i]; from >= h.From && to <= h.To {
			return h
		}
	}
	return nil
}

// hands: one thing at a time, within the hours.
func (f *faults) hands(s *soak.Session, p *soak.Plan, late map[int]soak.Late) {
	all := handling(p, late)
	for k, w := range all {
		if k > 0 && w.from < all[k-1].to {
			f.add("plants %d and %d: hands in two places at %d", all[k-1].id, w.id, w.from)
		}
		h := hoursOf(s, w.from, w.to)
		if h == nil {
			f.add("plant %d: handled from %d to %d, out of hours", w.id, w.from, w.to)
		} else if w.in && h.OutOnly {
			f.add("plant %d: put in at %d, when plants only come out", w.id, w.from)
		}
	}
}

// vessels: one load at a time, refills between, and every fill's limits.
func (f *faults) vessels(s *soak.Session, p *soak.Plan) {
	for v := range s.Vessels {
		var loads []*soak.Load
		for i := range p.Loads {
			if p.Loads[i].Vessel == v {
				loads = append(loads, &p.Loads[i])
			}
		}
		slices.SortStableFunc(loads, func(a, b *soak.Load) int { return a.Start - b.Start })
		f.vessel(s, v, loads)
	}
}

// fill is what is known of the water in a vessel.
type fill struct {
	number, loads, since, free int
	worst                      soak.Company
	water                      bool
}

func (f *faults) vessel(s *soak.Session, v int, loads []*soak.Load) {
	vessel := s.Vessels[v]
	now := fill{free: s.Hours[0].From}
	if w := vessel.Water; w != nil {
		now.water, now.loads, now.since, now.worst = true, w.Loads, w.Since, w.Worst
		now.free = max(now.free, w.Ready)
	}
	for _, l := range loads {
		if l.Given {
			if vessel.Water == nil {
				now.loads, now.since = 1, l.Start
			}
			now.water, now.worst, now.free = true, max(now.worst, l.Company), l.End
			continue
		}
		free := now.free
		if l.Fill == now.number+1 {
			now = fill{number: l.Fill, water: true}
			free += vessel.Refill
		}
		if l.Fill != now.number || !now.water {
			f.add("vessel %d: load at %d in fill %d, in the water is fill %d", v, l.Start, l.Fill, now.number)
		}
		if l.Start < free || l.Ready < free || l.Ready > l.Start {
			f.add("vessel %d: load at %d, ready at %d, before the vessel is free at %d", v, l.Start, l.Ready, free)
		}
		f.water(v, &vessel, l, &now)
	}
}

// water: a load in a fill that has served others.
func (f *faults) water(v int, vessel *soak.Vessel, l *soak.Load, now *fill) {
	if now.loads == 0 {
		now.since = l.Start
	} else if l.Company < now.worst || l.Company == soak.Sick || now.worst == soak.Sick {
		f.add("vessel %d: a %v load at %d in water that %v plants were in", v, l.Company, l.Start, now.worst)
	}
	now.loads++
	now.worst, now.free = max(now.worst, l.Company), l.End
	if vessel.Loads > 0 && now.loads > vessel.Loads {
		f.add("vessel %d: load at %d is number %d in one fill", v, l.Start, now.loads)
	}
	if vessel.LastIn > 0 && l.Start-now.since > vessel.LastIn {
		f.add("vessel %d: water in use for %d s when the load at %d goes in", v, l.Start-now.since, l.Start)
	}
	if vessel.Age > 0 && l.End-now.since > vessel.Age {
		f.add("vessel %d: water %d s old at the end of the load at %d", v, l.End-now.since, l.Start)
	}
}
