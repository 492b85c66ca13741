package day

import (
	"slices"
	"time"

	"tubside/model"
	"tubside/model/estimate"
)

// A few steps tell how late the hands are as a rule, and less than a few minutes is what
// a plan has slack for. Guesses.
const (
	stepsTell   = 3
	lagWorthIt  = slack / 2
	mostLagTold = time.Hour
)

// lag is how many seconds after they could the hands begin a step of the day, as a rule:
// the median of the steps done since the first plan was agreed, so that one long telephone
// call is no rule; 0 where it is not much. Nobody says whether a step is written down when it
// is begun or when it is done: of the two it is what has no step begin before it could, and
// where both are possible, the one by which the hands are less late.
func (p *planning) lag() int {
	began, sure := p.usualLag(false)
	if done, sureOf := p.usualLag(true); sureOf == sure && done < began || sureOf && !sure {
		began = done
	}
	if began < lagWorthIt {
		return 0
	}
	return int(began.Seconds())
}

// usualLag is how long after they could the hands begin a step as a rule, if they write it
// down when it is done, or else when it is begun, and whether that can be.
func (p *planning) usualLag(whenDone bool) (lag time.Duration, canBe bool) {
	var (
		all    []time.Duration
		poured time.Time // the tap is shut
		begun  bool
	)
	last, full, due := model.Later(p.agreed.Since, p.agreed.From), map[string]time.Time{}, map[model.ID]time.Time{}
	for _, e := range p.book.Entries() {
		if e.At.Before(p.agreed.Since) || p.book.Struck(e.Seq) || e.At.After(p.now) {
			continue
		}
		could, takes, counts := last, p.work(e), true
		began, end := e.At, e.At.Add(takes)
		if whenDone {
			began, end = e.At.Add(-takes), e.At
		}
		switch f := e.Fact.(type) {
		case *model.Fill: // later on the plan has it wait until the water is wanted
			if !begun {
				all = append(all, min(e.At.Sub(model.Later(last, poured)), mostLagTold))
			}
			v, _ := p.book.Vessel(f.Vessel)
			poured = e.At.Add(time.Duration(p.rules.FillMinutes(v) * float64(time.Minute)))
			full[f.Vessel] = poured
			continue
		case *model.Pull:
		case *model.Soak: // is written down when it is begun: its clock runs from then
			could, began, end = model.Later(could, full[f.Vessel]), e.At, e.At.Add(takes)
			for _, id := range e.Plants {
				due[id] = f.Due
			}
		case *model.Out:
			for _, id := range e.Plants {
				could = model.Later(could, due[id])
			}
		case *model.Drain, *model.Hung: // and so with these
			counts = false
		default:
			continue
		}
		if counts {
			all = append(all, min(began.Sub(could), mostLagTold))
		}
		last, begun = model.Later(last, end), true
	}
	if len(all) < stepsTell {
		return 0, true
	}
	slices.Sort(all)
	return all[len(all)/2], all[0] > -time.Minute
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
