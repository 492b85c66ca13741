package day

import (
	"slices"
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// day is the session of the hours asked for.
func (p *planning) day() *soak.Session {
	s := p.session(p.due, true)
	p.lieInWater(s)
	p.lieOnBenches(s)
	hands := p.ask.hands()
	if hands[0].From.After(p.ask.From) { // a break goes on, and what is due comes out in it
		hands = slices.Insert(hands, 0, Stretch{p.ask.From, p.ask.From.Add(time.Second)})
	}
	for _, free := range hands {
		s.Hours = append(s.Hours, soak.Hours{From: p.sec(free.From), To: p.sec(free.Until), DryBy: p.sec(p.ask.DryBy)})
	}
	for _, h := range p.ask.Help {
		if from := max(0, p.sec(h.From)); from < p.sec(h.Until) {
			s.Help = append(s.Help, soak.Stretch{From: from, To: p.sec(h.Until)})
		}
	}
	if p.agreed != nil {
		p.lateHours(s)
		p.atWork(s)
	}
	unbound(s)
	s.Room = p.roomLimit()
	return s
}

// lateHours gives hands that are late some minutes for what they still put in, then the
// evening to take out what is in, and the morning after for what soaks over night. A break that
// the hours end in comes first.
func (p *planning) lateHours(s *soak.Session) {
	end := s.Hours[len(s.Hours)-1].To
	for _, b := range p.ask.Pauses {
		if p.sec(b.From) <= end {
			end = max(end, p.sec(b.Until))
		}
	}
	dryBy := p.sec(p.ask.DryBy)
	if stays := p.sec(p.agreed.Until.Add(grace)); stays > end {
		s.Hours = append(s.Hours, soak.Hours{From: end, To: stays, DryBy: dryBy, OutOnly: true})
		end = stays
	}
	evening := max(dryBy, end+int(lateWork.Seconds()))
	s.Hours = append(s.Hours, soak.Hours{From: end, To: evening, DryBy: dryBy, OutOnly: true, Given: true})
	for _, g := range s.Given {
		for k := range g.Items {
			if morning := p.morning(); g.In[k]+g.Items[k].Least > evening && morning.From >= evening {
				s.Hours = append(s.Hours, morning)
				return
			}
		}
	}
}

// grace is how long after the hours that the grower gave a load may come out that is not in
// yet: for a few minutes nobody is left out. A choice: what everything may be late.
const grace = slack

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
