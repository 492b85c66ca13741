package check

import (
	"slices"

	"tubside/model/soak"
)

// work: every piece of the hands' work is an action of the right length, in its
// order: pulled, in, out.
func (f *faults) work(s *soak.Session, p *soak.Plan, late map[int]soak.Late) {
	if !slices.IsSortedFunc(p.Actions, func(a, b soak.Action) int { return a.At - b.At }) {
		f.add("actions are not in clock order")
	}
	for i := range p.Loads {
		l := &p.Loads[i]
		var pull, in, out []int
		var needs [3]int
		first, lastIn := 0, 0
		for _, t := range l.Plants {
			if t.Index >= 0 {
				if len(in) == 0 {
					first = t.In
				}
				if t.Hands.Pull > 0 {
					pull = append(pull, t.ID)
				}
				in, lastIn = append(in, t.ID), t.In+t.Hands.In
			}
			out = append(out, t.ID)
			if t.Index >= 0 {
				needs[0] += t.Hands.Pull
			}
		}
		needs[1], needs[2] = lastIn-first, l.End-l.Out
		pulled := f.one(p, i, soak.Pull, pull, -1, needs[0])
		f.one(p, i, soak.PutIn, in, first, needs[1])
		f.one(p, i, soak.GetOut, out, l.Out, needs[2])
		if len(pull) > 0 && pulled > first {
			f.add("load in vessel %d: pulled by %d, in from %d", l.Vessel, pulled, first)
		}
	}
}

// one: there is exactly one action of a kind for a load, at its time if that is
// known; it gives its end.
func (f *faults) one(p *soak.Plan, load int, do soak.Do, ids []int, at, need int) int {
	n, end := 0, 0
	for _, a := range p.Actions {
		if a.Load != load || a.Do != do {
			continue
		}
		n++
		end = a.Until
		if !slices.Equal(a.IDs, ids) || a.Until-a.At != need || at >= 0 && a.At != at || a.Vessel != p.Loads[load].Vessel {
			f.add("%v of load %d: %d plants in vessel %d from %d until %d; want %d, %d s at %d", do, load+1, len(a.IDs), a.Vessel, a.At, a.Until, len(ids), need, at)
		}
	}
	if want := min(1, len(ids)); n != want {
		f.add("%v of load %d is done %d times, not %d", do, load+1, n, want)
	}
	return end
}

// handling: each pair of hands does one thing at a time, within its hours.
func (f *faults) handling(s *soak.Session, p *soak.Plan) {
	late := map[int]soak.Late{}
	for _, l := range p.Late {
		late[l.ID] = l
	}
	for pair := range 1 + len(s.Help) {
		before := soak.Action{Until: -1 << 62}
		for _, a := range p.Actions {
			if !a.Do.Hands() || a.Hands != pair || a.At == a.Until {
				continue
			}
			if nobody(p, &a, late) {
				continue
			}
			if a.At < before.Until {
				f.add("hands %d: %v and %v at %d: hands in two places", pair, before.Do, a.Do, a.At)
			}
			before = a
			f.inHours(s, pair, a)
		}
	}
	for _, a := range p.Actions {
		if a.Do.Hands() && (a.Hands < 0 || a.Hands > len(s.Help)) {
			f.add("%v at %d: there is no pair of hands %d", a.Do, a.At, a.Hands)
		}
	}
}

// nobody reports whether an action is one that the plan says nobody is there for.
func nobody(p *soak.Plan, a *soak.Action, late map[int]soak.Late) bool {
	return a.Load >= 0 && late[p.Loads[a.Load].Plants[0].ID].NoHands
}

func (f *faults) inHours(s *soak.Session, pair int, a soak.Action) {
	if pair > 0 {
		if h := s.Help[pair-1]; a.At < h.From || a.Until > h.To {
			f.add("%v from %d to %d, out of the helper's hours", a.Do, a.At, a.Until)
		}
		return
	}
	for n, h := range s.Hours {
		to := h.To
		for _, next := range s.Hours[n+1:] { // what comes out may take the hands into the hours that follow
			if next.From == to && (a.Do == soak.GetOut || a.Do == soak.Empty) {
				to = next.To
			}
		}
		if a.At >= h.From && a.Until <= to {
			if h.OutOnly && (a.Do == soak.PutIn || a.Do == soak.Pull) {
				f.add("%v at %d, when plants only come out", a.Do, a.At)
			}
			return
		}
	}
	f.add("%v of vessel %d from %d to %d, out of hours", a.Do, a.Vessel, a.At, a.Until)
}

// longFull is s for which no vessel need stand full before its load goes in: a child can
// drown in a bucket.
const longFull = 20 * 60

// taps: never more run at once than there are, never without anybody there, and none
// sooner than it has to.
func (f *faults) taps(s *soak.Session, p *soak.Plan) {
	for _, a := range p.Actions {
		if a.Do != soak.Fill {
			continue
		}
		run := func(t int) (n int) {
			for _, b := range p.Actions {
				if b.Do == soak.Fill && b.At <= t && b.Until > t {
					n++
				}
			}
			return n
		}
		inHours := func(from, to int) bool {
			return slices.ContainsFunc(s.Hours, func(h soak.Hours) bool { return from >= h.From && to <= h.To })
		}
		if n := run(a.At); n > max(1, s.Taps) {
			f.add("%d taps run at %d, there are %d", n, a.At, max(1, s.Taps))
		}
		if !inHours(a.At, a.Until) {
			f.add("the tap runs from %d to %d, out of hours", a.At, a.Until)
		}
		full := p.Loads[a.Load].Start - a.Until
		if full > longFull && inHours(a.At+1, a.Until+1) && run(a.Until) < max(1, s.Taps) {
			f.add("vessel %d is full at %d, %d s before its load goes in", a.Vessel, a.Until, full)
		}
		if want := s.Vessels[a.Vessel].Fill; a.Until-a.At != want {
			f.add("vessel %d is filled in %d s, not %d", a.Vessel, a.Until-a.At, want)
		}
	}
}

// hanging: only what is dry, and every plant that day or the morning after.
func (f *faults) hanging(s *soak.Session, p *soak.Plan) {
	dry, hung := map[int]soak.Drying{}, map[int]int{}
	for _, d := range s.Drying {
		dry[d.ID] = d
	}
	for _, l := range p.Loads {
		for _, t := range l.Plants {
			dry[t.ID] = soak.Drying{Dry: t.Dry, Hang: t.Hands.Hang}
		}
	}
	for _, a := range p.Actions {
		if a.Do != soak.Hang {
			continue
		}
		at := a.At
		for _, id := range a.IDs {
			if at < dry[id].Dry {
				f.add("plant %d is hung at %d, dry at %d", id, at, dry[id].Dry)
			}
			at += dry[id].Hang
			hung[id]++
		}
		if at != a.Until || a.Until > p.HandsFree {
			f.add("hanging from %d until %d, not %d; the hands are free at %d", a.At, a.Until, at, p.HandsFree)
		}
	}
	for _, id := range p.Morning {
		hung[id]++
	}
	for id := range dry {
		if hung[id] != 1 {
			f.add("plant %d is hung %d times", id, hung[id])
		}
	}
}
