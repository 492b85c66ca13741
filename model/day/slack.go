package day

import (
	"slices"
	"time"

	"tubside/model/soak"
)

// slack is by how much everything of a plan may be later than it says before a plant of
// it loses its place: a plan is made for hours that end so much earlier, an earlier hour
// to be dry by and shorter longest soaks, and followed with those that the grower gave. A
// choice: as long as the door, the telephone or a wet floor takes.
const slack = 10 * time.Minute

// tighten takes the slack off a session that a plan is made of.
func (p *planning) tighten(s *soak.Session) {
	spare := int(slack.Seconds())
	s.Items = slices.Clone(s.Items)
	for i := range s.Items {
		p.shorten(&s.Items[i], 4)
	}
	for g := range s.Given {
		for i := range s.Given[g].Items {
			p.shorten(&s.Given[g].Items[i], 2)
		}
	}
	for i := range s.Hours {
		h := &s.Hours[i]
		h.To -= min(spare, (h.To-h.From)/2)
		h.DryBy -= spare
	}
	for i := range s.Vessels {
		if v := &s.Vessels[i]; v.LastIn > 0 {
			v.LastIn = max(1, v.LastIn-spare)
		}
	}
}

// shorten takes the slack off the longest soak of a plant, or that part of its window: half
// of it for what lies in the water and comes out when the hands have time, less for what is
// still to go in, and goes in later then. Choices.
func (p *planning) shorten(it *soak.Item, part int) {
	less := min(int(slack.Seconds()), (it.Most-it.Least)/part)
	it.Most -= less
	p.spare[it.ID] = less
}

// loosen gives a plan that was made with slack the true windows again, and leaves out
// what it only would be late by without.
func (p *planning) loosen(a *soak.Plan) {
	spare := int(slack.Seconds())
	inHours := map[int]bool{}
	for l := range a.Loads {
		served := slices.ContainsFunc(p.ask.hands(), func(h Stretch) bool {
			return !p.at(a.Loads[l].Out).Before(h.From) && !p.at(a.Loads[l].End).After(h.Until)
		})
		for i := range a.Loads[l].Plants {
			a.Loads[l].Plants[i].Most += p.spare[a.Loads[l].Plants[i].ID]
			inHours[a.Loads[l].Plants[i].ID] = served
		}
	}
	for i := range a.Left {
		a.Left[i].By = max(0, a.Left[i].By-spare)
	}
	for i := range a.Late {
		a.Late[i].NoHands = a.Late[i].NoHands && !inHours[a.Late[i].ID]
	}
	a.Late = slices.DeleteFunc(a.Late, func(l soak.Late) bool {
		return l.Over <= p.spare[l.ID] && l.NotDry <= spare && !l.NoBench && !l.NoHands
	})
	for i := range a.Late {
		l := &a.Late[i]
		l.Over, l.NotDry = max(0, l.Over-p.spare[l.ID]), max(0, l.NotDry-spare)
	}
}
