package day

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/soak"
)

// Current is the agreed plan as it stands at a time: what is done is ticked off, what is
// to come has slid as far as it must, and whom no time is left for is left out. Who has
// been left out stays so until the grower plans again: while nobody does anything, that is
// settled every few minutes. The same book and time give the same plan, wherever it is
// asked for. It is nil when no plan is agreed. The error is a [model.Problem], or the
// context's.
func Current(ctx context.Context, k *estimate.Keeper, now time.Time) (*Plan, error) {
	b := k.Book()
	p, err := Kept(ctx, k, now)
	if err != nil || p == nil || !p.Lost {
		return p, err
	}
	now = now.In(b.Zone())
	a := b.AgreedPlan(now)
	for at := model.Later(a.At, LastDone(b, now)); at.Before(now); {
		since := at
		if at = at.Truncate(settles).Add(settles); at.Sub(now) >= settles {
			break
		}
		if p, err = slid(ctx, k, at.In(b.Zone()), a); err != nil {
			return nil, err
		}
		if len(p.lost(a)) > 0 {
			p.droppedBy(since.In(b.Zone()))
			a = &model.AgreedAt{Agreed: *p.Agree(b, at), At: a.At}
		}
	}
	if p, err = slid(ctx, k, now, a); err != nil {
		return nil, err
	}
	p.Lost = true // since it was agreed
	return p, nil
}

// droppedBy dates whom the plan drops no later than at a time: it is settled ahead, and shown
// from then on.
func (p *Plan) droppedBy(since time.Time) {
	for n := range p.Left {
		p.Left[n].Dropped = model.Earlier(p.Left[n].Dropped, since)
	}
}

// settles is how often it is settled who is left out, and for how long ahead, while
// nobody does anything: two looks within it show the same plants. A choice.
const settles = slack

// LastDone is when the last entry up to a time was made; the zero time for none.
func LastDone(b *model.Book, now time.Time) time.Time {
	for _, e := range slices.Backward(b.Entries()) {
		if !e.At.After(now) {
			return e.At.In(b.Zone())
		}
	}
	return time.Time{}
}

// Kept is the agreed plan as its entry alone has it slide to a time, which is quick, and
// the same as [Current] unless it says that something is lost.
func Kept(ctx context.Context, k *estimate.Keeper, now time.Time) (*Plan, error) {
	now = now.In(k.Book().Zone())
	a := k.Book().AgreedPlan(now)
	if a == nil {
		return nil, nil
	}
	return slid(ctx, k, now, a)
}

// Settle is the entry to write before the next thing is done of the agreed plan, so that
// who is left out by now stays so; nil where nobody is, or no plan is agreed.
func (p *Plan) Settle(b *model.Book, now time.Time) *model.Agreed {
	if p == nil || p.Agreed.IsZero() {
		return nil
	}
	if a := b.AgreedPlan(now); a == nil || len(p.lost(a)) == 0 {
		return nil
	}
	return p.Agree(b, now)
}

// Follows reports whether an entry is one by which an agreed plan is followed at a time:
// what is written down of earlier hours follows nothing.
func Follows(e model.Entry, now time.Time) bool {
	return OfTheDay(e.Fact) && now.Sub(e.At) < settles
}

// OfTheDay reports whether a fact is one by which an agreed plan is followed.
func OfTheDay(f model.Fact) bool {
	switch f.(type) {
	case *model.Pull, *model.Fill, *model.Soak, *model.Out, *model.Drain, *model.FoundDry, *model.Hung:
		return true
	}
	return false
}

// slid is an agreed plan as it stands at a time, with what is done of it.
func slid(ctx context.Context, k *estimate.Keeper, now time.Time, a *model.AgreedAt) (*Plan, error) {
	p, err := timed(ctx, k, now, a, true)
	if err != nil {
		return nil, err
	}
	p.plan.Agreed = a.AgreedTo().In(now.Location())
	if !a.Stop.IsZero() {
		p.plan.Stopped = a.Stop.In(now.Location())
	}
	p.tick()
	plan := p.finish()
	plan.Made, plan.until = a.At, a.Until.In(k.Book().Zone())
	return plan, p.stayNext(ctx, plan, a)
}

