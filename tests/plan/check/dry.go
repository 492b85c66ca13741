package check

import (
	"math"
	"slices"

	"tubside/model/soak"
)

// change is room taken or given back on a bench at a time.
type change struct {
	at   int
	room float64
}

// mostTaken is the most room taken at one time.
func mostTaken(steps []change) float64 {
	slices.SortFunc(steps, func(a, b change) int {
		switch {
		case a.at != b.at:
			return a.at - b.at
		case a.room < b.room:
			return -1
		}
		return 1
	})
	most, now := 0.0, 0.0
	for _, s := range steps {
		now += s.room
		most = max(most, now)
	}
	return most
}

// benches: no bench holds more than it has room for. A bench that a given load
// overfills, and says so, is not held against the plan.
func (f *faults) benches(s *soak.Session, p *soak.Plan, late map[int]soak.Late) {
	steps := make([][]change, len(s.Benches))
	excused := make([]bool, len(s.Benches))
	put := func(b, from, to int, room float64) {
		steps[b] = append(steps[b], change{from, room}, change{max(from, to), -room})
	}
	for _, d := range s.Drying {
		if len(s.Benches) > 0 {
			put(d.Bench, s.Hours[0].From, d.Until, d.Room)
		}
	}
	for _, l := range p.Loads {
		for _, t := range l.Plants {
			switch {
			case len(s.Benches) == 0:
				continue
			case t.Bench < 0 || t.Bench >= len(s.Benches):
				f.add("plant %d dries on bench %d of %d", t.ID, t.Bench, len(s.Benches))
				continue
			case l.Given && late[t.ID].NoBench:
				excused[t.Bench] = true
			}
			put(t.Bench, t.Out, t.Dry, t.BenchRoom)
		}
	}
	for b := range steps {
		if most := mostTaken(steps[b]); most > s.Benches[b].Room+eps && !excused[b] {
			f.add("bench %d holds %g, has room for %g", b, most, s.Benches[b].Room)
		}
	}
}

// drying: each plant has its time to dry, is dry by the dry-by hour of the
// hours it comes out in, and no more dry at once than the times allow for.
func (f *faults) drying(s *soak.Session, p *soak.Plan, late map[int]soak.Late) {
	room := 1.0
	if s.Room != nil {
		room = s.Room(p.AtOnce)
	}
	var steps []change
	for _, d := range s.Drying {
		steps = append(steps, change{s.Hours[0].From, 1}, change{max(d.Until, s.Hours[0].From), -1})
	}
	for _, l := range p.Loads {
		for _, t := range l.Plants {
			steps = append(steps, change{t.Out, 1}, change{t.Dry, -1})
			f.dryInTime(s, l, t, room, late[t.ID])
		}
	}
	if most := mostTaken(steps); most > float64(p.AtOnce) {
		f.add("%g plants dry at once, the times are for %d", most, p.AtOnce)
	}
}

func (f *faults) dryInTime(s *soak.Session, l soak.Load, t soak.Placed, room float64, late soak.Late) {
	bench := 1.0
	if t.Bench >= 0 {
		bench = s.Benches[t.Bench].Factor
	}
	need := float64(t.DryFor) * bench * room
	if got := float64(t.Dry - t.Out - t.HandsOut); got < need-eps || got > math.Ceil(need+eps) {
		f.add("plant %d is given %g s to dry, needs %g", t.ID, got, need)
	}
	if l.Given && late.NoHands {
		return
	}
	h := hoursOf(s, t.Out, t.Out+t.HandsOut)
	if h == nil {
		return // said by hands
	}
	if over := t.Dry - h.DryBy; over > 0 && !(l.Given && late.NotDry == over) {
		f.add("plant %d is dry at %d, %d s after the dry-by hour", t.ID, t.Dry, over)
	}
}
