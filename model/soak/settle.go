package soak

import (
	"cmp"
	"math"
	"slices"
)

// dryingAtOnce is the most plants that dry in the room at one time, given the
// loads kept.
func (d *day) dryingAtOnce() int {
	type step struct{ at, change int }
	var steps []step
	for _, l := range d.loads {
		for _, t := range l.Plants {
			steps = append(steps, step{t.Out, 1}, step{t.Dry, -1})
		}
	}
	for _, t := range d.p.s.Drying {
		steps = append(steps, step{d.p.start, 1}, step{max(t.Until, d.p.start), -1})
	}
	slices.SortFunc(steps, func(a, b step) int { return cmp.Or(a.at-b.at, a.change-b.change) })
	most, now := 0, 0
	for _, s := range steps {
		now += s.change
		most = max(most, now)
	}
	return most
}

// settle gives every plant the bench that dries it fastest of those with room
// left, first out first, and returns the loads in the order they start. Until
// here plants went to the slowest bench that would do, to keep the others for
// those that need them.
func (d *day) settle() []Load {
	var all []*Placed
	for l := range d.loads {
		for k := range d.loads[l].Plants {
			if t := &d.loads[l].Plants[k]; t.Index >= 0 {
				all = append(all, t)
			}
		}
	}
	slices.SortStableFunc(all, func(a, b *Placed) int { return a.Out - b.Out })
	for _, t := range all {
		d.faster(t)
	}
	loads := slices.Clone(d.loads)
	slices.SortStableFunc(loads, func(a, b Load) int { return a.Start - b.Start })
	for l := range loads {
		for k := range loads[l].Plants {
			if len(d.p.s.Benches) == 0 {
				loads[l].Plants[k].Bench = -1
			}
		}
	}
	return loads
}

// faster moves one plant to the fastest bench that has room for it.
func (d *day) faster(t *Placed) {
	d.racks[t.Bench].add(t.Out, t.Dry, -t.BenchRoom)
	for _, b := range slices.Backward(d.p.slowest) {
		dry := d.p.dry(b, t.Index, t.Out)
		if ok, _ := d.racks[b].fits(t.Out, dry, t.BenchRoom); ok && dry < t.Dry {
			t.Bench, t.Dry = b, dry
			break
		}
	}
	d.racks[t.Bench].add(t.Out, t.Dry, t.BenchRoom)
}

// fillUp puts plants that the best draft leaves out into what is left of its
// day, each alone, most worth first.
func (s *search) fillUp() {
	s.enter(s.best)
	f := s.cur.copyTo(nil)
	for _, i := range s.left {
		if v := s.firstTo(i); v >= 0 {
			f = append(f, batch{v, s.d.put(v, []int{i})})
		}
	}
	s.offer(f, s.d.score())
}

// firstTo is the vessel from which a plant would come out first, or -1.
func (s *search) firstTo(i int) int {
	best, soonest, one := -1, math.MaxInt, []int{i}
	for v := range s.d.tubs {
		if !s.p.takes(v, i) {
			continue
		}
		if _, _, ok := s.d.times(v, one); ok && s.d.load.end < soonest {
			best, soonest = v, s.d.load.end
		}
	}
	return best
}