// timed gives what is to come of an agreed plan its times. While it is followed a load may
// be smaller than the house rules have it, and however little is left of one that is begun is
// still a load.
func timed(ctx context.Context, k *estimate.Keeper, now time.Time, a *model.AgreedAt, followed bool) (*planning, error) {
	p, err := newPlanning(k, now, askOf(a, k.Book().Rules(), now))
	if err != nil {
		return nil, err
	}
	p.agreed, p.carried = a, carriedHome(p.book, a.At, now)
	p.follow()
	p.meetOthers()
	for _, night := range []bool{false, true} {
		if err := p.slide(ctx, night, followed); err != nil {
			return nil, err
		}
	}
	for _, l := range a.Loads {
		for _, id := range l.Plants {
			if row := p.book.Row(id); p.carried[id] && row != nil && row.State == model.AtHome && !p.isOut(row) {
				p.plan.Left = append(p.plan.Left, LeftOut{ID: id, Skipped: true})
			}
		}
	}
	for _, l := range a.Left {
		if p.book.Row(l.Plant) != nil {
			left := LeftOut{ID: l.Plant, Skipped: l.Why == skipped, Load: l.Load, Dropped: l.Dropped}
			if !left.Skipped {
				left.Unplaced = &soak.LeftOut{ID: int(l.Plant), Why: whyOf(l.Why), By: l.By}
			}
			p.plan.Left = append(p.plan.Left, left)
		}
	}
	return p, nil
}

// meetOthers has the room know of those that are no longer to go in, or never were:
// its air is for the plants of the plan as it was made.
func (p *planning) meetOthers() {
	for _, l := range p.agreed.Loads {
		for _, id := range l.Plants {
			if row := p.book.Row(id); row != nil && row.State != model.Soaking && !p.toCome(id) {
				p.meet(row)
			}
		}
	}
	for _, l := range p.agreed.Left {
		if row := p.book.Row(l.Plant); row != nil {
			p.meet(row)
		}
	}
}

// isOut reports whether a plant of the agreed plan came out of the water since.
func (p *planning) isOut(row *model.Row) bool {
	return row.State != model.Soaking && !row.Out.Before(p.agreed.Since)
}

// toCome reports whether a plant of the agreed plan still has to go in.
func (p *planning) toCome(id model.ID) bool {
	row := p.book.Row(id)
	return row != nil && row.State == model.AtHome && !p.isOut(row) && row.Rot.IsZero() && !row.MistOnly && !p.carried[id]
}

// carriedHome is who was pulled and put back home since a plan was agreed, and not pulled again: whoever
// carries a plant home does not mean to fetch it next.
func carriedHome(b *model.Book, since, now time.Time) map[model.ID]bool {
	home := map[model.ID]bool{}
	for _, e := range b.Entries() {
		if e.At.Before(since) || e.At.After(now) || b.Struck(e.Seq) {
			continue
		}
		switch e.Fact.(type) {
		case *model.PutBack:
			for _, id := range e.Plants {
				home[id] = true
			}
		case *model.Pull, *model.Soak:
			for _, id := range e.Plants {
				delete(home, id)
			}
		}
	}
	return home
}

// overdueTries is how often a plan is slid on past what should be done by now: what comes
// first then may be another thing, and a shorter one. It has never needed more than two.
const overdueTries = 4

// slide gives the loads of the day, or of the night, their times from now on.
func (p *planning) slide(ctx context.Context, night, followed bool) error {
	before := soak.Before{AtOnce: p.agreed.AtOnce, Lag: p.late, First: p.idle, New: !followed}
	var items []soak.Item
	place := make([]int, len(p.agreed.Loads))
	fewest := int(p.rules[model.LoadPlants])
	for n, l := range p.agreed.Loads {
		if l.Night != night || p.vessel(l.Vessel) < 0 {
			continue
		}
		was := soak.LoadBefore{Vessel: p.vessel(l.Vessel), Heap: l.Heap}
		for i, id := range l.Plants {
			if !p.toCome(id) {
				was.Begun = true
				continue
			}
			it := p.item(p.book.Row(id), l.Least[i], l.Most[i])
			it.Spare = spare(&it)
			it.Thirst = max(p.keeper.Plant(id, p.now).Thirst(), 0.01)
			it.Urgent = it.Thirst >= beyondRescue
			it.Fed = p.agreed.Feed && p.vessels[was.Vessel].Fed
			if it.Company == soak.Healthy && !it.Fed {
				fewest = min(fewest, len(l.Plants))
			}
			items = append(items, it)
			was.IDs = append(was.IDs, it.ID)
		}
		before.Loads = append(before.Loads, was)
		place[n] = len(before.Loads)
	}
	for _, w := range p.agreed.Order {
		if at := place[w.Load-1]; at > 0 {
			before.Order = append(before.Order, soak.Visit{Do: doOf(w.Do), Load: at - 1})
		}
	}
	var s *soak.Session
	if night {
		if p.night = items; len(items) == 0 {
			return nil
		}
		s = p.evening()
	} else {
		p.due = items
		s = p.day()
		if followed {
			s.Limits = soak.Limits{Plants: fewest}
		}
		p.join(s, &before, place)
	}
	plan, err := soak.Slide(ctx, s, before)
	for n := 0; n < overdueTries && err == nil && !night; n++ {
		by, begun, over := p.overdue(plan)
		if by == 0 {
			break
		}
		if n == 0 {
			p.plan.missed = p.at(over)
		}
		p.free = p.at(begun + by)
		p.atWork(s)
		for g := range s.Given { // nothing keeps them from it
			s.Given[g].Due = p.past[g]
		}
		plan, err = soak.Slide(ctx, s, before)
	}
	if err != nil {
		return fmt.Errorf("follow the agreed plan: %w", err)
	}
	p.tell(s, plan, night)
	return nil
}

