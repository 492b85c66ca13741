package soak

import (
	"cmp"
	"slices"
)

// Do is one kind of thing to do in a session.
type Do int8

// What there is to do. Filling holds a tap and leaves the hands free; all else
// holds a pair of hands.
const (
	Empty  Do = iota // let the water out and rinse, when the fill's last load is out, and nobody else in the water too long: standing water is a danger to children
	Fill             // fill the vessel
	Pull             // take plants from their homes to the vessel, in the order in which they go in
	PutIn            // put plants in, in the order given
	GetOut           // take plants out, shake and lay them down, in the order given
	Hang             // hang back what is dry
)

var doWords = [...]string{Empty: "empty", Fill: "fill", Pull: "pull", PutIn: "in", GetOut: "out", Hang: "hang"}

// String is the word for what is done.
func (d Do) String() string { return doWords[d] }

// Hands reports whether a pair of hands is busy with it from start to end.
func (d Do) Hands() bool { return d != Fill }

// Action is one thing to do, in one piece.
type Action struct {
	At, Until int
	Do        Do
	Vessel    int
	Load      int   // index in [Plan.Loads]; -1 for hanging
	Hands     int   // which pair, from 0; of no meaning for [Fill]
	IDs       []int // of the plants, in order; nil for Fill and Empty
}

// actions lists what there is to do, in clock order.
func (t *trier) actions(p *Plan, d *schedule, place []int) {
	for l := range d.loads {
		load, at, to := &d.loads[l], &t.clock.loads[l], place[l]
		v := &t.p.Vessels[load.vessel]
		add := func(do Do, from, until int, plants []int) {
			a := Action{At: from, Until: until, Do: do, Vessel: load.vessel, Load: to, Hands: int(at.pair[min(do, GetOut)])}
			if do == Empty {
				a.Hands = int(at.rinser)
			}
			for _, i := range plants {
				a.IDs = append(a.IDs, t.p.items[i].ID)
			}
			p.Actions = append(p.Actions, a)
		}
		if at.fresh && !slices.ContainsFunc(p.Actions, func(a Action) bool { return a.Do == Fill && a.Vessel == load.vessel && a.At == at.pour }) {
			add(Fill, at.pour, at.pour+v.Fill, nil)
		}
		if at.fresh && at.stale {
			add(Empty, at.drain, at.drain+v.Rinse, nil)
			p.Actions[len(p.Actions)-1].Hands = int(at.drainer)
		}
		if load.pull > 0 {
			pulled := slices.DeleteFunc(slices.Clone(load.items[load.lying:]), func(i int) bool { return t.p.items[i].Hands.Pull == 0 })
			add(Pull, at.pull, at.pulled, pulled)
		}
		if len(load.items) > load.lying {
			add(PutIn, at.in, at.in+load.in, load.items[load.lying:])
		}
		if len(load.items) > 0 {
			add(GetOut, at.out, at.end, load.items)
		}
		if at.last {
			add(Empty, at.rinse, at.rinse+v.Rinse, nil)
		}
	}
	t.hang(p)
	slices.SortStableFunc(p.Actions, func(a, b Action) int {
		return cmp.Or(cmp.Compare(a.At, b.At), cmp.Compare(a.Do, b.Do), cmp.Compare(a.Vessel, b.Vessel))
	})
}

// hang has the hands hang back what is dry while they wait for something else,
// in one piece a wait; what is dry later is for the morning.
func (t *trier) hang(p *Plan) {
	type dry struct{ id, at, need int }
	var all []dry
	for _, x := range t.p.Drying {
		all = append(all, dry{x.ID, x.Dry, x.Hang})
	}
	for _, l := range p.Loads {
		for _, x := range l.Plants {
			all = append(all, dry{x.ID, x.Dry, x.Hands.Hang})
		}
	}
	slices.SortStableFunc(all, func(a, b dry) int { return cmp.Compare(a.at, b.at) })
	for _, wait := range t.waits(p) {
		from, until := wait.From, wait.To
		a := Action{Do: Hang, Load: -1, Vessel: -1}
		left := all[:0:0]
		for _, x := range all {
			if at := max(from, x.at); x.need > 0 && at+x.need <= until && (len(a.IDs) == 0 || at == from) {
				if len(a.IDs) == 0 {
					a.At = at
				}
				from = at + x.need
				a.IDs = append(a.IDs, x.id)
				continue
			}
			left = append(left, x)
		}
		if len(a.IDs) >= fewestHung {
			a.Until = from
			p.Actions = append(p.Actions, a)
			all = left
		}
	}
	for _, x := range all {
		p.Morning = append(p.Morning, x.id)
	}
}

// fewestHung are worth a walk along the shelves. A guess.
const fewestHung = 5

// waits is when the first pair of hands has nothing to do, before it is free.
func (t *trier) waits(p *Plan) []Stretch {
	var busy []Stretch
	for _, a := range p.Actions {
		if a.Do.Hands() && a.Hands == 0 {
			busy = append(busy, Stretch{a.At, a.Until})
		}
	}
	slices.SortFunc(busy, func(a, b Stretch) int { return cmp.Compare(a.From, b.From) })
	var waits []Stretch
	for _, h := range t.p.Hours {
		from := max(h.From, t.p.start+t.p.Began)
		for _, b := range busy {
			if b.From >= h.To || b.To <= from {
				continue
			}
			if b.From > from {
				waits = append(waits, Stretch{from, b.From})
			}
			from = b.To
		}
	}
	return waits
}
