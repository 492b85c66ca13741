package day

import (
	"cmp"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// finish puts the parts of the plan into one order.
func (p *planning) finish() *Plan {
	plan := p.plan
	p.standing()
	order := make([]int, len(plan.Loads))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		l, m := &plan.Loads[a], &plan.Loads[b]
		return cmp.Or(cmp.Compare(p.number(l), p.number(m)), l.Start.Compare(m.Start))
	})
	loads, place := make([]Load, len(order)), make([]int, len(order))
	for to, from := range order {
		loads[to], place[from] = plan.Loads[from], to
	}
	plan.Loads = loads
	if p.agreed != nil {
		plan.numberAsAgreed(&p.agreed.Agreed)
	}
	for i := range plan.Steps {
		if s := &plan.Steps[i]; s.Load >= 0 {
			s.Load = place[s.Load]
		}
	}
	for i := range plan.order {
		plan.order[i].Load = place[plan.order[i].Load]
	}
	slices.SortStableFunc(plan.Steps, func(a, b Step) int { return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.Do, b.Do)) })
	p.fromNow()
	p.tapsFirst()
	slices.SortStableFunc(plan.Left, func(a, b LeftOut) int { return int(a.ID) - int(b.ID) })
	for _, s := range plan.Steps { // also when the hands stay on after their hours
		if s.Do.Hands() && !s.Done && s.At.Before(model.AtHour(p.ask.From.AddDate(0, 0, 1), 0)) {
			plan.HandsFree = model.Later(plan.HandsFree, s.Until)
			if s.Load < 0 || !plan.Loads[s.Load].Night {
				plan.DayFree = model.Later(plan.DayFree, s.Until)
			}
		}
	}
	plan.Standing = p.forgotten()
	plan.Unfed, plan.Assumed, plan.Ahead = p.unfed, p.room.ReadAt.IsZero(), slices.Contains(p.ahead, true)
	return plan
}

// number is the place of a load in the agreed plan, which it keeps all day; what is not in
// it comes after those that are.
func (p *planning) number(l *Load) int {
	if p.agreed == nil {
		return 0
	}
	for n, a := range p.agreed.Loads {
		if a.Vessel == l.Vessel && slices.Contains(a.Plants, l.Plants[0].ID) {
			return n
		}
	}
	return len(p.agreed.Loads)
}

// fromNow has nothing that waits begin in the past. What the hands are at by now keeps its
// beginning, and its length: where they should be done, they began later.
func (p *planning) fromNow() {
	p.plan.AtWork, p.plan.early = p.free, p.ask.From.After(nextMinute(p.now))
	for n := range p.plan.Steps {
		s := &p.plan.Steps[n]
		if p.agreed == nil || s.Done {
			continue
		}
		at, until := model.Later(s.At, p.now), model.Later(s.Until, p.now)
		if s.Begun(p.now) {
			at = s.At.Add(until.Sub(s.Until))
		}
		if s.Do == soak.GetOut {
			p.plan.Loads[s.Load].outFrom(at)
		}
		s.At, s.Until = at, until
	}
}

// outFrom has a load come out no earlier than at a time.
func (l *Load) outFrom(at time.Time) {
	l.Out, l.End = model.Later(l.Out, at), model.Later(l.End, at)
	for k := range l.Plants {
		l.Plants[k].Out = model.Later(l.Plants[k].Out, at)
	}
}

// forgotten is the vessels with water in them and no plants, that no step to come is about.
func (p *planning) forgotten() (names []string) {
	for _, v := range p.vessels {
		about := func(s Step) bool { return s.Vessel == v.Name && !s.Done }
		w := p.book.Water(v.Name)
		if w != nil && !(w.Assumed && p.now.Sub(w.At) >= assumedStands) && len(p.book.InVessel(v.Name)) == 0 && !slices.ContainsFunc(p.plan.Steps, about) {
			names = append(names, v.Name)
		}
	}
	return names
}

// fed reports whether a plant was to soak in fed water.
func (p *planning) fed(id int) bool {
	is := func(it soak.Item) bool { return it.ID == id && it.Fed }
	return slices.ContainsFunc(p.due, is) || slices.ContainsFunc(p.night, is)
}

// standing adds the filling, the evening before, of vessels whose water has to
// stand before the day's first plants go in: one tap after the other, so that the
// last is full in time, or as soon as can be.
func (p *planning) standing() {
	first := len(p.plan.Steps)
	until := p.ask.From.Add(-model.Hours(p.rules[model.WaterRest]))
	for v := len(p.vessels) - 1; v >= 0; v-- {
		vessel := p.vessels[v]
		load := slices.IndexFunc(p.plan.Loads, func(l Load) bool { return l.Vessel == vessel.Name && l.Fill == 0 && l.Load == 0 })
		if !p.ahead[v] || load < 0 {
			continue
		}
		from := until.Add(-time.Duration(p.rules.FillMinutes(vessel) * float64(time.Minute)))
		p.plan.Steps = append(p.plan.Steps, Step{At: from, Until: until, Do: soak.Fill, Vessel: vessel.Name, Load: load, Litres: vessel.Litres})
		p.plan.Fills++
		until = from
	}
	if late := p.now.Sub(until); late > 0 {
		for i := first; i < len(p.plan.Steps); i++ {
			s := &p.plan.Steps[i]
			s.At, s.Until = s.At.Add(late), s.Until.Add(late)
		}
	}
}
