package day

import (
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// Nobody says whether a piece of work is written down when it is begun or when it is done.
// Either way it takes its time from when the hands could begin with it: who writes it down
// at once is busy with it still, and who does so in the end is free.

// follow reads what the entries since the day's first plan tell of the hands.
func (p *planning) follow() {
	p.free = model.Later(p.agreed.Since, p.agreed.From)
	last, full, due := p.free, map[string]time.Time{}, map[model.ID]time.Time{}
	for _, e := range p.book.Entries() {
		if e.At.Before(p.agreed.Since) || p.book.Struck(e.Seq) || e.At.After(p.now) || !OfTheDay(e.Fact) {
			continue
		}
		could, takes := p.free, p.work(e)
		began := e.At.Add(-takes)
		switch f := e.Fact.(type) {
		case *model.Fill:
			v, _ := p.book.Vessel(f.Vessel)
			full[f.Vessel] = e.At.Add(time.Duration(p.rules.FillMinutes(v) * float64(time.Minute)))
		case *model.Soak: // is written down with its beginning: its clock runs from then
			could, began = model.Later(could, full[f.Vessel]), e.At
			for _, id := range e.Plants {
				due[id] = f.Due
			}
		case *model.Out:
			for _, id := range e.Plants {
				could = model.Later(could, model.Earlier(due[id], e.At)) // some come out early
			}
		case *model.FoundDry:
			continue
		}
		if takes == 0 {
			continue
		}
		if e.At.Sub(last) >= atOnce { // what was written down before is done by now
			could = model.Earlier(could, e.At)
		}
		p.free, last = model.Later(could, began).Add(takes), e.At
	}
	for _, away := range p.agreed.Pauses {
		if !away.Until.After(p.now) {
			p.free = model.Later(p.free, away.Until)
		}
	}
	if p.lag() > 0 { // hands that are late as a rule have not begun with the next thing either
		p.free = model.Later(p.free, p.now)
	}
}

// atOnce is within what time two things are written down in one go. A choice.
const atOnce = time.Minute

// handsSince is since when the hands are at what they are at now.
func (p *planning) handsSince() time.Time {
	if p.agreed == nil {
		return p.now
	}
	return model.Earlier(p.now, p.free)
}

// atWork has the session know what the hands are at: with what was written down last, or,
// since they were free, with the next thing to do.
func (p *planning) atWork(s *soak.Session) {
	first, at := &s.Hours[0], p.sec(p.free)
	first.From, s.Began = first.From+s.Began, 0
	switch {
	case at > first.From:
		s.Busy = at - first.From
	case first.From == 0: // they are not away
		s.Began, first.From = -at, at
	}
}

// overdue is how long ago, in whole minutes, the next thing for the hands to do would have
// been done if they had begun with it when they could; and when that was.
func (p *planning) overdue(plan *soak.Plan) (by, begun int) {
	now := p.sec(p.now)
	for _, act := range plan.Actions {
		if act.Do.Hands() && act.Do != soak.Hang && act.Hands == 0 {
			if act.Until < now {
				by = (now-act.Until)/60*60 + 60
			}
			return by, act.At
		}
	}
	return 0, now
}