func doOf(word string) soak.Do {
	for _, do := range []soak.Do{soak.Pull, soak.PutIn} {
		if do.String() == word {
			return do
		}
	}
	return soak.GetOut
}

// join finds the agreed loads that lie in the water, and what is still to go in
// with each: nothing once its first is out, or another has its place.
func (p *planning) join(s *soak.Session, before *soak.Before, place []int) {
	for g := range s.Given {
		given := &s.Given[g]
		if len(given.Items) == 0 {
			continue
		}
		for n, l := range p.agreed.Loads {
			if place[n] == 0 || p.vessel(l.Vessel) != given.Vessel || !slices.Contains(l.Plants, model.ID(given.Items[0].ID)) {
				continue
			}
			was := &before.Loads[place[n]-1]
			if was.Given > 0 || slices.ContainsFunc(l.Plants, func(id model.ID) bool { row := p.book.Row(id); return row != nil && p.isOut(row) }) {
				continue
			}
			was.Given = g + 1
			for i, it := range s.Items {
				if slices.Contains(was.IDs, it.ID) {
					given.More = append(given.More, i)
				}
			}
		}
	}
}

// tick adds what is done of the agreed plan.
func (p *planning) tick() {
	for _, l := range p.agreed.Loads {
		out := Load{Vessel: l.Vessel, Heap: l.Heap, Night: l.Night, Done: true}
		var in model.IDs
		for i, id := range l.Plants {
			row := p.book.Row(id)
			switch {
			case row == nil:
			case p.isOut(row):
				company := advice.CompanyOf(p.book, row, p.now)
				out.Company = company
				out.Plants = append(out.Plants, Plant{ID: id, Bulk: estimate.Bulk(row.Plant), Least: l.Least[i], Most: l.Most[i],
					Hands: estimate.HandsFor(row.Plant, p.rules), Company: company, In: row.In.In(p.now.Location()), Out: row.Out.In(p.now.Location())})
			case row.State == model.Soaking:
				in = append(in, id)
			}
		}
		if len(out.Plants) > 0 {
			at := len(p.plan.Loads)
			slices.SortStableFunc(out.Plants, func(a, b Plant) int { return cmp.Or(a.In.Compare(b.In), a.Out.Compare(b.Out)) })
			out.Start, out.Out = out.Plants[0].In, out.Plants[0].Out
			for _, t := range out.Plants {
				out.Out, out.End = model.Earlier(out.Out, t.Out), model.Later(out.End, t.Out)
			}
			p.plan.Loads = append(p.plan.Loads, out)
			p.did(soak.PutIn, out.Start, at, out.IDs())
			p.did(soak.GetOut, out.End, at, out.IDs())
		}
		if len(in) > 0 {
			if at, _, ok := p.plan.Placed(in[0]); ok {
				p.did(soak.PutIn, p.plan.Loads[at].Start, at, in)
			}
		}
	}
}

// did adds a step that is done.
func (p *planning) did(do soak.Do, at time.Time, load int, ids model.IDs) {
	p.plan.Steps = append(p.plan.Steps, Step{At: at, Until: at, Do: do, Vessel: p.plan.Loads[load].Vessel, Load: load, Plants: ids, Done: true})
}
