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

// day is the session of the hours asked for.
func (p *planning) day() *soak.Session {
	s := p.session(p.due, true)
	p.lieInWater(s)
	p.lieOnBenches(s)
	for _, free := range p.ask.hands() {
		s.Hours = append(s.Hours, soak.Hours{From: p.sec(free.From), To: p.sec(free.Until), DryBy: p.sec(p.ask.DryBy)})
	}
	for _, h := range p.ask.Help {
		if from := max(0, p.sec(h.From)); from < p.sec(h.Until) {
			s.Help = append(s.Help, soak.Stretch{From: from, To: p.sec(h.Until)})
		}
	}
	if p.agreed != nil {
		p.lateHours(s)
	}
	unbound(s)
	s.Room = p.roomLimit()
	return s
}

// lateHours gives hands that are late the evening to take out what is in, and the
// morning after for what soaks over night.
func (p *planning) lateHours(s *soak.Session) {
	end := s.Hours[len(s.Hours)-1].To
	evening := max(p.sec(p.ask.DryBy), end+int(lateWork.Seconds()))
	s.Hours = append(s.Hours, soak.Hours{From: end, To: evening, DryBy: p.sec(p.ask.DryBy), OutOnly: true})
	for _, g := range s.Given {
		for k := range g.Items {
			if morning := p.morning(); g.In[k]+g.Items[k].Least > evening && morning.From >= evening {
				s.Hours = append(s.Hours, morning)
				return
			}
		}
	}
}

// lateWork is the least time in which hands that are late are taken to go on. A
// guess.
const lateWork = 2 * time.Hour

// session is what every session has.
func (p *planning) session(items []soak.Item, standing bool) *soak.Session {
	loads := int(p.rules[model.DayLoads])
	if loads > 0 {
		loads += p.ask.MoreLoads
	}
	few := soak.Limits{Loads: loads, Plants: int(p.rules[model.LoadPlants]), Share: p.rules[model.LoadShare] / 100}
	if p.ask.Small {
		few.Plants, few.Share = 1, 0
	}
	return &soak.Session{
		Items: items, Benches: p.drying(), Vessels: p.waters(standing), Taps: int(p.rules[model.Taps]),
		Limits: few,
	}
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
	from := model.Later(model.AtHour(next, p.rules[model.NightOut]), p.ask.Until)
	until := model.Later(model.AtHour(next, p.rules[model.DayUntil]), from.Add(time.Hour))
	return soak.Hours{
		From:    p.sec(from),
		To:      p.sec(until),
		DryBy:   p.sec(model.Later(p.rules.DryBy(next), p.ask.DryBy)),
		OutOnly: true,
	}
}

// nightWork is how long the hands are there to put a load in for the night. A
// guess.
const nightWork = 2 * time.Hour

