package day

import (
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/soak"
)

// day is the session of the hours asked for. Where there is no evening after
// them, what soaks over night goes in with the rest and comes out the morning
// after.
func (p *planning) day() *soak.Session {
	s := &soak.Session{Items: p.due, Benches: p.drying(), Vessels: p.waters(true)}
	p.lieInWater(s)
	p.lieOnBenches(s)
	for _, free := range p.ask.hands() {
		s.Hours = append(s.Hours, soak.Hours{From: p.sec(free.From), To: p.sec(free.Until), DryBy: p.sec(p.ask.DryBy)})
	}
	if !p.ask.Night {
		s.Hours = append(s.Hours, p.morning())
	}
	p.keepTo(s, false)
	unbound(s)
	s.Room = roomLimit(p.dry, s)
	return s
}

// unbound takes the limit off every drying place that holds all there is, so
// that the planner need not count its room.
func unbound(s *soak.Session) {
	all := 0.0
	for _, it := range s.Items {
		all += it.BenchRoom
	}
	for _, g := range s.Given {
		for _, it := range g.Items {
			all += it.BenchRoom
		}
	}
	for _, d := range s.Drying {
		all += d.Room
	}
	for i := range s.Benches {
		if s.Benches[i].Room >= all {
			s.Benches[i].Room = math.Inf(1)
		}
	}
}

// morning is the hours of the day after, in which only what soaked over night
// comes out.
func (p *planning) morning() soak.Hours {
	next := p.ask.From.AddDate(0, 0, 1)
	from := model.Later(model.AtHour(next, p.rules[model.DayFrom]), p.ask.Until)
	until := model.Later(model.AtHour(next, p.rules[model.DayUntil]), from.Add(time.Hour))
	return soak.Hours{
		From:    p.sec(from),
		To:      p.sec(until),
		DryBy:   p.sec(model.Later(p.rules.DryBy(next), p.ask.DryBy)),
		OutOnly: true,
	}
}

// evening is the session of what soaks over night: in late enough to be taken
// out in the morning, and not later than the house rule.
func (p *planning) evening() *soak.Session {
	morning := p.morning()
	earliest := p.at(morning.From).Add(-time.Duration(p.rules[model.OvernightTo]) * time.Minute)
	from := model.Later(model.Later(p.ask.Until, p.plan.HandsFree), earliest)
	until := model.Later(model.AtHour(p.ask.From, p.rules[model.NightIn]), from.Add(shortDay))
	s := &soak.Session{Items: p.night, Benches: p.drying(), Vessels: p.waters(false)}
	s.Hours = []soak.Hours{{From: p.sec(from), To: p.sec(until), DryBy: p.sec(p.ask.DryBy)}, morning}
	s.Hours[0].DryBy = min(s.Hours[0].DryBy, morning.DryBy)
	p.keepTo(s, true)
	unbound(s)
	s.Room = roomLimit(p.dry, s)
	return s
}

// drying is the benches.
func (p *planning) drying() []soak.Bench {
	benches := make([]soak.Bench, len(p.benches))
	for i, b := range p.benches {
		benches[i] = soak.Bench{Room: b.Room, Factor: p.dry.Factor(b)}
	}
	return benches
}

// waters is the vessels with what stands in them; for the evening they are
// filled afresh.
func (p *planning) waters(standing bool) []soak.Vessel {
	all := make([]soak.Vessel, len(p.vessels))
	for i, v := range p.vessels {
		all[i] = soak.Vessel{
			Room: v.Litres, Refill: int(p.rules.RefillMinutes(v) * 60), Loads: p.rules.LoadsToFill(v), Fed: v.Fed,
			LastIn: int(p.rules.HoursToFill(v) * 3600),
		}
		if standing {
			all[i].Water = p.standing(v)
		}
	}
	return all
}

// standing is the water in a vessel as the planner may use it: nil when it is
// used up or of the wrong kind, but for a vessel with a load in it.
func (p *planning) standing(v model.Vessel) *soak.Water {
	w := p.book.Water(v.Name)
	if w == nil {
		return nil
	}
	held := len(p.book.InVessel(v.Name)) > 0
	full := p.pouredBy(v.Name, w.At)
	if full.After(p.now) {
		p.plan.Full[v.Name] = full
	}
	water := &soak.Water{Loads: w.Loads, Worst: soak.Company(w.Worst), Ready: p.sec(full)}
	if w.Loads > 0 {
		water.Since = p.sec(w.FirstIn)
	}
	used := w.Loads > 0 && p.ask.From.Sub(w.FirstIn) > model.Hours(p.rules.HoursToFill(v))
	switch {
	case !used && (w.Fed != nil) == v.Fed:
		return water
	case held:
		water.Loads = max(water.Loads, p.rules.LoadsToFill(v)) // for no other load
		return water
	}
	return nil
}

