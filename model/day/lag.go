package day

import (
	"slices"
	"time"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/soak"
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
// call is no rule; 0 where it is not much.
func (p *planning) lag() int {
	var all []time.Duration
	last, full, due := p.agreed.Since, map[string]time.Time{}, map[model.ID]time.Time{}
	for _, e := range p.book.Entries() {
		if e.At.Before(p.agreed.Since) || p.book.Struck(e.Seq) || e.At.After(p.now) {
			continue
		}
		could, began, end := last, e.At, e.At
		switch f := e.Fact.(type) {
		case *model.Fill:
			v, _ := p.book.Vessel(f.Vessel)
			full[f.Vessel] = e.At.Add(time.Duration(p.rules.FillMinutes(v) * float64(time.Minute)))
		case *model.Pull:
			began = e.At.Add(-p.work(e.Plants, soak.Pull))
		case *model.Soak:
			could, end = model.Later(could, full[f.Vessel]), e.At.Add(p.work(e.Plants, soak.PutIn))
			for _, id := range e.Plants {
				due[id] = f.Due
			}
		case *model.Out:
			began = e.At.Add(-p.work(e.Plants, soak.GetOut))
			for _, id := range e.Plants {
				could = model.Later(could, due[id])
			}
		default:
			continue
		}
		all = append(all, min(began.Sub(could), mostLagTold))
		last = model.Later(last, end)
	}
	if len(all) < stepsTell {
		return 0
	}
	slices.Sort(all)
	if median := all[len(all)/2]; median >= lagWorthIt {
		return int(median.Seconds())
	}
	return 0
}

// work is how long the hands need for something with plants.
func (p *planning) work(ids model.IDs, do soak.Do) time.Duration {
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
		}
	}
	return time.Duration(s) * time.Second
}
