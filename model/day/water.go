package day

import (
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/soak"
)

// waters is the vessels with what stands in them; for the evening those that the
// day uses are filled afresh. Tap water that must stand is there in the morning if there was
// time to draw it.
func (p *planning) waters(standing bool) []soak.Vessel {
	all := make([]soak.Vessel, len(p.vessels))
	rest := model.Hours(p.rules[model.WaterRest])
	once := rest > 0 && p.rules[model.FillStands] == 1
	for i, v := range p.vessels {
		all[i] = soak.Vessel{
			Room: v.Litres, Fill: int(math.Ceil(p.rules.FillMinutes(v) * 60)), Rinse: int(p.rules[model.Rinse] * 60), Rest: disinfects,
			Loads: p.rules.LoadsToFill(v), LastIn: int(p.rules.HoursToFill(v) * 3600), Fed: v.Fed,
			Once: once && standing, Filled: once && p.filled(v),
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

// filled reports whether a vessel was filled on the day of the plan, or plants soaked in it.
func (p *planning) filled(v model.Vessel) bool {
	begins := model.AtHour(p.ask.From, 0)
	for _, e := range p.book.Entries() {
		if e.At.Before(begins) {
			continue
		}
		name := ""
		switch f := e.Fact.(type) {
		case *model.Fill:
			name = f.Vessel
		case *model.Soak:
			name = f.Vessel
		}
		if of, ok := p.book.Vessel(name); ok && of.Name == v.Name && !p.book.Struck(e.Seq) {
			return true
		}
	}
	return false
}

// disinfects is how many s a vessel stands when a sick plant was in it: bleach needs ten
// minutes (Iowa State University Extension), and a rinse after.
const disinfects = 12 * 60

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
	from := p.ask.From
	if p.agreed != nil && w.At.Before(p.agreed.Since) { // the plan found it, and has a time to let it out
		from = model.Earlier(from, model.Later(p.agreed.From, p.agreed.Since))
	}
	used := w.Loads > 0 && from.Sub(w.FirstIn) > model.Hours(p.rules.HoursToFill(v)) || w.Loads >= p.rules.LoadsToFill(v) || w.Worst == model.Sick
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
// be let out first. A load that cannot wait for the hours to begin comes out before.
func (p *planning) lieInWater(s *soak.Session) {
	free := -never
	for v, vessel := range p.vessels {
		in := p.book.InVessel(vessel.Name)
		var heaps []heap
		for _, l := range in {
			heaps = p.together(heaps, p.heaps(v, l))
		}
		before := 0
		for _, h := range heaps {
			if p.ask.From.After(nextMinute(p.now)) && h.latestOut() < 0 {
				free = p.takeOutBefore(s, &h.Given, h.load, free)
				before++
				continue
			}
			s.Given, p.past = append(s.Given, h.Given), append(p.past, h.past)
		}
		if before > 0 && before == len(heaps) { // and its water goes at once
			free = p.emptyBefore(s, v, free)
		}
		if w := p.book.Water(vessel.Name); len(in) == 0 && w != nil && (s.Vessels[v].Water == nil || p.nothingMore(vessel, w)) && (!w.Assumed || p.now.Sub(w.At) < assumedStands) {
			s.Vessels[v].Water = nil
			s.Given, p.past = append(s.Given, soak.Given{Vessel: v, Due: true}), append(p.past, true)
		}
	}
}

// nothingMore reports whether the agreed plan has nothing more go into a vessel with water
// that was used, or when the day breaks off with any: it is emptied right away. Water that
// nobody was in may be for another day, and hands that are late have other things to do first.
func (p *planning) nothingMore(v model.Vessel, w *model.Water) bool {
	return p.agreed != nil && (w.Loads > 0 || !p.agreed.Stop.IsZero()) && !slices.ContainsFunc(p.agreed.Loads, func(l model.AgreedLoad) bool {
		return l.Vessel == v.Name && slices.ContainsFunc(l.Plants, p.toCome)
	})
}

// never is before any time of a session.
const never = math.MaxInt / 4

// emptyBefore has the water of a vessel let out before the hours, at a time.
func (p *planning) emptyBefore(s *soak.Session, v, at int) (until int) {
	until = at + s.Vessels[v].Rinse
	p.plan.Steps = append(p.plan.Steps, Step{At: p.at(at), Until: p.at(until), Do: soak.Empty, Vessel: p.vessels[v].Name, Load: len(p.plan.Loads) - 1})
	s.Vessels[v].Water = nil
	return until
}

// assumedStands is how long water that nobody entered is taken to stand: a grower
// who does not log fillings does not log emptyings either. A guess.
const assumedStands = 18 * time.Hour

// longestInWater is the longest soak in minutes that the house rules give a
// plant in the water, by its thirst when it went in.
func (p *planning) longestInWater(row *model.Row) float64 {
	home := *row
	home.State = model.AtHome
	return advice.At(p.keeper, row.In, p.room).Need(&home).To
}
