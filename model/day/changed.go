package day

import (
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// Changed is how a plan differs from the one shown before it.
type Changed struct {
	Left    model.IDs // plants that were to go in, and are left out now
	Loads   []int     // the numbers of loads of which none goes in any more
	Skipped model.IDs // plants that were to go in, and that the grower has left for another day
	Whole   []int     // the numbers of loads of which she has left all
	Back    model.IDs // plants that are to go in, and were left out or not in it
	Was, Is time.Time // the hands are free; zero where that is the same within some minutes
	Past    bool      // that is after the hours that the grower gave
}

// freeWorthAWord is from how many minutes on another end of the day is worth a word. A
// guess.
const freeWorthAWord = 5 * time.Minute

// Since tells how a plan has changed from an earlier one of the same day. What is done
// since is no change.
func (p *Plan) Since(was *Plan) Changed {
	var c Changed
	left, placed := map[model.ID]LeftOut{}, map[model.ID]bool{}
	for _, l := range p.Left {
		left[l.ID] = l
	}
	for _, l := range was.Loads {
		gone, skipped := 0, 0
		for _, t := range l.Plants {
			placed[t.ID] = true
			switch out := left[t.ID]; {
			case out.ID == 0 || !l.ToCome():
			case out.Skipped:
				c.Skipped = append(c.Skipped, t.ID)
				skipped++
			default:
				c.Left = append(c.Left, t.ID)
				gone++
			}
		}
		switch len(l.Plants) {
		case gone:
			c.Loads = append(c.Loads, l.Number)
		case skipped:
			c.Whole = append(c.Whole, l.Number)
		}
	}
	for _, l := range p.Loads {
		for _, t := range l.Plants {
			if l.ToCome() && !placed[t.ID] {
				c.Back = append(c.Back, t.ID)
			}
		}
	}
	if d := p.DayFree.Sub(was.DayFree); d.Abs() >= freeWorthAWord && p.hasHands() {
		c.Was, c.Is, c.Past = was.DayFree, p.DayFree, p.PastHours()
	}
	return c
}

// PastHours reports whether the hands are free only after the hours that the grower gave.
func (p *Plan) PastHours() bool { return p.DayFree.After(p.HoursEnd()) }

// HoursEnd is when the hours end that the grower gave, which may be past.
func (p *Plan) HoursEnd() time.Time {
	if p.until.IsZero() {
		return p.Ask.Until
	}
	return model.Earlier(p.until, p.Ask.Until)
}

// hasHands reports whether there is work of the hands to come.
func (p *Plan) hasHands() bool {
	return slices.ContainsFunc(p.Steps, func(s Step) bool { return !s.Done && s.Do != soak.Fill })
}

// News is how the plan as it stands differs from the plan as it was agreed.
type News struct {
	Lost    model.IDs // plants that have no place any more
	Vessel  string    // of the load that comes out at another time, the next of them; empty: all are in time
	Was, Is time.Time // it comes out
	More    int       // loads after it that come out at other times too
}

// worthAWord is from how many minutes on a changed time is worth a word. A guess.
const worthAWord = 2

// News tells how the plan has changed since it was agreed.
func (p *Plan) News(b *model.Book) News {
	var n News
	a := b.AgreedPlan(p.Ask.From)
	if a == nil {
		return n
	}
	n.Lost = p.lost(a)
	for _, l := range a.Loads {
		at, _, ok := p.Placed(l.Plants[0])
		if !ok || p.Loads[at].Done || math.Abs(p.Loads[at].Out.Sub(l.Out).Minutes()) < worthAWord {
			continue
		}
		if n.More++; n.Vessel == "" || p.Loads[at].Out.Before(n.Is) {
			n.Vessel, n.Was, n.Is = l.Vessel, l.Out.In(b.Zone()), p.Loads[at].Out
		}
	}
	n.More = max(0, n.More-1)
	return n
}

// lost is whom the plan leaves out that an agreed one did not.
func (p *Plan) lost(a *model.AgreedAt) (ids model.IDs) {
	left := map[model.ID]bool{}
	for _, l := range a.Left {
		left[l.Plant] = true
	}
	for _, l := range p.Left {
		if !left[l.ID] && !l.Skipped {
			ids = append(ids, l.ID)
		}
	}
	return ids
}