// evening is the session of what soaks over night: in at the house rule's hour, out
// in the morning.
func (p *planning) evening() *soak.Session {
	from := model.Later(model.AtHour(p.ask.From, p.rules[model.NightIn]), model.Later(p.plan.HandsFree, p.ask.From))
	s := p.session(p.night, false)
	s.Limits.Loads, s.Limits.Plants, s.Limits.Share = 0, 1, 0
	morning := p.morning()
	s.Hours = []soak.Hours{{From: p.sec(from), To: p.sec(from.Add(nightWork)), DryBy: p.sec(p.ask.DryBy)}, morning}
	s.Hours[0].DryBy = min(s.Hours[0].DryBy, morning.DryBy)
	unbound(s)
	s.Room = p.roomLimit()
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

// waters is the vessels with what stands in them; for the evening those that the
// day uses are filled afresh. Tap water that must stand is there in the morning if there was
// time to draw it.
func (p *planning) waters(standing bool) []soak.Vessel {
	all := make([]soak.Vessel, len(p.vessels))
	rest := model.Hours(p.rules[model.WaterRest])
	for i, v := range p.vessels {
		all[i] = soak.Vessel{
			Room: v.Litres, Fill: int(math.Ceil(p.rules.FillMinutes(v) * 60)), Rinse: int(p.rules[model.Rinse] * 60),
			Loads: p.rules.LoadsToFill(v), LastIn: int(p.rules.HoursToFill(v) * 3600), Fed: v.Fed,
			Once: rest > 0 && p.rules[model.FillStands] == 1 && standing,
		}
		if !standing {
			if !slices.ContainsFunc(p.plan.Loads, func(l Load) bool { return l.Vessel == v.Name }) {
				all[i].Water = p.water(v)
			}
			continue
		}
		all[i].Water = p.water(v)
		if all[i].Water == nil && rest > 0 && usesTap(p.book) && !v.Fed && p.book.Water(v.Name) == nil && p.ask.From.Sub(p.now) >= rest {
			all[i].Water, p.ahead[i] = &soak.Water{}, true
		}
	}
	return all
}

// water is the water in a vessel as the planner may use it: nil when it is used up
// or of the wrong kind, but for a vessel with a load in it.
func (p *planning) water(v model.Vessel) *soak.Water {
	w := p.book.Water(v.Name)
	if w == nil {
		return nil
	}
	full := p.fullAt(v, w.At)
	if full.After(p.now) {
		p.plan.Full[v.Name] = full
	}
	water := &soak.Water{Loads: w.Loads, Worst: advice.CompanyFor(w.Worst), Ready: p.sec(full)}
	if w.Loads > 0 {
		water.Since = p.sec(w.FirstIn)
	}
	used := w.Loads > 0 && p.ask.From.Sub(w.FirstIn) > model.Hours(p.rules.HoursToFill(v)) || w.Loads >= p.rules.LoadsToFill(v)
	switch {
	case !used && (w.Fed != nil) == v.Fed:
		return water
	case len(p.book.InVessel(v.Name)) > 0:
		water.Loads = max(water.Loads, p.rules.LoadsToFill(v)) // for no other load
		return water
	}
	return nil
}

// fullAt is when a vessel is full that somebody told to be filled: as told, or
// when the tap has run its time after a step of the agreed plan.
func (p *planning) fullAt(v model.Vessel, told time.Time) time.Time {
	if p.agreed == nil || told.Before(p.agreed.Since) {
		return told
	}
	return told.Add(time.Duration(p.rules.FillMinutes(v) * float64(time.Minute)))
}

// lieInWater gives the session the loads in the water, and the water that is to
// be let out first. A load due before the hours begin is taken to be out by then,
// and dries.
func (p *planning) lieInWater(s *soak.Session) {
	for v, vessel := range p.vessels {
		in := p.book.InVessel(vessel.Name)
		first := len(s.Given)
		for _, l := range in {
			if l.Due.Before(p.ask.From) && p.ask.From.After(nextMinute(p.now)) {
				p.layOut(s, l)
				continue
			}
			g := soak.Given{Vessel: v}
			if len(s.Given)-first == 2 { // more than two heaps nobody tells apart
				g = s.Given[len(s.Given)-1]
				s.Given = s.Given[:len(s.Given)-1]
			}
			p.add(&g, l)
			inOrder(&g)
			s.Given = append(s.Given, g)
		}
		if w := p.book.Water(vessel.Name); len(in) == 0 && s.Vessels[v].Water == nil && w != nil && (!w.Assumed || p.now.Sub(w.At) < assumedStands) {
			s.Given = append(s.Given, soak.Given{Vessel: v, Due: true})
		}
	}
}

// assumedStands is how long water that nobody entered is taken to stand: a grower
// who does not log fillings does not log emptyings either. A guess.
const assumedStands = 18 * time.Hour

// add puts what is still in of a load into a given one. Plants soak as agreed, or
// else at least as long as the load was meant to, each from when the hands came
// to it, and each may wait for those in front of it to come out.
func (p *planning) add(g *soak.Given, l *model.Load) {
	in, wait := l.In, 0
	g.Due = g.Due || !l.Due.After(p.now)
	for _, id := range p.book.StillIn(l) {
		row := p.book.Row(id)
		least := secondsUp(l.Minutes())
		most := max(least+wait, secondsDown(p.longestInWater(row)))
		if a, b, ok := p.agreedSoak(id, l.Vessel); ok {
			least, most = a, b
		}
		it := p.item(row, least, most)
		it.Fed = l.Fed != nil
		g.Items = append(g.Items, it)
		g.In = append(g.In, p.sec(model.Earlier(in, p.now)))
		in = in.Add(time.Duration(it.Hands.In) * time.Second)
		wait += it.Hands.Out + it.Hands.Lay
		p.loads[it.ID] = l.ID
	}
}

// agreedSoak is the soak that the agreed plan gives a plant in a vessel.
func (p *planning) agreedSoak(id model.ID, vessel string) (least, most int, ok bool) {
	if p.agreed == nil {
		return 0, 0, false
	}
	for _, l := range p.agreed.Loads {
		if i := slices.Index(l.Plants, id); i >= 0 && l.Vessel == vessel {
			return l.Least[i], l.Most[i], true
		}
	}
	return 0, 0, false
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
		dry := p.sec(l.Due) + it.DryFor
		p.lay(s, soak.Drying{ID: it.ID, Room: it.BenchRoom, Until: dry, Dry: dry, Hang: it.Hands.Hang})
	}
}

