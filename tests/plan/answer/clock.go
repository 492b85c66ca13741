package answer

import (
	"slices"
	"time"
)

func seconds(n int) time.Duration { return time.Duration(n) * time.Second }

// hands: what is no filling holds a pair of hands, and no pair is in two places;
// none before they are there, none of the day after they are said to be free.
func (f *faults) hands(p *Plan, limits Limits) {
	visits := 0
	for i, a := range p.Actions {
		switch a.Do {
		case "in", "out":
			visits++
		case "fill":
			continue
		case "pull", "empty", "hang":
		default:
			f.add("%q at %s", a.Do, a.At)
		}
		for _, b := range p.Actions[:i] {
			if b.Do != "fill" && b.Hands == a.Hands && b.At.Before(a.Until) && a.At.Before(b.Until) {
				f.add("hands %d: %s and %s at %s", a.Hands, b.Do, a.Do, a.At)
			}
		}
		atIt := i == 0 && a.Until.After(limits.From) // by now, and may have begun before
		if a.At.Before(limits.From) && !atIt || a.Hands < 1 {
			f.add("hands %d: %s at %s, before they are there", a.Hands, a.Do, a.At)
		}
		if a.Until.After(p.HandsFree) && a.Until.YearDay() == p.HandsFree.YearDay() {
			f.add("%s until %s, hands free at %s", a.Do, a.Until, p.HandsFree)
		}
		if a.Until.After(p.AllDry) && a.Do == "out" {
			f.add("out until %s, all dry by %s", a.Until, p.AllDry)
		}
	}
	if visits != p.Visits {
		f.add("%d visits, the plan says %d", visits, p.Visits)
	}
	if p.Bound.After(p.DayFree) {
		f.add("the day is done at %s, which no plan could have before %s", p.DayFree, p.Bound)
	}
}

// tap: one, with its litres a minute.
func (f *faults) tap(p *Plan, limits Limits) {
	for i, a := range p.Actions {
		if a.Do != "fill" {
			continue
		}
		if need := time.Duration(a.Litres / limits.Flow * float64(time.Minute)); a.Litres <= 0 ||
			a.Until.Sub(a.At) < need-time.Second {
			f.add("%s: %g litres in %s", a.Vessel, a.Litres, a.Until.Sub(a.At))
		}
		for _, b := range p.Actions[:i] {
			if b.Do == "fill" && b.At.Before(a.Until) && a.At.Before(b.Until) {
				f.add("the tap runs into %s and %s at %s", b.Vessel, a.Vessel, a.At)
			}
		}
	}
}

var companies = []string{"healthy", "newcomer", "suspect", "sick"}

// vessel: at most two heaps at a time, of one company; fresh water where the fill
// is new; the company of each fill; how many loads it serves, and how late.
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
		together := 0
		for _, m := range loads[:i] {
			if !l.Start.Before(end(m)) {
				continue
			}
			together++
			if m.Heap == l.Heap || m.Plants[0].Company != l.Plants[0].Company || m.Fill != l.Fill {
				f.add("%s: a load at %s before the last one is out", name, l.Start)
			}
		}
		if together > 1 {
			f.add("%s: %d heaps at %s", name, together+1, l.Start)
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
	for _, m := range before {
		if end(m).After(free) {
			free = end(m)
		}
	}
	if !slices.ContainsFunc(p.Actions, func(a Action) bool {
		return a.Do == "fill" && a.Vessel == l.Vessel && !a.At.Before(free) && !a.Until.After(l.Start)
	}) {
		f.add("%s: no filling between %s and the load at %s", l.Vessel, free, l.Start)
	}
}

// actions: in clock order; every load is pulled before it goes in, and goes in and
// comes out in one visit that covers its plants' times; every vessel used is
// emptied last.
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
			in, isNew := covered[key{t.ID, "in"}], !t.In.Before(limits.From)
			if isNew && !holds(in, l.Vessel, t.In, t.In.Add(seconds(t.HandsIn))) {
				f.add("plant %d: no action puts it in at %s", t.ID, t.In)
			}
			if pull, ok := covered[key{t.ID, "pull"}]; isNew && t.Pull > 0 && (!ok || pull.Until.After(in.At)) {
				f.add("plant %d is pulled until %s, in from %s", t.ID, pull.Until, in.At)
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
