package answer

import (
	"slices"
	"time"
)

// work is one piece of handling.
type work struct {
	from, to time.Time
	id       int
}

func seconds(n int) time.Duration { return time.Duration(n) * time.Second }

// hands: one pair, never in two places, none after they are said to be free but
// on another day.
func (f *faults) hands(p *Plan, limits Limits) {
	var all []work
	for _, l := range p.Loads {
		for _, t := range l.Plants {
			if !t.In.Before(limits.From) {
				all = append(all, work{t.In, t.In.Add(seconds(t.HandsIn)), t.ID})
			}
			all = append(all, work{t.Out, t.Out.Add(seconds(t.HandsOut)), t.ID})
		}
	}
	slices.SortFunc(all, func(a, b work) int { return a.from.Compare(b.from) })
	for i, w := range all {
		if i > 0 && w.from.Before(all[i-1].to) {
			f.add("hands on plants %d and %d at %s", all[i-1].id, w.id, w.from)
		}
		if w.from.Before(limits.From) {
			f.add("hands on plant %d at %s, before they are there", w.id, w.from)
		}
		if w.to.After(p.HandsFree) && w.to.YearDay() == p.HandsFree.YearDay() {
			f.add("hands on plant %d until %s, free at %s", w.id, w.to, p.HandsFree)
		}
		if w.to.After(p.AllDry) {
			f.add("plant %d is out at %s, all dry by %s", w.id, w.to, p.AllDry)
		}
	}
	if p.Bound.After(p.HandsFree) {
		f.add("hands free at %s, which no plan could have before %s", p.HandsFree, p.Bound)
	}
}

var companies = []string{"healthy", "newcomer", "suspect", "sick"}

// vessel: one load at a time; fresh water where the fill is new; the company of
// each fill; how many loads it serves, and how late.
func (f *faults) vessel(p *Plan, name string, limits Limits) {
	var loads []*Load
	for i := range p.Loads {
		if p.Loads[i].Vessel == name && len(p.Loads[i].Plants) > 0 {
			loads = append(loads, &p.Loads[i])
		}
	}
	slices.SortStableFunc(loads, func(a, b *Load) int { return a.Start.Compare(b.Start) })
	first, served, worst := time.Time{}, 0, 0
	for i, l := range loads {
		company := slices.Index(companies, l.Plants[0].Company)
		fresh := i == 0 || l.Fill != loads[i-1].Fill
		if i > 0 && l.Start.Before(end(loads[i-1])) {
			f.add("%s: a load at %s before the last one is out", name, l.Start)
		}
		if i > 0 && l.Fill != loads[i-1].Fill && l.Fill != loads[i-1].Fill+1 {
			f.add("%s: fill %d after %d", name, l.Fill, loads[i-1].Fill)
		}
		if fresh {
			first, served, worst = l.Start, 0, company
		}
		f.filled(p, l, loads[:i])
		served++
		switch {
		case company < 0:
			f.add("%s: company %q", name, l.Plants[0].Company)
		case company < worst || served > 1 && company == len(companies)-1 || served > 1 && worst == len(companies)-1:
			f.add("%s: %s in water that %s plants were in", name, companies[company], companies[worst])
		case served > limits.Loads:
			f.add("%s: fill %d serves %d loads", name, l.Fill, served)
		case l.Start.Sub(first) > limits.Used:
			f.add("%s: a load at %s into water in use since %s", name, l.Start, first)
		}
		worst = max(worst, company)
	}
}

// end is when the hands are done with the last plant of a load.
func end(l *Load) time.Time {
	last := l.Plants[len(l.Plants)-1]
	return last.Out.Add(seconds(last.HandsOut))
}

// filled: a load in new water has its filling, between the load before and it.
func (f *faults) filled(p *Plan, l *Load, before []*Load) {
	if l.Fill == 0 || len(before) > 0 && before[len(before)-1].Fill == l.Fill {
		return
	}
	var free time.Time
	if len(before) > 0 {
		free = end(before[len(before)-1])
	}
	if !slices.ContainsFunc(p.Actions, func(a Action) bool {
		return a.Do == "fill" && a.Vessel == l.Vessel && !a.At.Before(free) && !a.Until.After(l.Start)
	}) {
		f.add("%s: no filling between %s and the load at %s", l.Vessel, free, l.Start)
	}
}

// actions: in clock order; each plant goes in and comes out in one that covers
// its time, in its vessel; every vessel used is emptied last.
func (f *faults) actions(p *Plan, limits Limits) {
	if !slices.IsSortedFunc(p.Actions, func(a, b Action) int { return a.At.Compare(b.At) }) {
		f.add("actions are not in clock order")
	}
	type key struct {
		id int
		do string
	}
	covered := map[key]Action{}
	emptied := map[string]time.Time{}
	for _, a := range p.Actions {
		for _, id := range a.IDs {
			if _, twice := covered[key{id, a.Do}]; twice {
				f.add("plant %d: %s twice", id, a.Do)
			}
			covered[key{id, a.Do}] = a
		}
		if a.Do == "empty" {
			emptied[a.Vessel] = a.At
		}
	}
	for _, l := range p.Loads {
		for _, t := range l.Plants {
			if in := covered[key{t.ID, "in"}]; !t.In.Before(limits.From) && !holds(in, l.Vessel, t.In, t.In.Add(seconds(t.HandsIn))) {
				f.add("plant %d: no action puts it in at %s", t.ID, t.In)
			}
			if out := covered[key{t.ID, "out"}]; !holds(out, l.Vessel, t.Out, t.Out.Add(seconds(t.HandsOut))) {
				f.add("plant %d: no action takes it out at %s", t.ID, t.Out)
			}
		}
		if emptied[l.Vessel].Before(end(&l)) {
			f.add("%s is not emptied after its last load", l.Vessel)
		}
	}
}

func holds(a Action, vessel string, from, to time.Time) bool {
	return a.Vessel == vessel && !a.At.After(from) && !a.Until.Before(to)
}
