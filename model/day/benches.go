package day

import (
	"math"
	"time"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/soak"
)

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

// drying is the benches.
func (p *planning) drying() []soak.Bench {
	benches := make([]soak.Bench, len(p.benches))
	for i, b := range p.benches {
		benches[i] = soak.Bench{Room: b.Room, Factor: p.dry.Factor(b)}
	}
	return benches
}

// takeOutBefore has a load come out before the hours, when it is due, and gives it a place
// to dry; free is when the hands have done so with the one before.
func (p *planning) takeOutBefore(s *soak.Session, g *soak.Given, l *model.Load, free int) (until int) {
	at := max(p.sec(l.Due), p.sec(p.now), free)
	to := Load{Vessel: l.Vessel, Load: l.ID, Start: p.at(g.In[0]), Out: p.at(at), Fed: l.Fed != nil}
	for k, it := range g.Items {
		t := Plant{ID: model.ID(it.ID), Bulk: it.Bulk, Least: it.Least, Most: it.Most, Hands: it.Hands, Company: it.Company,
			In: p.at(g.In[k]), Out: p.at(at)}
		over := at - g.In[k] - it.Most
		at += it.Hands.Out + it.Hands.Lay
		lies := soak.Drying{ID: it.ID, Room: it.BenchRoom, Until: at + it.DryFor, Dry: at + it.DryFor, Hang: it.Hands.Hang}
		t.Bench, t.Dry = p.bench(p.lay(s, lies)), p.at(lies.Dry)
		to.Plants, to.Company = append(to.Plants, t), max(to.Company, it.Company)
		if over > 0 {
			p.plan.Late = append(p.plan.Late, LeftOut{ID: t.ID, Late: &soak.Late{ID: it.ID, Over: over}})
		}
		p.plan.AllDry = model.Later(p.plan.AllDry, t.Dry)
	}
	to.End = p.at(at)
	p.plan.order = append(p.plan.order, soak.Visit{Do: soak.GetOut, Load: len(p.plan.Loads)})
	p.plan.Steps = append(p.plan.Steps, Step{At: to.Out, Until: to.End, Do: soak.GetOut, Vessel: l.Vessel, Load: len(p.plan.Loads), Plants: to.IDs()})
	p.plan.Loads = append(p.plan.Loads, to)
	p.plan.Visits++
	return at
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
			dry := p.keeper.DryOut(row, p.now).High.Add(p.laid[id])
			lies.Room, lies.Dry, lies.Until = estimate.BenchRoom(row.Plant), p.sec(dry), p.sec(dry)
			lies.From = p.sec(row.Out.Add(p.laid[id]))
			if row.Bench == model.OwnTray {
				lies.Room = 0
			}
			if p.agreed == nil {
				lies.Until = max(lies.Until, p.sec(p.now.Add(stillWet)))
			}
		case model.Dry:
		default:
			continue
		}
		p.lay(s, lies)
	}
}

// lay puts a plant on the first bench with room left, as nobody says which it
// lies on, and on the last if none has; it tells which.
func (p *planning) lay(s *soak.Session, dry soak.Drying) (bench int) {
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
	return at
}

// roomCounts are the counts of plants drying at once for which the room is
// solved. A choice: in between, a straight line is near enough.
var roomCounts = []int{0, 50, 150, 400, 1000, 2500}

// roomLimit is how much longer drying takes with many plants in the room, from the
// room solved with the session's own mix of plants coming out one by one. It is solved
// for the counts on either side of one asked for, when that is asked for: a plan that
// only slides asks for one.
func (p *planning) roomLimit() soak.RoomLimit {
	hands := 0
	for _, s := range p.met {
		hands += s
	}
	each := float64(hands) / float64(max(1, len(p.met))) / 60 // minutes of hands a plant
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
