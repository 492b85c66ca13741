package day

import (
	"cmp"
	"context"
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/soak"
)

// Agree is the fact that says yes to a plan, at a time. What is done of a plan
// agreed before stays ticked off.
func (p *Plan) Agree(b *model.Book, now time.Time) *model.Agreed {
	now = now.UTC().Truncate(time.Second)
	a := &model.Agreed{Since: now, From: p.Ask.From.UTC(), Until: p.Ask.Until.UTC(), DryBy: p.Ask.DryBy.UTC(), Feed: p.Ask.Feed, Small: p.Ask.Small, AtOnce: p.AtOnce}
	for _, s := range p.Ask.Pauses {
		a.Pauses = append(a.Pauses, model.Pause{From: s.From.UTC(), Until: s.Until.UTC()})
	}
	for _, s := range p.Ask.Help {
		a.Help = append(a.Help, model.Pause{From: s.From.UTC(), Until: s.Until.UTC()})
	}
	if was := b.AgreedPlan(now); was != nil {
		a.Since = was.Since
		if p.Agreed.IsZero() {
			a.Loads = append(a.Loads, outOf(b, was)...)
		}
	}
	place := make([]int, len(p.Loads))
	for i, l := range p.Loads {
		to := model.AgreedLoad{Vessel: l.Vessel, Heap: l.Heap, Night: l.Night, Plants: l.IDs(), Start: l.Start.UTC(), Out: l.Out.UTC()}
		for _, t := range l.Plants {
			to.Least, to.Most = append(to.Least, t.Least), append(to.Most, t.Most)
		}
		a.Loads = append(a.Loads, to)
		place[i] = len(a.Loads)
		a.Night = a.Night || l.Night
	}
	for _, v := range p.order {
		if place[v.Load] > 0 {
			a.Order = append(a.Order, model.AgreedWork{Do: v.Do.String(), Load: place[v.Load]})
		}
	}
	for _, l := range p.Left {
		switch {
		case l.Skipped:
			a.Left = append(a.Left, model.AgreedLeft{Plant: l.ID, Why: skipped})
		case l.Unplaced != nil:
			a.Left = append(a.Left, model.AgreedLeft{Plant: l.ID, Why: l.Unplaced.Why.String(), By: l.Unplaced.By})
		}
	}
	return a
}

// Current is the agreed plan as it stands at a time: what is done is ticked off,
// what is to come has slid as far as it must, and what cannot be kept any more is
// left out, or loads are made up again where that serves more. The same book and
// time give the same plan, wherever it is asked for. It is nil when no plan is
// agreed. The error is a [model.Problem], or the context's.
func Current(ctx context.Context, k *estimate.Keeper, now time.Time) (*Plan, error) {
	p, err := Kept(ctx, k, now)
	if err != nil || p == nil || !p.Lost {
		return p, err
	}
	a := k.Book().AgreedPlan(now)
	now = now.In(k.Book().Zone())
	quarter := now.Add(settles - 1).Truncate(settles)
	again, err := slid(ctx, k, quarter, a, false)
	if err != nil {
		return nil, err
	}
	settled, to := *a, again.Agree(k.Book(), quarter) // in the hours that were agreed
	settled.AtOnce, settled.Loads, settled.Order, settled.Left = to.AtOnce, to.Loads, to.Order, to.Left
	if again, err = slid(ctx, k, now, &settled, true); err != nil {
		return nil, err
	}
	if again.Remade = again.servesMore(p); !again.Remade {
		return p, nil
	}
	return again, nil
}

// servesMore reports whether a plan serves more than another: it leaves fewer plants in the
// water too long, or else more thirst is quenched.
func (p *Plan) servesMore(than *Plan) bool {
	return cmp.Or(cmp.Compare(len(than.Late), len(p.Late)), cmp.Compare(p.Thirst.Got, than.Thirst.Got)) > 0
}

// Kept is the agreed plan with its loads as they were agreed, which is quick: what
// cannot be kept is left out, and the plan says whether anything had to be.
func Kept(ctx context.Context, k *estimate.Keeper, now time.Time) (*Plan, error) {
	now = now.In(k.Book().Zone())
	a := k.Book().AgreedPlan(now)
	if a == nil {
		return nil, nil
	}
	return slid(ctx, k, now, a, true)
}

