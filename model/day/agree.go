package day

import (
	"slices"
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// Agree is the fact that says yes to a plan, at a time. What is done of a plan agreed
// before stays ticked off, and a plan that is followed keeps the hours it was agreed for.
func (p *Plan) Agree(b *model.Book, now time.Time) *model.Agreed {
	now = now.UTC().Truncate(time.Second)
	a := &model.Agreed{Since: now, From: p.Ask.From.UTC(), Until: p.Ask.Until.UTC(), DryBy: p.Ask.DryBy.UTC(), Feed: p.Ask.Feed, Small: p.Ask.Small,
		Pauses: stretches(p.Ask.Pauses), Help: stretches(p.Ask.Help)}
	if was := b.AgreedPlan(now); was != nil && p.Agreed.IsZero() {
		a.Since, a.Loads = was.Since, outOf(b, was)
	} else if was != nil {
		*a = was.Agreed
		a.Yes = was.AgreedTo().UTC()
		a.Pauses, a.Loads, a.Order, a.Left = slices.Clone(a.Pauses), nil, nil, nil
	}
	a.AtOnce, a.Night = p.AtOnce, false
	place := make([]int, len(p.Loads))
	for i, l := range p.Loads {
		to := model.AgreedLoad{Number: l.Number, Vessel: l.Vessel, Heap: l.Heap, Night: l.Night, Plants: l.IDs(), Start: l.Start.UTC(), Out: l.Out.UTC()}
		for _, t := range l.Plants {
			to.Least, to.Most = append(to.Least, t.Least), append(to.Most, t.Most)
		}
		a.Loads = append(a.Loads, to)
		place[i] = len(a.Loads)
		a.Night = a.Night || l.Night
	}
	for _, v := range p.order {
		if place[v.Load] > 0 {
			a.Order = append(a.Order, model.AgreedWork{Do: v.Do.String(), Load: place[v.Load], At: p.begins(v, b, now)})
		}
	}
	for _, l := range p.Left {
		switch {
		case l.Skipped:
			a.Left = append(a.Left, model.AgreedLeft{Plant: l.ID, Why: skipped, Load: l.Load})
		case l.Unplaced != nil:
			a.Left = append(a.Left, model.AgreedLeft{Plant: l.ID, Why: l.Unplaced.Why.String(), By: l.Unplaced.By,
				Load: l.Load, Dropped: l.Dropped.UTC().Truncate(time.Second)})
		}
	}
	a.Last = a.LastNumber()
	return a
}

// begins is when the hands begin with a piece of work, by the plan that the grower said yes
// to, or by now where it comes earlier since others are left out; the zero time where it is
// done.
func (p *Plan) begins(v soak.Visit, b *model.Book, now time.Time) time.Time {
	at := time.Time{}
	for _, s := range p.Steps {
		if s.Do == v.Do && s.Load == v.Load && !s.Done {
			at = s.At.UTC()
			break
		}
	}
	was := b.AgreedPlan(now)
	if p.Agreed.IsZero() || was == nil || at.IsZero() {
		return at
	}
	for _, w := range was.Order {
		if w.Do == v.Do.String() && slices.Contains(was.Loads[w.Load-1].Plants, p.Loads[v.Load].Plants[0].ID) {
			return model.Earlier(w.At, at)
		}
	}
	return at
}

func stretches(all []Stretch) (to []model.Pause) {
	for _, s := range all {
		to = append(to, model.Pause{From: s.From.UTC(), Until: s.Until.UTC()})
	}
	return to
}

// outOf is the loads of an agreed plan that are out, or what is out of them.
func outOf(b *model.Book, a *model.AgreedAt) []model.AgreedLoad {
	var loads []model.AgreedLoad
	for n, l := range a.Loads {
		out := l
		out.Number = a.Number(n)
		out.Plants, out.Least, out.Most = nil, nil, nil
		for i, id := range l.Plants {
			if row := b.Row(id); row != nil && row.State != model.Soaking && !row.Out.Before(a.Since) {
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

// Skip is the agreed plan without some plants: the grower leaves them for another day.
func (p *Plan) Skip(b *model.Book, now time.Time, ids ...model.ID) *model.Agreed {
	a, skip := p.Agree(b, now), setOf(ids)
	for i := len(a.Loads) - 1; i >= 0; i-- {
		l, was := &a.Loads[i], a.Loads[i]
		l.Plants, l.Least, l.Most = nil, nil, nil
		for n, id := range was.Plants {
			if skip[id] {
				a.Left = append(a.Left, model.AgreedLeft{Plant: id, Why: skipped})
				continue
			}
			l.Plants, l.Least, l.Most = append(l.Plants, id), append(l.Least, was.Least[n]), append(l.Most, was.Most[n])
		}
		if len(l.Plants) > 0 {
			continue
		}
		for n := len(a.Left) - len(was.Plants); n < len(a.Left); n++ { // the load is gone as a whole
			a.Left[n].Load = was.Number
		}
		a.Loads = slices.Delete(a.Loads, i, i+1)
		a.Order = slices.DeleteFunc(a.Order, func(w model.AgreedWork) bool { return w.Load == i+1 })
		for k := range a.Order {
			if a.Order[k].Load > i+1 {
				a.Order[k].Load--
			}
		}
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
func askOf(a *model.AgreedAt, rules model.Rules, now time.Time) Ask {
	zone := now.Location()
	ask := Ask{From: model.Later(a.From.In(zone), nextMinute(now)), DryBy: a.DryBy.In(zone), Feed: a.Feed, Small: a.Small, followed: true}
	if over := model.AtHour(a.From.In(zone).AddDate(0, 0, 1), 0); !ask.From.Before(over) { // what soaked over night
		ask.DryBy = model.Later(ask.DryBy, rules.DryBy(ask.From))
	}
	ask.Until = model.Later(a.Until.In(zone), ask.From.Add(time.Minute))
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
	for w := soak.Why(0); w <= soak.NoSpare; w++ {
		if w.String() == word {
			return w
		}
	}
	return soak.HandsTaken
}
