package day

import (
	"slices"
	"time"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/soak"
)

// handled is a piece of the day's work as an entry tells of it. Nobody says whether it is
// written down when it is begun or when it is done.
type handled struct {
	model.Fact
	at    time.Time     // as written down
	takes time.Duration // of the hands; 0 where they have nothing to do with it
	ready time.Time     // when it could be begun, if it were not for the hands; of a fill, when the tap is shut
}

// handled reads what the entries since the day's first plan tell of the hands.
func (p *planning) handled() (all []handled) {
	full, due := map[string]time.Time{}, map[model.ID]time.Time{}
	for _, e := range p.book.Entries() {
		if e.At.Before(p.agreed.Since) || p.book.Struck(e.Seq) || e.At.After(p.now) || !OfTheDay(e.Fact) {
			continue
		}
		w := handled{Fact: e.Fact, at: e.At, takes: p.work(e)}
		switch f := e.Fact.(type) {
		case *model.Fill:
			v, _ := p.book.Vessel(f.Vessel)
			w.ready = e.At.Add(time.Duration(p.rules.FillMinutes(v) * float64(time.Minute)))
			full[f.Vessel] = w.ready
		case *model.Soak:
			w.ready = full[f.Vessel]
			for _, id := range e.Plants {
				due[id] = f.Due
			}
		case *model.Out:
			for _, id := range e.Plants {
				w.ready = model.Later(w.ready, due[id])
			}
		}
		all = append(all, w)
	}
	return all
}

// began is when it was begun, if work is written down when it is done, or else when it is
// begun. What goes in is written down with its beginning: its clock runs from then.
func (w handled) began(whenDone bool) time.Time {
	if _, in := w.Fact.(*model.Soak); in || !whenDone {
		return w.at
	}
	return w.at.Add(-w.takes)
}

// work is how long the hands need for what an entry tells of; 0 for what takes them no time.
func (p *planning) work(e model.Entry) time.Duration {
	if _, empties := e.Fact.(*model.Drain); empties {
		return time.Duration(p.rules[model.Rinse] * float64(time.Minute))
	}
	s := 0
	for _, id := range e.Plants {
		row := p.book.Row(id)
		if row == nil {
			continue
		}
		switch h := estimate.HandsFor(row.Plant, p.rules); e.Fact.(type) {
		case *model.Pull:
			s += h.Pull
		case *model.Soak:
			s += h.In
		case *model.Out:
			s += h.Out + h.Lay
		case *model.Hung:
			s += h.Hang
		}
	}
	return time.Duration(s) * time.Second
}

// follow tells until when the hands are at what was written down last, and how late they are
// as a rule. A piece of work takes its time from when the hands could begin with it: who
// writes it down at once is busy with it still, and who does so in the end is free.
func (p *planning) follow() {
	p.free = model.Later(p.agreed.Since, p.agreed.From)
	last, all := p.free, p.handled()
	for _, w := range all {
		if w.takes == 0 {
			continue
		}
		could := model.Later(p.free, model.Earlier(w.ready, w.at)) // some is done early
		if w.at.Sub(last) >= atOnce {                              // what was written down before is done by now
			could = model.Earlier(could, w.at)
		}
		p.free, last = model.Later(could, w.began(true)).Add(w.takes), w.at
	}
	for _, away := range p.agreed.Pauses {
		if !away.Until.After(p.now) {
			p.free = model.Later(p.free, away.Until)
		}
	}
	if p.lag = p.lagOf(all); p.lag > 0 { // hands that are late as a rule have not begun with the next thing either
		p.free = model.Later(p.free, p.now)
	}
}

// A few steps tell how late the hands are as a rule, and less than a few minutes is what
// a plan has slack for. Guesses.
const (
	stepsTell   = 3
	lagWorthIt  = slack / 2
	mostLagTold = time.Hour
)

// lagOf is how many seconds after they could the hands begin a step of the day, as a rule:
// the median of the steps done since the first plan was agreed, so that one long telephone
// call is no rule; 0 where it is not much. Of what is written down when it is begun, and what
// when it is done, it is what has no step begin before it could, and where both are
// possible, the one by which the hands are less late.
func (p *planning) lagOf(all []handled) int {
	began, sure := p.usualLag(all, false)
	if done, sureOf := p.usualLag(all, true); sureOf == sure && done < began || sureOf && !sure {
		began = done
	}
	if began < lagWorthIt {
		return 0
	}
	return int(began.Seconds())
}

// usualLag is how long after they could the hands begin a step as a rule, if they write it
// down when it is done, or else when it is begun, and whether that can be.
func (p *planning) usualLag(all []handled, whenDone bool) (lag time.Duration, canBe bool) {
	var (
		lags   []time.Duration
		poured time.Time // the tap is shut
		begun  bool
	)
	last := model.Later(p.agreed.Since, p.agreed.From)
	for _, w := range all {
		began := w.began(whenDone)
		switch w.Fact.(type) {
		case *model.Fill: // later on the plan has it wait until the water is wanted
			if !begun {
				lags = append(lags, min(w.at.Sub(model.Later(last, poured)), mostLagTold))
			}
			poured = w.ready
			continue
		case *model.FoundDry:
			continue
		case *model.Pull, *model.Soak, *model.Out:
			lags = append(lags, min(began.Sub(model.Later(last, w.ready)), mostLagTold))
		}
		last, begun = model.Later(last, began.Add(w.takes)), true
	}
	if len(lags) < stepsTell {
		return 0, true
	}
	slices.Sort(lags)
	return lags[len(lags)/2], lags[0] > -time.Minute
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
