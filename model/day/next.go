package day

import (
	"context"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// Begun reports whether the hands are at a step by a time: it could have been begun before.
func (s *Step) Begun(now time.Time) bool { return !s.Done && s.Do.Hands() && s.At.Before(now) }

// Could is when the hands could have begun with a step of a plan that is followed: they were
// done with what was written down last, the plan had it begin, and its vessel was full.
func (p *Plan) Could(b *model.Book, s *Step) time.Time {
	at := p.freed
	if a := b.AgreedPlan(p.Made); a != nil {
		if n := place(&a.Agreed, s.Do, s.Plants); n >= 0 {
			at = model.Later(at, a.Order[n].At)
		}
	}
	if w := b.Water(s.Vessel); w != nil && s.Do == soak.PutIn {
		v, _ := b.Vessel(s.Vessel)
		at = model.Later(at, w.At.Add(time.Duration(b.Rules().FillMinutes(v)*float64(time.Minute))))
	}
	return at.In(b.Zone())
}

// Same reports whether two steps are the same thing to do, at whatever time.
func (s *Step) Same(as Step) bool {
	return s.Do == as.Do && s.Vessel == as.Vessel && slices.Equal(s.Plants, as.Plants)
}

// Next is the place in Steps of the next thing to do; -1 when all is done. It is not always
// the first that is left: a tap may be opened meanwhile.
func (p *Plan) Next() int {
	if p.next > 0 {
		return p.next
	}
	return slices.IndexFunc(p.Steps, func(s Step) bool { return !s.Done })
}

// BeforeHours reports whether a step is to be done before the hours asked for begin.
func (p *Plan) BeforeHours(s *Step) bool { return p.early && s.At.Before(p.Ask.From) }

// Beside is the place in Steps of a tap to be opened by a time while the hands are at the
// next thing; -1 for none.
func (p *Plan) Beside(now time.Time) int {
	if next := p.Next(); next < 0 || !p.Steps[next].Begun(now) {
		return -1
	}
	until := p.Steps[p.Next()].Until
	return slices.IndexFunc(p.Steps, func(s Step) bool {
		return s.Do == soak.Fill && !s.Done && !s.At.After(nextMinute(now)) && s.At.Before(until)
	})
}

// tapsFirst has a tap that is to be opened by now opened before what the hands could have
// begun by now: it runs meanwhile.
func (p *planning) tapsFirst() {
	to := p.plan.Next()
	if to < 0 || p.agreed == nil || !p.plan.Steps[to].Do.Hands() {
		return
	}
	for from := to + 1; from < len(p.plan.Steps) && !p.plan.Steps[from].At.After(nextMinute(p.now)); from++ {
		if tap := p.plan.Steps[from]; tap.Do == soak.Fill && tap.At.Before(p.plan.Steps[to].Until) {
			p.plan.Steps = slices.Insert(slices.Delete(p.plan.Steps, from, from+1), to, tap)
			return
		}
	}
}

// outFirst is from when on what is due to leave the water goes before a tap that was to be
// opened first: as the board has it. A choice.
const outFirst = time.Minute

// opensSoon is within what time a tap is opened before the hands begin with something else,
// so that it runs meanwhile. A choice.
const opensSoon = 2 * time.Minute

// stayNext has what was next when something was last written down stay so until it is done:
// a tap that is to be opened first though the hands could have begun by now with what comes
// after it, or what they are at though a tap is to be opened meanwhile.
func (p *planning) stayNext(ctx context.Context, plan *Plan, a *model.AgreedAt) error {
	since := model.Later(a.At, lastOf(p.book, p.now, OfTheDay))
	next := plan.Next()
	hands := slices.IndexFunc(plan.Steps, func(s Step) bool { return !s.Done && s.Do.Hands() })
	tap := slices.IndexFunc(plan.Steps, func(s Step) bool { return !s.Done && s.Do == soak.Fill && s.At.Sub(p.now) < settles })
	if hands < 0 || tap < 0 {
		return nil
	}
	if p.isLate(&plan.Steps[hands], plan) {
		plan.next = hands
		return nil
	}
	if !since.Before(p.now) { // it stays so from now on
		soon := plan.Steps[tap].At.Sub(p.now) <= opensSoon && plan.Steps[tap].At.Before(plan.Steps[hands].Until)
		if soon && tap > 0 && p.book.Water(plan.Steps[tap].Vessel) == nil {
			plan.next = tap
		}
		return nil
	}
	was, err := slid(ctx, p.keeper, since.In(p.now.Location()), a)
	if err != nil || was.Next() < 0 {
		return err
	}
	first := was.Steps[was.Next()]
	is := slices.IndexFunc(plan.Steps, func(s Step) bool { return !s.Done && s.Same(first) })
	if is > 0 && first.Do.Hands() != plan.Steps[next].Do.Hands() {
		plan.next = is
	}
	return nil
}

// isLate reports whether a step takes out what is late to leave the water.
func (p *planning) isLate(s *Step, plan *Plan) bool {
	if s.Do != soak.GetOut {
		return false
	}
	l := p.book.Load(plan.Loads[s.Load].Load)
	return l != nil && p.now.Sub(l.Due) >= outFirst
}

// HandsDone is when the last piece of work of the hands up to a time was written down; the
// zero time for none.
func HandsDone(b *model.Book, now time.Time) time.Time {
	return lastOf(b, now, func(f model.Fact) bool {
		_, tap := f.(*model.Fill)
		_, felt := f.(*model.FoundDry)
		return OfTheDay(f) && !tap && !felt
	})
}

// lastOf is the time of the last entry up to a time that stands and is of a kind.
func lastOf(b *model.Book, now time.Time, of func(model.Fact) bool) time.Time {
	for _, e := range slices.Backward(b.Entries()) {
		if !e.At.After(now) && of(e.Fact) && !b.Struck(e.Seq) {
			return e.At.In(b.Zone())
		}
	}
	return time.Time{}
}
