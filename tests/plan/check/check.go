// Package check holds a session plan against the rules, one by one, from the
// session's and the plan's numbers alone. It shares nothing with the planner
// but the types.
package check

import (
	"fmt"
	"math"
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
	f.hands(s, p, late)
	f.vessels(s, p)
	f.benches(s, p, late)
	f.drying(s, p, late)
	f.totals(s, p, late)
	f.actions(s, p)
	return f
}

// everyPlantOnce: each item is in one load or left out, never both, never twice.
func (f *faults) everyPlantOnce(s *soak.Session, p *soak.Plan) {
	seen := make([]int, len(s.Items))
	given := 0
	for _, l := range p.Loads {
		for _, t := range l.Plants {
			if l.Given && t.Index < 0 {
				given++
				continue
			}
			if t.Index < 0 || t.Index >= len(seen) || s.Items[t.Index] != t.Item {
				f.add("plant %d is not item %d of the session", t.ID, t.Index)
				continue
			}
			seen[t.Index]++
			if l.Given && !slices.ContainsFunc(s.Given, func(g soak.Given) bool { return g.Vessel == l.Vessel && slices.Contains(g.More, t.Index) }) {
				f.add("plant %d goes in with a load in the water that it is none of", t.ID)
			}
		}
	}
	for _, l := range p.Left {
		seen[l.Index]++
		if s.Items[l.Index].ID != l.ID || len(l.Help) == 0 {
			f.add("left out: item %d is not plant %d, or nothing would help", l.Index, l.ID)
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

// load: windows, order, room, company and water of one load.
func (f *faults) load(s *soak.Session, l *soak.Load, late map[int]soak.Late) {
	room := 0.0
	lastIn := math.MinInt
	for k, t := range l.Plants {
		room += t.Bulk
		lastIn = max(lastIn, t.In)
		soaked := t.Out - t.In
		if over := soaked - t.To; soaked < t.From || over > 0 && late[t.ID].Over != over {
			f.add("plant %d soaks %d s, not %d to %d", t.ID, soaked, t.From, t.To)
		}
		if k > 0 && (t.In < l.Plants[k-1].In || t.Out < l.Plants[k-1].Out) {
			f.add("plant %d: not first in, first out", t.ID)
		}
		if t.Index >= 0 && (t.Company != l.Company || t.Fed != l.Fed) {
			f.add("plant %d: %v fed %v in a load of %v fed %v", t.ID, t.Company, t.Fed, l.Company, l.Fed)
		}
	}
	first, last := l.Plants[0], l.Plants[len(l.Plants)-1]
	if l.Start != first.In || l.Out != first.Out || l.End != last.Out+last.HandsOut {
		f.add("load in vessel %d: start %d, out %d, end %d are not its plants'", l.Vessel, l.Start, l.Out, l.End)
	}
	if l.Given && last.Index < 0 {
		return // nothing went in any more
	}
	if first.Out < last.In+last.HandsIn {
		f.add("load in vessel %d at %d: one comes out before all are in", l.Vessel, l.Start)
	}
	if v := s.Vessels[l.Vessel]; room > v.Room+eps || v.Fed != l.Fed {
		f.add("load in vessel %d at %d: %g l fed %v in room of %g l fed %v", l.Vessel, l.Start, room, l.Fed, v.Room, v.Fed)
	}
}
