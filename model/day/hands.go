package day

import (
	"cmp"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/soak"
)

// Nobody says whether a piece of work is written down when it is begun or when it is done.
// Either way it takes its time from when the hands could begin with it: who writes it down
// at once is busy with it still, and who does so in the end is free.

// A few steps tell how late the hands are as a rule, and less than a few minutes is what
// a plan has slack for. Guesses.
const (
	stepsTell   = 3
	lagWorthIt  = slack / 2
	mostLagTold = time.Hour
)

// atOnce is within what time two things are written down in one go. A choice.
const atOnce = time.Minute

// piece is a piece of the hands' work that is written down.
type piece struct {
	at      time.Time
	takes   time.Duration
	begins  bool          // it is written down with its beginning: a soak's clock runs from then
	ready   time.Time     // when the vessel was full, or the load due
	planned time.Time     // when the plan that the grower said yes to has it begin; the zero time where it has not
	over    time.Duration // of work that the plan has before it, and that was passed over
	out     model.IDs     // that come out of the water by it, one after another
	took    time.Duration // as was said of it; 0 for not
}

// began is when a piece was begun, if work is written down when it is done, or else when it
// is begun.
func (x piece) began(whenDone bool) time.Time {
	switch {
	case x.begins:
		return x.at
	case x.took > 0:
		return x.at.Add(-x.took)
	case whenDone:
		return x.at.Add(-x.takes)
	}
	return x.at
}

// pieces is what is written down of the hands' work since the day's first plan.
func (p *planning) pieces() (all []piece) {
	var plan *model.Agreed
	next := 0 // in the order of the plan
	full, due := map[string]time.Time{}, map[model.ID]time.Time{}
	for _, e := range p.book.Entries() {
		if e.At.Before(p.agreed.Since) || p.book.Struck(e.Seq) || e.At.After(p.now) {
			continue
		}
		x, do := piece{at: e.At}, soak.Hang
		switch f := e.Fact.(type) {
		case *model.Agreed:
			plan, next = f, 0
			continue
		case *model.Fill:
			v, _ := p.book.Vessel(f.Vessel)
			full[f.Vessel] = e.At.Add(time.Duration(p.rules.FillMinutes(v) * float64(time.Minute)))
			continue
		case *model.Pull:
			do = soak.Pull
		case *model.Soak:
			do, x.begins, x.ready = soak.PutIn, true, full[f.Vessel]
			for _, id := range e.Plants {
				due[id] = f.Due
			}
		case *model.Out:
			do, x.out, x.took = soak.GetOut, e.Plants, time.Duration(f.Took)*time.Second
			for _, id := range e.Plants {
				x.ready = model.Later(x.ready, due[id])
			}
		case *model.Drain:
			do = soak.Empty
		case *model.Hung:
		default:
			continue
		}
		if x.takes = cmp.Or(x.took, p.takes(do, e.Plants)); x.takes == 0 {
			continue
		}
		if n := place(plan, do, e.Plants); n >= 0 {
			x.planned = plan.Order[n].At
			for ; next <= n; next++ {
				if w := plan.Order[next]; next < n {
					x.over += p.takes(doOf(w.Do), plan.Loads[w.Load-1].Plants)
				}
			}
		}
		all = append(all, x)
	}
	return all
}

// place is where an agreed plan has a piece of work with some plants; -1 where it has not.
func place(plan *model.Agreed, do soak.Do, ids model.IDs) int {
	if plan == nil || len(ids) == 0 {
		return -1
	}
	return slices.IndexFunc(plan.Order, func(w model.AgreedWork) bool {
		return w.Do == do.String() && slices.Contains(plan.Loads[w.Load-1].Plants, ids[0])
	})
}

// takes is how long the hands need for a piece of work with some plants.
func (p *planning) takes(do soak.Do, ids model.IDs) time.Duration {
	if do == soak.Empty {
		return time.Duration(p.rules[model.Rinse] * float64(time.Minute))
	}
	s := 0
	for _, id := range ids {
		row := p.book.Row(id)
		if row == nil {
			continue
		}
		switch h := estimate.HandsFor(row.Plant, p.rules); do {
		case soak.Pull:
			s += h.Pull
		case soak.PutIn:
			s += h.In
		case soak.GetOut:
			s += h.Out + h.Lay
		case soak.Hang:
			s += h.Hang
		}
	}
	return time.Duration(s) * time.Second
}

