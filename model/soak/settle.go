package soak

import "slices"

// settle gives every plant the bench that dries it fastest of those with room
// left, first out first, and returns the loads in the order they start. Until
// here plants went to the slowest bench that would do, to keep the others for
// those that need them.
func (d *day) settle() []Load {
	var all []*Placed
	for l := range d.loads {
		for k := range d.loads[l].Plants {
			if t := &d.loads[l].Plants[k]; !d.loads[l].Given {
				all = append(all, t)
			}
		}
	}
	slices.SortStableFunc(all, func(a, b *Placed) int { return a.Out - b.Out })
	for _, t := range all {
		d.faster(t)
	}
	loads := slices.Clone(d.loads)
	for l := range loads {
		loads[l].Turn = l
	}
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
	d.racks[t.Bench].sum()
	for _, b := range slices.Backward(d.p.slowest) {
		dry := d.p.dry(b, t.Index, t.Out)
		if ok, _ := d.racks[b].fits(t.Out, dry, t.BenchRoom); ok && dry < t.Dry {
			t.Bench, t.Dry = b, dry
			break
		}
	}
	d.racks[t.Bench].add(t.Out, t.Dry, t.BenchRoom)
	d.racks[t.Bench].sum()
}

// plan writes the best draft down; work is what it cost.
func (s *search) plan(work int) *Plan {
	d, p := &s.d, s.p
	d.keep = true
	d.run(s.best.copyTo(nil))
	d.keep = false
	plan := &Plan{Late: p.late, HandsFree: d.free, Fills: d.fills, AtOnce: p.atOnce, Work: work}
	plan.Loads = d.settle()
	plan.AllDry = p.start
	served := make([]bool, p.n)
	var items []int
	for _, l := range plan.Loads {
		for _, t := range l.Plants {
			plan.AllDry = max(plan.AllDry, t.Dry)
			if t.Index >= 0 {
				served[t.Index] = true
				items = append(items, t.Index)
			}
		}
	}
	for i, yes := range served {
		if yes {
			plan.Thirst += p.items[i].Thirst
		}
	}
	b := p.bounder()
	plan.Bound = Bound{Thirst: max(plan.Thirst, b.thirst()), HandsFree: b.handsFree(items)}
	plan.Left = p.leftOut(d, served, p.wanted)
	return plan
}