// lieInWater gives the session the loads in the water. A load due before the
// hours begin is taken to be out by then, and dries.
func (p *planning) lieInWater(s *soak.Session) {
	for v, vessel := range p.vessels {
		g := soak.Given{Vessel: v}
		for _, l := range p.book.InVessel(vessel.Name) {
			if l.Due.Before(p.ask.From) && p.ask.From.After(nextMinute(p.now)) {
				p.layOut(s, l)
				continue
			}
			p.add(&g, l)
		}
		if len(g.Items) > 0 {
			inOrder(&g)
			s.Given = append(s.Given, g)
		}
	}
}

// add puts what is still in of a load into a given one. Plants soak as the old
// plan has it, or else at least as long as the load was meant to, each from when
// the hands came to it, and each may wait for those in front of it to come out.
func (p *planning) add(g *soak.Given, l *model.Load) {
	in, wait := l.In, 0.0
	for _, id := range p.book.StillIn(l) {
		row := p.book.Row(id)
		least, most := l.Minutes(), p.longestInWater(row)
		if p.meant(id, l.Vessel) != nil {
			_, at, _ := p.old.Placed(id)
			least, most = float64(at.From)/60, float64(at.To)/60
		}
		it := p.item(row, least, max(least+wait, most))
		it.Fed = l.Fed != nil
		g.Items = append(g.Items, it)
		g.In = append(g.In, p.sec(model.Earlier(in, p.now)))
		in = in.Add(time.Duration(it.HandsIn) * time.Second)
		wait += float64(it.HandsOut) / 60
		p.loads[it.ID] = l.ID
	}
}

// longestInWater is the longest soak in minutes that the house rules give a
// plant in the water, by its thirst when it went in.
func (p *planning) longestInWater(row *model.Row) float64 {
	home := *row
	home.State = model.AtHome
	return advice.At(p.keeper, row.In, p.room).Need(&home).To
}

// inOrder sorts a given load by when its plants went in.
func inOrder(g *soak.Given) {
	order := make([]int, len(g.In))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return g.In[a] - g.In[b] })
	items, in := make([]soak.Item, len(order)), make([]int, len(order))
	for k, i := range order {
		items[k], in[k] = g.Items[i], g.In[i]
	}
	g.Items, g.In = items, in
}

// layOut gives a load that comes out before the hours a place to dry.
func (p *planning) layOut(s *soak.Session, l *model.Load) {
	for _, id := range p.book.StillIn(l) {
		it := p.item(p.book.Row(id), 0, 0)
		p.lay(s, it.BenchRoom, p.sec(l.Due)+it.DryFor)
	}
}

// stillWet is how much longer a plant is taken to lie that should be dry by
// now. A choice.
const stillWet = time.Hour

// lieOnBenches gives the session what is drying already.
func (p *planning) lieOnBenches(s *soak.Session) {
	for _, id := range p.book.IDs() {
		row := p.book.Row(id)
		if row.State != model.Drying {
			continue
		}
		dry := model.Later(p.keeper.DryOut(row, p.now).High, p.now.Add(stillWet))
		p.lay(s, estimate.BenchRoom(row.Plant), p.sec(dry))
	}
}

// lay puts a plant on the first bench with room left, as nobody says which it
// lies on, and on the last if none has.
func (p *planning) lay(s *soak.Session, room float64, until int) {
	taken := make([]float64, len(s.Benches))
	for _, d := range s.Drying {
		if d.Bench < len(taken) {
			taken[d.Bench] += d.Room
		}
	}
	at := 0
	for at+1 < len(taken) && taken[at]+room > s.Benches[at].Room {
		at++
	}
	s.Drying = append(s.Drying, soak.Drying{Bench: at, Room: room, Until: until})
}

// roomCounts are the counts of plants drying at once for which the room is
// solved. A choice: in between, a straight line is near enough.
var roomCounts = []int{0, 50, 150, 400, 1000, 2500}

// roomLimit is how much longer drying takes with many plants in the room, from the
// room solved with the session's own mix of plants coming out one by one.
func roomLimit(d *estimate.DryTimes, s *soak.Session) soak.RoomLimit {
	most, hands := len(s.Drying), 0
	for _, it := range s.Items {
		hands += it.HandsIn + it.HandsOut
	}
	for _, g := range s.Given {
		most += len(g.Items)
	}
	most += len(s.Items)
	each := 0.0 // minutes of hands a plant
	if n := len(s.Items); n > 0 {
		each = float64(hands) / float64(n) / 60
	}
	factors := []float64{1}
	for _, n := range roomCounts[1:] {
		factors = append(factors, math.Max(factors[len(factors)-1], d.Slowed(n, each)))
		if n >= most {
			break
		}
	}
	return func(count int) float64 { return along(roomCounts[:len(factors)], factors, count) }
}

// along draws straight lines through points, and the last one on.
func along(at []int, value []float64, x int) float64 {
	i := 1
	for i+1 < len(at) && x > at[i] {
		i++
	}
	if i >= len(at) {
		return value[0]
	}
	share := float64(x-at[i-1]) / float64(at[i]-at[i-1])
	return value[i-1] + share*(value[i]-value[i-1])
}