// settles is for how long loads that were made up again stay as they are: they are
// made up for its end, and then slide like those that were agreed, so that two looks
// within it show the same. A choice.
const settles = 15 * time.Minute

// slid is an agreed plan as it stands at a time, its loads kept, or made up again
// where plants would leave their window.
func slid(ctx context.Context, k *estimate.Keeper, now time.Time, a *model.AgreedAt, keep bool) (*Plan, error) {
	p, err := newPlanning(k, now, askOf(a, now))
	if err != nil {
		return nil, err
	}
	p.agreed, p.keep = a, keep
	p.plan.Agreed = a.At
	for _, night := range []bool{false, true} {
		if err := p.slide(ctx, night); err != nil {
			return nil, err
		}
	}
	for _, l := range a.Left {
		if p.book.Row(l.Plant) != nil {
			left := LeftOut{ID: l.Plant, Skipped: l.Why == skipped}
			if !left.Skipped {
				left.Unplaced = &soak.LeftOut{ID: int(l.Plant), Why: whyOf(l.Why), By: l.By}
			}
			p.plan.Left = append(p.plan.Left, left)
		}
	}
	p.tick()
	plan := p.finish()
	plan.Made = a.At
	for _, s := range plan.Steps {
		if s.Do.Hands() && !s.Done && s.At.Before(model.AtHour(p.ask.From.AddDate(0, 0, 1), 0)) {
			plan.HandsFree = model.Later(plan.HandsFree, s.Until)
			if s.Load < 0 || !plan.Loads[s.Load].Night {
				plan.DayFree = model.Later(plan.DayFree, s.Until)
			}
		}
	}
	return plan, nil
}

// outOf is the loads of an agreed plan that are out, or what is out of them.
func outOf(b *model.Book, a *model.AgreedAt) []model.AgreedLoad {
	var loads []model.AgreedLoad
	for _, l := range a.Loads {
		out := l
		out.Plants, out.Least, out.Most = nil, nil, nil
		for i, id := range l.Plants {
			if row := b.Row(id); row != nil && row.State != model.Soaking && row.Out.After(a.Since) {
				out.Plants, out.Least, out.Most = append(out.Plants, id), append(out.Least, l.Least[i]), append(out.Most, l.Most[i])
			}
		}
		if len(out.Plants) > 0 {
			loads = append(loads, out)
		}
	}
	return loads
}

// skipped is the book's word for a plant that the grower leaves for another day.
const skipped = "skipped"

// Skip is the agreed plan without one of its loads: the grower leaves it for
// another day.
func (p *Plan) Skip(b *model.Book, now time.Time, load int) *model.Agreed {
	a := p.Agree(b, now)
	for i := range a.Loads {
		if len(a.Loads[i].Plants) == 0 || a.Loads[i].Plants[0] != p.Loads[load].Plants[0].ID {
			continue
		}
		for _, id := range a.Loads[i].Plants {
			a.Left = append(a.Left, model.AgreedLeft{Plant: id, Why: skipped})
		}
		a.Loads = slices.Delete(a.Loads, i, i+1)
		a.Order = slices.DeleteFunc(a.Order, func(w model.AgreedWork) bool { return w.Load == i+1 })
		for k := range a.Order {
			if a.Order[k].Load > i+1 {
				a.Order[k].Load--
			}
		}
		break
	}
	return a
}

// Later is the agreed plan with the hands away from now on for a while.
func (p *Plan) Later(b *model.Book, now time.Time, while time.Duration) *model.Agreed {
	a := p.Agree(b, now)
	now = now.UTC().Truncate(time.Second)
	a.Pauses = append(a.Pauses, model.Pause{From: now, Until: now.Add(while)})
	return a
}

// askOf is what was asked for when a plan was agreed, from now on.
func askOf(a *model.AgreedAt, now time.Time) Ask {
	zone := now.Location()
	ask := Ask{From: model.Later(a.From.In(zone), nextMinute(now)), DryBy: a.DryBy.In(zone), Feed: a.Feed, Small: a.Small}
	ask.Until = model.Later(a.Until.In(zone), ask.From.Add(time.Minute))
	ask.DryBy = model.Later(ask.DryBy, ask.Until)
	for _, s := range a.Pauses {
		if s.Until.After(ask.From) && !s.From.After(ask.From) && !s.Until.Before(ask.Until) {
			continue // no hands would be left
		}
		ask.Pauses = append(ask.Pauses, Stretch{s.From.In(zone), s.Until.In(zone)})
	}
	for _, s := range a.Help {
		ask.Help = append(ask.Help, Stretch{s.From.In(zone), s.Until.In(zone)})
	}
	return ask
}

