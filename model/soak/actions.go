package soak

import (
	"cmp"
	"slices"
)

// Do is one kind of thing to do in a session.
type Do int8

// What there is to do. Filling and emptying leave the hands free for other
// work while the water runs.
const (
	Empty  Do = iota // let the water out, at once when the fill's last load is out: standing water is a danger to children
	Fill             // rinse and fill the vessel
	PutIn            // put plants in, in the order given
	GetOut           // take plants out, in the order given
)

var doWords = [...]string{Empty: "empty", Fill: "fill", PutIn: "in", GetOut: "out"}

// String is the word for what is done.
func (d Do) String() string { return doWords[d] }

// Hands reports whether the hands are busy with it from start to end.
func (d Do) Hands() bool { return d == PutIn || d == GetOut }

// Action is one thing to do, in one piece.
type Action struct {
	At, Until int
	Do        Do
	Vessel    int
	Load      int   // index in [Plan.Loads]
	IDs       []int // of the plants, in order; nil for Fill and Empty
}

// idle is the longest wait, in s, within one action; a longer one parts it in
// two.
const idle = 60

// Actions lists what there is to do, in clock order. Plants of one load that go
// in, or come out, one after the other are one action.
func (p *Plan) Actions(s *Session) []Action {
	all := slices.Concat(p.handling(), p.pouring(s))
	slices.SortStableFunc(all, func(a, b Action) int {
		return cmp.Or(cmp.Compare(a.At, b.At), cmp.Compare(a.Until, b.Until), cmp.Compare(a.Do, b.Do), cmp.Compare(a.Vessel, b.Vessel))
	})
	return all
}

// handling is the work of the hands.
func (p *Plan) handling() []Action {
	var all []Action
	for l, load := range p.Loads {
		for _, t := range load.Plants {
			if t.Index >= 0 {
				all = append(all, Action{t.In, t.In + t.HandsIn, PutIn, load.Vessel, l, []int{t.ID}})
			}
			all = append(all, Action{t.Out, t.Out + t.HandsOut, GetOut, load.Vessel, l, []int{t.ID}})
		}
	}
	slices.SortStableFunc(all, func(a, b Action) int { return cmp.Compare(a.At, b.At) })
	joined := all[:0]
	for _, a := range all {
		if n := len(joined); n > 0 && a.follows(joined[n-1]) {
			joined[n-1].Until = a.Until
			joined[n-1].IDs = append(joined[n-1].IDs, a.IDs...)
			continue
		}
		joined = append(joined, a)
	}
	return joined
}

// follows reports whether an action only carries on with another.
func (a Action) follows(b Action) bool {
	return a.Load == b.Load && a.Do == b.Do && a.At-b.Until <= idle
}

// pouring is the filling of the vessels, from when they are free, and their
// emptying when a fill's last load is out.
func (p *Plan) pouring(s *Session) []Action {
	var all []Action
	last := make([]int, len(s.Vessels)) // the load before, by vessel; -1 for none
	for v := range last {
		last[v] = -1
	}
	for _, l := range p.byVessel() {
		load := p.Loads[l]
		before := last[load.Vessel]
		if fresh := load.Fill > 0 && (before < 0 || p.Loads[before].Fill < load.Fill); fresh {
			all = append(all, Action{load.Ready - s.Vessels[load.Vessel].Refill, load.Ready, Fill, load.Vessel, l, nil})
			if before >= 0 {
				all = append(all, p.emptied(before))
			}
		}
		last[load.Vessel] = l
	}
	for _, l := range last {
		if l >= 0 {
			all = append(all, p.emptied(l))
		}
	}
	return all
}

// byVessel is the loads in the order in which each vessel has them.
func (p *Plan) byVessel() []int {
	order := make([]int, len(p.Loads))
	for l := range order {
		order[l] = l
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(p.Loads[a].Start, p.Loads[b].Start) })
	return order
}

func (p *Plan) emptied(l int) Action {
	return Action{p.Loads[l].End, p.Loads[l].End, Empty, p.Loads[l].Vessel, l, nil}
}
