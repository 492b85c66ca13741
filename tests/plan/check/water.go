package check

import (
	"slices"

	"tubside/model/soak"
)

// vessel: what lies in it at once; the water of each fill: fresh when it must be,
// its company, its loads, how late the last goes in; let out when the last is out.
func (f *faults) vessel(s *soak.Session, p *soak.Plan, v int) {
	var loads []*soak.Load
	for i := range p.Loads {
		if p.Loads[i].Vessel == v {
			loads = append(loads, &p.Loads[i])
		}
	}
	slices.SortStableFunc(loads, func(a, b *soak.Load) int { return a.Start - b.Start })
	f.together(s, v, loads)
	fills := map[int][]*soak.Load{}
	last := 0
	for _, l := range loads {
		if l.Fill < last || l.Fill > last+1 {
			f.add("vessel %d: fill %d after fill %d", v, l.Fill, last)
		}
		last = l.Fill
		fills[l.Fill] = append(fills[l.Fill], l)
	}
	free := s.Hours[0].From
	for n := 0; n <= last; n++ {
		if len(fills[n]) == 0 {
			continue
		}
		if n > 0 {
			f.filled(s, p, v, free, fills[n][0].Start)
		}
		f.fill(s, v, n, fills[n])
		end := 0
		for _, l := range fills[n] {
			end = max(end, l.End)
		}
		at := slices.IndexFunc(p.Actions, func(a soak.Action) bool {
			return a.Do == soak.Empty && a.Vessel == v && a.At >= end && a.Until == a.At+s.Vessels[v].Rinse && onlyOut(p, end, a.At)
		})
		if free = end + s.Vessels[v].Rinse; at < 0 {
			f.add("vessel %d: fill %d is not let out at %d", v, n, end)
		} else {
			free = p.Actions[at].Until
		}
	}
}

// onlyOut reports whether from one time to another the hands do nothing but take out what
// would be in the water too long, and let out what that was in.
func onlyOut(p *soak.Plan, from, to int) bool {
	for at := from; at < to; {
		n := slices.IndexFunc(p.Actions, func(a soak.Action) bool {
			return (a.Do == soak.Empty || a.Do == soak.GetOut && p.Loads[a.Load].Given > 0) && a.At == at && a.Until > at && a.Until <= to
		})
		if n < 0 {
			return false
		}
		at = p.Actions[n].Until
	}
	return true
}

// together: room and company of what lies in a vessel at once.
func (f *faults) together(s *soak.Session, v int, loads []*soak.Load) {
	for _, l := range loads {
		room, n, began := 0.0, 0, l.Start
		if l.Given > 0 {
			began = max(began, s.Hours[0].From)
		}
		for _, m := range loads {
			if m.Start > began || m.End <= began {
				continue
			}
			n++
			room += bulk(m)
			if m.Company != l.Company && l.Given == 0 {
				f.add("vessel %d: %v beside %v at %d", v, l.Company, m.Company, l.Start)
			}
			if m != l && (m.Heap == l.Heap || m.Heap == 0) && l.Given == 0 {
				f.add("vessel %d: heaps %d and %d at %d", v, m.Heap, l.Heap, l.Start)
			}
		}
		if room > s.Vessels[v].Room+eps && (l.Given == 0 || n > 1) {
			f.add("vessel %d at %d: %g l in room of %g l", v, l.Start, room, s.Vessels[v].Room)
		}
		if n > 2 {
			f.add("vessel %d at %d: %d heaps", v, l.Start, n)
		}
	}
}

// filled: the tap fills it between the last load's being out, and the water
// let out, and the next one's start.
func (f *faults) filled(s *soak.Session, p *soak.Plan, v, free, start int) {
	if s.Vessels[v].Once {
		f.add("vessel %d is filled again, and its water has to stand", v)
	}
	n := 0
	for _, a := range p.Actions {
		if a.Do == soak.Fill && a.Vessel == v && a.At >= free && a.Until <= start {
			n++
		}
	}
	if n != 1 {
		f.add("vessel %d is filled %d times between %d and %d", v, n, free, start)
	}
}

// fill: one water.
func (f *faults) fill(s *soak.Session, v, n int, loads []*soak.Load) {
	served, worst, since := 0, soak.Healthy, 0
	if w := s.Vessels[v].Water; n == 0 {
		given := loads[0].Given > 0
		if w == nil && !given {
			f.add("vessel %d: a load at %d, and no water", v, loads[0].Start)
			return
		}
		if w != nil {
			served, worst, since = w.Loads, w.Worst, w.Since
		}
		if w != nil && !given && loads[0].Start < w.Ready {
			f.add("vessel %d: a load at %d, before it is full at %d", v, loads[0].Start, w.Ready)
		}
	}
	for _, l := range loads {
		if l.Given > 0 {
			if s.Vessels[v].Water == nil && served == 0 {
				served, since = 1, l.Start
			}
			worst = max(worst, l.Company)
			continue
		}
		if served == 0 {
			since = l.Start
		}
		served++
		vessel := &s.Vessels[v]
		switch {
		case l.Company < worst || served > 1 && (l.Company == soak.Sick || worst == soak.Sick):
			f.add("vessel %d at %d: %v in water that %v plants were in", v, l.Start, l.Company, worst)
		case vessel.Loads > 0 && served > vessel.Loads:
			f.add("vessel %d: load %d in one fill, at most %d", v, served, vessel.Loads)
		case vessel.LastIn > 0 && l.Start-since > vessel.LastIn:
			f.add("vessel %d: load at %d into water in use for %d s", v, l.Start, l.Start-since)
		}
		worst = max(worst, l.Company)
	}
}