// whyOf is the reason that a word of the book stands for.
func whyOf(word string) soak.Why {
	for w := soak.Why(0); w <= soak.TooFew; w++ {
		if w.String() == word {
			return w
		}
	}
	return soak.HandsTaken
}

// isOut reports whether a plant of the agreed plan came out of the water since.
func (p *planning) isOut(row *model.Row) bool {
	return row.State != model.Soaking && row.Out.After(p.agreed.Since)
}

// toCome reports whether a plant of the agreed plan still has to go in.
func (p *planning) toCome(id model.ID) bool {
	row := p.book.Row(id)
	return row != nil && row.State == model.AtHome && !p.isOut(row) && row.Rot.IsZero()
}

// slide gives the loads of the day, or of the night, their times from now on.
func (p *planning) slide(ctx context.Context, night bool) error {
	before := soak.Before{AtOnce: p.agreed.AtOnce, Keep: p.keep}
	var items []soak.Item
	place := make([]int, len(p.agreed.Loads))
	for n, l := range p.agreed.Loads {
		if l.Night != night || p.vessel(l.Vessel) < 0 {
			continue
		}
		was := soak.LoadBefore{Vessel: p.vessel(l.Vessel)}
		for i, id := range l.Plants {
			if !p.toCome(id) {
				continue
			}
			it := p.item(p.book.Row(id), l.Least[i], l.Most[i])
			it.Thirst = max(p.keeper.Plant(id, p.now).Thirst(), 0.01)
			it.Fed = p.agreed.Feed && p.vessels[was.Vessel].Fed
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
		p.join(s, &before, place)
	}
	return p.arrange(ctx, s, night, func(ctx context.Context, s *soak.Session, _ soak.Effort) (*soak.Plan, error) {
		return soak.Slide(ctx, s, before)
	})
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

// Next is the place in Steps of the next thing to do; -1 when all is done.
func (p *Plan) Next() int {
	return slices.IndexFunc(p.Steps, func(s Step) bool { return !s.Done })
}

// News is how the plan as it stands differs from the plan as it was agreed.
type News struct {
	Remade  bool      // loads are made up again
	Lost    model.IDs // plants that have no place any more
	Vessel  string    // of the first load that comes out at another time; empty: all are in time
	Was, Is time.Time // it comes out
}

// worthAWord is from how many minutes on a changed time is worth a word. A guess.
const worthAWord = 2

// News tells how the plan has changed since it was agreed.
func (p *Plan) News(b *model.Book) News {
	n := News{Remade: p.Remade}
	a := b.AgreedPlan(p.Ask.From)
	if a == nil {
		return n
	}
	left := map[model.ID]bool{}
	for _, l := range a.Left {
		left[l.Plant] = true
	}
	for _, l := range p.Left {
		if !left[l.ID] {
			n.Lost = append(n.Lost, l.ID)
		}
	}
	for _, l := range a.Loads {
		at, _, ok := p.Placed(l.Plants[0])
		if ok && !p.Loads[at].Done && math.Abs(p.Loads[at].Out.Sub(l.Out).Minutes()) >= worthAWord {
			n.Vessel, n.Was, n.Is = l.Vessel, l.Out.In(b.Zone()), p.Loads[at].Out
			break
		}
	}
	return n
}

// AllOut lists all that is in the water in the order in which it is safest to take
// it out when the day breaks off: what is due first, first; what may be sick last.
func AllOut(b *model.Book, now time.Time) model.IDs {
	loads := slices.Clone(b.OpenLoads())
	sick := func(l *model.Load) int {
		worst := soak.Healthy
		for _, id := range b.StillIn(l) {
			worst = max(worst, advice.CompanyOf(b, b.Row(id), now))
		}
		return int(worst)
	}
	slices.SortStableFunc(loads, func(x, y *model.Load) int { return cmp.Or(cmp.Compare(sick(x), sick(y)), x.Due.Compare(y.Due)) })
	var ids model.IDs
	for _, l := range loads {
		ids = append(ids, b.StillIn(l)...)
	}
	return ids
}