// follow reads what the entries since the day's first plan tell of the hands: since when
// they are free, and how late they begin as a rule.
func (p *planning) follow() {
	all, from := p.pieces(), model.Later(p.agreed.Since, p.agreed.From)
	p.free = from
	if len(all) > 0 { // some of it may have been before the hours
		p.free = model.Earlier(from, all[0].at)
	}
	last, laidIn := p.free, p.free
	for _, x := range all {
		could := model.Later(p.free, model.Earlier(x.ready, x.at)) // some come out early
		if x.at.Sub(last) >= atOnce {                              // what was written down before is done by now
			could = model.Earlier(could, x.at)
		}
		if x.begins { // and so it is when a clock begins, but for others that were laid in
			could = model.Earlier(could, model.Later(x.at, laidIn))
		}
		p.free, last = model.Later(could, x.began(true)).Add(x.takes), x.at
		if x.begins {
			laidIn = p.free
		}
	}
	for _, away := range p.agreed.Pauses {
		if !away.From.After(p.now) {
			p.free = model.Later(p.free, model.Earlier(away.Until, p.now))
		}
	}
	p.plan.freed = p.free
	var whenDone bool
	if p.late, whenDone = late(all, from); p.late > 0 { // such hands have not begun with the next thing either
		p.idle = max(0, p.late-int(max(0, p.now.Sub(p.free)).Seconds()))
		p.free = model.Later(p.free, p.now)
	}
	p.layOneByOne(all, whenDone)
}

// layOneByOne has each plant that came out begin to dry when the hands laid it down: the
// entry says one time of them all, and the first of a large load lies an hour sooner than
// the last.
func (p *planning) layOneByOne(all []piece, whenDone bool) {
	p.laid = map[model.ID]time.Duration{}
	for _, x := range all {
		if x.took > 0 { // the entry says it
			continue
		}
		laid := x.began(whenDone).Sub(x.at)
		for _, id := range x.out {
			laid += p.takes(soak.GetOut, model.IDs{id})
			p.laid[id] = laid
		}
	}
}

// late is by how many seconds the hands begin later than they could, and than the plan has
// them, as a rule: the median, so that a long telephone call is no rule. It is 0 where that is
// not much, or may be what they waited for work that they passed over. Of the two ways to
// write work down it is what has no piece begin before it could, and where both are possible,
// the one by which the hands are less late; it is told too.
func late(all []piece, from time.Time) (s int, whenDone bool) {
	lag, own, can := usually(all, from, false)
	if done, ownOf, canBe := usually(all, from, true); canBe && (ownOf < own || !can) {
		lag, whenDone = done, true
	}
	return int(lag.Seconds()), whenDone
}

// usually is by how much the hands begin late as a rule, if they write work down when it is
// done, or else when it is begun, by how much of that they waited for nothing that they
// passed over, and whether it can be.
func usually(all []piece, last time.Time, whenDone bool) (lag, own time.Duration, canBe bool) {
	var lags, owns []time.Duration
	canBe = true
	for _, x := range all {
		began := x.began(whenDone)
		if !x.planned.IsZero() {
			could := model.Later(last, x.ready)
			canBe = canBe && began.Sub(could) > -time.Minute
			lag := min(began.Sub(model.Later(could, x.planned)), mostLagTold)
			lags, owns = append(lags, lag), append(owns, lag-x.over)
		}
		last = model.Later(last, began.Add(x.takes))
	}
	if len(lags) == 0 {
		return 0, 0, canBe
	}
	slices.Sort(lags)
	slices.Sort(owns)
	if own = owns[(len(owns)-1)/2]; len(lags) >= stepsTell && own >= lagWorthIt {
		lag = lags[len(lags)/2]
	}
	return lag, own, canBe
}

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
	from := first.From + s.Began
	if now := p.sec(p.now); from == 0 && now > -60 { // they are not away: a tap can be opened this second
		from = now
	}
	first.From, s.Began, s.Busy = from, 0, max(0, at-from)
	if from <= 0 && at < from {
		first.From, s.Began = at, from-at
	}
}

// overdue is how long ago, in whole minutes, the next thing for the hands to do would have
// been done if they had begun with it when they could; when that was, and when they would have
// been done.
func (p *planning) overdue(plan *soak.Plan) (by, begun, over int) {
	now := p.sec(p.now)
	for _, act := range plan.Actions {
		if act.Do.Hands() && act.Do != soak.Hang && act.Hands == 0 {
			if by = now - act.Until; by > int(slack.Seconds()) {
				by += longest(plan, act) // they cannot be at its last plant for as long as that
			}
			if by > 0 {
				by = by/60*60 + 60
			}
			return max(0, by), act.At, act.Until
		}
	}
	return 0, now, now
}

// longest is the longest that the hands are at one plant of what they do with a load.
func longest(plan *soak.Plan, act soak.Action) (s int) {
	if act.Load < 0 {
		return 0
	}
	for _, x := range plan.Loads[act.Load].Plants {
		switch act.Do {
		case soak.Pull:
			s = max(s, x.Hands.Pull)
		case soak.PutIn:
			s = max(s, x.Hands.In)
		case soak.GetOut:
			s = max(s, x.Hands.Out+x.Hands.Lay)
		}
	}
	return s
}