// stillWet is how much longer a plant is taken to lie that should be dry by
// now. A choice.
const stillWet = time.Hour

// lieOnBenches gives the session what is drying already, and what is dry and waits
// to be hung, which takes no room.
func (p *planning) lieOnBenches(s *soak.Session) {
	for _, id := range p.book.IDs() {
		row := p.book.Row(id)
		lies := soak.Drying{ID: int(id), Hang: estimate.HandsFor(row.Plant, p.rules).Hang}
		switch row.State {
		case model.Drying:
			dry := p.keeper.DryOut(row, p.now).High
			lies.Room, lies.Dry, lies.Until = estimate.BenchRoom(row.Plant), p.sec(dry), p.sec(model.Later(dry, p.now.Add(stillWet)))
		case model.Dry:
		default:
			continue
		}
		p.lay(s, lies)
	}
}

// lay puts a plant on the first bench with room left, as nobody says which it
// lies on, and on the last if none has.
func (p *planning) lay(s *soak.Session, dry soak.Drying) {
	taken := make([]float64, len(s.Benches))
	for _, d := range s.Drying {
		if d.Bench < len(taken) {
			taken[d.Bench] += d.Room
		}
	}
	at := 0
	for at+1 < len(taken) && taken[at]+dry.Room > s.Benches[at].Room {
		at++
	}
	dry.Bench = at
	s.Drying = append(s.Drying, dry)
}

// roomCounts are the counts of plants drying at once for which the room is
// solved. A choice: in between, a straight line is near enough.
var roomCounts = []int{0, 50, 150, 400, 1000, 2500}

// roomLimit is how much longer drying takes with many plants in the room, from the
// room solved with the session's own mix of plants coming out one by one. It is solved
// for the counts on either side of one asked for, when that is asked for: a plan that
// only slides asks for one.
func (p *planning) roomLimit() soak.RoomLimit {
	each := float64(p.hands) / float64(max(1, p.met)) / 60 // minutes of hands a plant
	known := map[int]float64{0: 1}
	solved := func(i int) float64 {
		if _, ok := known[i]; !ok {
			known[i] = math.Max(1, p.dry.Slowed(roomCounts[i], each))
		}
		return known[i]
	}
	return func(count int) float64 {
		if count <= 1 {
			return 1
		}
		i := 1
		for i+1 < len(roomCounts) && count > roomCounts[i] {
			i++
		}
		low := solved(i - 1)
		share := float64(count-roomCounts[i-1]) / float64(roomCounts[i]-roomCounts[i-1])
		return low + share*math.Max(0, solved(i)-low) // as in every room: more dry no sooner
	}
}
