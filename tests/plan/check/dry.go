package check

import (
	"math"
	"slices"

	"tubside/model/soak"
)

// change is room that is taken, or given back, at a time.
type change struct {
	at   int
	room float64
}

// most is the most room that is taken at once. What is given back at a time is
// free for what comes at that time.
func most(changes []change) float64 {
	slices.SortFunc(changes, func(a, b change) int {
		if a.at != b.at {
			return a.at - b.at
		}
		switch {
		case a.room < b.room:
			return -1
		case a.room > b.room:
			return 1
		}
		return 0
	})
	now, top := 0.0, 0.0
	for _, c := range changes {
		now += c.room
		top = max(top, now)
	}
	return top
}

func laidDown(t *soak.Placed) int { return t.Out + t.Hands.Out + t.Hands.Lay }

// benches: no more on each at once than it holds.
func (f *faults) benches(s *soak.Session, p *soak.Plan, late map[int]soak.Late) {
	for b, bench := range s.Benches {
		var all []change
		for _, l := range p.Loads {
			for k := range l.Plants {
				if t := &l.Plants[k]; t.Bench == b && !late[t.ID].NoBench {
					all = append(all, change{laidDown(t), t.BenchRoom}, change{t.Dry, -t.BenchRoom})
				}
			}
		}
		for _, d := range s.Drying {
			if d.Bench == b {
				from := max(d.From, s.Hours[0].From)
				all = append(all, change{from, d.Room}, change{max(d.Until, from), -d.Room})
			}
		}
		if taken := most(all); taken > bench.Room+eps {
			f.add("bench %d has room for %g, and %g lies on it", b, bench.Room, taken)
		}
	}
}

// drying: long enough on its bench with so many at once; dry in time; never more
// at once than the times are for.
func (f *faults) drying(s *soak.Session, p *soak.Plan, late map[int]soak.Late) {
	factor := 1.0
	if s.Room != nil {
		factor = s.Room(p.AtOnce)
	}
	var crowd []change
	for _, d := range s.Drying {
		from := max(d.From, s.Hours[0].From)
		crowd = append(crowd, change{from, 1}, change{max(d.Until, from), -1})
	}
	for _, l := range p.Loads {
		for k := range l.Plants {
			t := &l.Plants[k]
			bench := 1.0
			if t.Bench >= 0 {
				bench = s.Benches[t.Bench].Factor
			}
			need := math.Ceil(float64(t.DryFor)*bench*factor - 1e-9)
			if has := t.Dry - laidDown(t); float64(has) < math.Min(need, 1<<28) {
				f.add("plant %d has %d s to dry, needs %g", t.ID, has, need)
			}
			dryBy := dryByAt(s, t.Out)
			if over := t.Dry - dryBy; over > 0 && late[t.ID].NotDry != over {
				f.add("plant %d is dry at %d, the dry-by hour is %d", t.ID, t.Dry, dryBy)
			}
			crowd = append(crowd, change{laidDown(t), 1}, change{t.Dry, -1})
		}
	}
	if n := most(crowd); s.Room != nil && n > float64(p.AtOnce)+eps {
		f.add("%g dry at once, the times are for %d", n, p.AtOnce)
	}
}

// dryByAt is the dry-by hour of what comes out at a time.
func dryByAt(s *soak.Session, t int) int {
	by := s.Hours[0].DryBy
	for _, h := range s.Hours {
		if h.From <= t {
			by = h.DryBy
		}
	}
	return by
}

// totals: what the plan says of itself.
func (f *faults) totals(s *soak.Session, p *soak.Plan, late map[int]soak.Late) {
	free, dry, visits, fills, thirst := s.Hours[0].From, s.Hours[0].From, 0, 0, 0.0
	for _, a := range p.Actions {
		if a.Do == soak.Fill {
			fills++
		}
		if a.Do == soak.PutIn || a.Do == soak.GetOut {
			visits++
		}
		if a.Do.Hands() && !outOnly(s, a.At) && !nobody(p, &a, late) && a.At < a.Until {
			free = max(free, a.Until)
		}
	}
	for _, l := range p.Loads {
		for _, t := range l.Plants {
			dry = max(dry, t.Dry)
			if t.Index >= 0 {
				thirst += t.Thirst
			}
		}
	}
	if p.HandsFree != free || p.AllDry != dry || p.Visits != visits || p.Fills != fills {
		f.add("hands free at %d, all dry at %d, %d visits, %d fills; the plan says %d, %d, %d, %d", free, dry, visits,
			fills, p.HandsFree, p.AllDry, p.Visits, p.Fills)
	}
	if math.Abs(p.Thirst-thirst) > eps {
		f.add("serves a thirst of %g, says %g", thirst, p.Thirst)
	}
	if p.Bound > p.HandsFree {
		f.add("hands free at %d: better than its own bound, %d", p.HandsFree, p.Bound)
	}
	if most := MostThirst(s); p.Thirst > most+eps {
		f.add("serves a thirst of %g, and no plan can serve more than %g", p.Thirst, most)
	}
}

func outOnly(s *soak.Session, t int) bool {
	only := false
	for _, h := range s.Hours {
		if h.From <= t {
			only = h.OutOnly
		}
	}
	return only
}
