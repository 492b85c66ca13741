// Package check holds a session plan against the rules, one by one, from the
// session's and the plan's numbers alone. It shares nothing with the planner
// but the types.
package check

import (
	"fmt"
	"slices"

	"tubside/model/soak"
)

// eps is what sums of litres may be off by.
const eps = 1e-6

// faults collects what is wrong.
type faults []string

func (f *faults) add(format string, args ...any) { *f = append(*f, fmt.Sprintf(format, args...)) }

// Plan lists every rule that a plan breaks, in words; none if it is right.
func Plan(s *soak.Session, p *soak.Plan) []string {
	var f faults
	late := map[int]soak.Late{}
	for _, l := range p.Late {
		late[l.ID] = l
	}
	f.everyPlantOnce(s, p)
	for i := range p.Loads {
		f.load(s, &p.Loads[i], late)
	}
	f.sizes(s, p)
	f.work(s, p, late)
	f.handling(s, p)
	f.taps(s, p)
	for v := range s.Vessels {
		f.vessel(s, p, v)
	}
	f.benches(s, p, late)
	f.drying(s, p, late)
	f.hanging(s, p)
	f.totals(s, p, late)
	return f
}

// everyPlantOnce: each item is in one load or left out, never both, never twice.
func (f *faults) everyPlantOnce(s *soak.Session, p *soak.Plan) {
	seen := make([]int, len(s.Items))
	given := 0
	for _, l := range p.Loads {
		for _, t := range l.Plants {
			if l.Given > 0 && t.Index < 0 {
				given++
				continue
			}
			if t.Index < 0 || t.Index >= len(seen) || s.Items[t.Index] != t.Item {
				f.add("plant %d is not item %d of the session", t.ID, t.Index)
				continue
			}
			seen[t.Index]++
			if l.Given > 0 && !slices.Contains(s.Given[l.Given-1].More, t.Index) {
				f.add("plant %d goes in with a load in the water that it is none of", t.ID)
			}
		}
	}
	for _, l := range p.Left {
		seen[l.Index]++
		if s.Items[l.Index].ID != l.ID {
			f.add("left out: item %d is not plant %d", l.Index, l.ID)
		}
	}
	for i, n := range seen {
		if n != 1 {
			f.add("plant %d is planned or left out %d times", s.Items[i].ID, n)
		}
	}
	for _, g := range s.Given {
		given -= len(g.Items)
	}
	if given != 0 {
		f.add("%d plants too many come out of loads that were in the water", given)
	}
}

// load: one clock, windows, order and company of one load.
func (f *faults) load(s *soak.Session, l *soak.Load, late map[int]soak.Late) {
	in, out := l.Start, l.Out
	began := false
	for k, t := range l.Plants {
		soaked := t.Out - t.In
		if over := soaked - t.Most; soaked < t.Least || over > 0 && late[t.ID].Over != over {
			f.add("plant %d soaks %d s, not %d to %d", t.ID, soaked, t.Least, t.Most)
		}
		if t.Index >= 0 {
			if l.Given > 0 && !began {
				in = t.In
			}
			began = true
			if t.In != in {
				f.add("plant %d goes in at %d, not in its turn at %d", t.ID, t.In, in)
			}
			in += t.Hands.In
			if t.Company != l.Company || t.Fed != l.Fed {
				f.add("plant %d: %v fed %v in a load of %v fed %v", t.ID, t.Company, t.Fed, l.Company, l.Fed)
			}
		} else if k > 0 && t.In < l.Plants[k-1].In {
			f.add("plant %d: not first in, first out", t.ID)
		}
		if t.Out != out {
			f.add("plant %d comes out at %d, not in its turn at %d", t.ID, t.Out, out)
		}
		out += t.Hands.Out + t.Hands.Lay
	}
	if first := l.Plants[0]; l.Start != first.In || l.Out != first.Out || l.End != out {
		f.add("load in vessel %d: start %d, out %d, end %d are not its plants'", l.Vessel, l.Start, l.Out, l.End)
	}
	if began && l.Out < in {
		f.add("load in vessel %d at %d: one comes out before all are in", l.Vessel, l.Start)
	}
	if l.Fed != s.Vessels[l.Vessel].Fed {
		f.add("load in vessel %d at %d: fed %v, its vessel %v", l.Vessel, l.Start, l.Fed, s.Vessels[l.Vessel].Fed)
	}
}

// sizes: few loads, none too small; newcomers, suspects, sick and fed apart.
func (f *faults) sizes(s *soak.Session, p *soak.Plan) {
	due, litres, loads, smallest, largest := 0, 0.0, 0, 1e18, 0.0
	for _, it := range s.Items {
		if it.Company == soak.Healthy && !it.Fed {
			due, litres = due+1, litres+it.Bulk
		}
	}
	for _, v := range s.Vessels {
		if !v.Fed {
			smallest, largest = min(smallest, v.Room), max(largest, v.Room)
		}
	}
	few := due < 2*s.Limits.Plants // less than two loads
	for _, l := range p.Loads {
		if l.Given > 0 || l.Company != soak.Healthy || l.Fed {
			continue
		}
		loads++
		if n := len(l.Plants); n < min(due, s.Limits.Plants) && !(few && s.Limits.Loads > 0 && n*s.Limits.Loads >= due) {
			f.add("load in vessel %d at %d: %d plants, too few", l.Vessel, l.Start, n)
		}
		room := s.Vessels[l.Vessel].Room
		if share := s.Limits.Share * room; (room > smallest || room == largest && litres >= 2*share) && bulk(&l) < share-eps {
			f.add("load in vessel %d at %d: %g litres of %g, too few", l.Vessel, l.Start, bulk(&l), room)
		}
	}
	if s.Limits.Loads > 0 && loads > s.Limits.Loads {
		f.add("%d loads, at most %d", loads, s.Limits.Loads)
	}
}

func bulk(l *soak.Load) float64 {
	sum := 0.0
	for _, t := range l.Plants {
		sum += t.Bulk
	}
	return sum
}
