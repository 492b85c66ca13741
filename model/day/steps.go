package day

import (
	"fmt"
	"math"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/soak"
)

// standsLong is from how long on a filled vessel that waits for its load is
// said to stand. Our own.
const standsLong = 10 * time.Minute

// word gives every step its sentence.
func (p *planning) word() {
	done := map[[2]int]int{} // plants handled so far, by load and what is done
	for i := range p.plan.Steps {
		s := &p.plan.Steps[i]
		l := &p.plan.Loads[s.Load]
		key := [2]int{s.Load, int(s.Do)}
		switch s.Do {
		case soak.Fill:
			s.Text = p.fillWords(s, l)
		case soak.Empty:
			s.Text = emptyWords(l)
		case soak.PutIn:
			s.Text = p.inWords(s, l, done[key])
		case soak.GetOut:
			s.Text = p.outWords(s, l, done[key])
		}
		done[key] += len(s.Plants)
	}
}

func (p *planning) fillWords(s *Step, l *Load) string {
	v, _ := p.book.Vessel(s.Vessel)
	text := fmt.Sprintf("fill %s (%g L)", s.Vessel, v.Litres)
	if l.Fed {
		text = fmt.Sprintf("mix fed water in %s (%g L)", s.Vessel, v.Litres)
	}
	if l.Start.Sub(s.Until) >= standsLong {
		text += " and let it stand"
	}
	return text
}

func emptyWords(l *Load) string {
	switch {
	case l.Company == soak.Sick:
		return fmt.Sprintf("empty %s: throw this water out and disinfect the vessel", l.Vessel)
	case l.Fed:
		return fmt.Sprintf("empty %s: fed water is not kept", l.Vessel)
	}
	return fmt.Sprintf("empty %s at once", l.Vessel)
}

func (p *planning) inWords(s *Step, l *Load, before int) string {
	text := fmt.Sprintf("put %s into %s", p.whom(s, l, before), s.Vessel)
	if before == 0 && len(l.Plants) > 1 {
		text += ", from the tap end on"
	}
	if shelves := p.shelvesOf(s.Plants); shelves != "" {
		text += ": " + shelves
	}
	return text
}

func (p *planning) outWords(s *Step, l *Load, before int) string {
	text := fmt.Sprintf("take out %s: %s", s.Vessel, p.whom(s, l, before))
	if before == 0 && len(l.Plants) > 1 {
		text += ", start at the tap end"
	}
	if benches := p.benchesOf(s, l); benches != "" {
		text += ", to " + benches
	}
	return text
}

// whom counts the plants of a step: "46 plants", "12 more plants", "3 newcomers".
func (p *planning) whom(s *Step, l *Load, before int) string {
	noun := "plant"
	switch l.Company {
	case soak.Newcomer:
		noun = "newcomer"
	case soak.Suspect, soak.Sick:
		noun = l.Company.String() + " plant"
	}
	if len(s.Plants) != 1 {
		noun += "s"
	}
	if before > 0 {
		noun = "more " + noun
	}
	return fmt.Sprintf("%d %s", len(s.Plants), noun)
}

// mostShelves is how many shelves a sentence names before it leaves them to the
// list. Our own.
const mostShelves = 4

// shelvesOf names the shelves of plants, as they come.
func (p *planning) shelvesOf(ids model.IDs) string {
	return fewNames(ids, func(id model.ID) string { return p.book.Row(id).Home.Shelf })
}

func (p *planning) benchesOf(s *Step, l *Load) string {
	if len(p.benches) < 2 {
		return ""
	}
	bench := make(map[model.ID]string, len(l.Plants))
	for _, t := range l.Plants {
		bench[t.ID] = t.Bench
	}
	return fewNames(s.Plants, func(id model.ID) string { return bench[id] })
}

// fewNames lists the names of plants, each once; "" when there are many.
func fewNames(ids model.IDs, name func(model.ID) string) string {
	var names []string
	seen := map[string]bool{"": true}
	for _, id := range ids {
		if n := name(id); !seen[n] {
			seen[n] = true
			names = append(names, n)
		}
	}
	if len(names) > mostShelves {
		return ""
	}
	return strings.Join(names, ", ")
}

// leftOut says why a plant has no place, and what would get it one.
func (p *planning) leftOut(l soak.LeftOut) LeftOut {
	left := LeftOut{ID: model.ID(l.ID), Reason: p.why(l)}
	for _, h := range l.Help {
		left.Help = append(left.Help, helpWords(h, l.By))
	}
	return left
}

func (p *planning) why(l soak.LeftOut) string {
	dryBy := p.ask.DryBy.Format("15:04")
	late := model.Minutes(math.Ceil(float64(l.By) / 60))
	switch l.Why {
	case soak.NoVessel:
		return p.whyNoVessel(l)
	case soak.NoHours:
		return "its soak does not fit into the hours"
	case soak.NoBenchSize:
		return "larger than any drying place"
	case soak.DriesTooSlow:
		return fmt.Sprintf("may not be dry by %s even if it goes first, but %s later", dryBy, late)
	case soak.HandsTaken:
		return "no time left for the hands: others are thirstier"
	case soak.VesselsTaken:
		return "the vessels are taken in time: others are thirstier"
	case soak.BenchesTaken:
		return "no room left to dry: others are thirstier"
	case soak.DryTooLate:
		if l.By <= 0 {
			return "its turn comes too late to be dry by " + dryBy
		}
		return fmt.Sprintf("its turn comes too late to be dry by %s, by %s", dryBy, late)
	}
	return l.Why.String()
}

func (p *planning) whyNoVessel(l soak.LeftOut) string {
	for _, items := range [][]soak.Item{p.due, p.night} {
		for _, it := range items {
			if it.ID != l.ID || !it.Fed {
				continue
			}
			for _, v := range p.vessels {
				if v.Fed {
					return "too large for the vessel for fed water"
				}
			}
			return "due a feed, and no vessel is marked for fed water"
		}
	}
	return "too large for any vessel"
}

func helpWords(h soak.Help, by int) string {
	switch h {
	case soak.StartEarlier:
		if by > 0 {
			return "start " + model.Minutes(math.Ceil(float64(by)/300)*5) + " earlier"
		}
	case soak.FewerPlants:
		return "leave others for another day"
	case soak.Tomorrow:
		return "soak it tomorrow"
	}
	return h.String()
}

// late says what a plan cannot do for a plant that is in the water already.
func (p *planning) late(l soak.Late) LeftOut {
	left := LeftOut{ID: model.ID(l.ID)}
	var words []string
	if l.Over > 0 {
		words = append(words, "in the water "+model.Minutes(math.Ceil(float64(l.Over)/60))+" longer than it should be")
	}
	if l.NotDry > 0 {
		words = append(words, fmt.Sprintf("may not be dry by %s, but %s later", p.ask.DryBy.Format("15:04"), model.Minutes(math.Ceil(float64(l.NotDry)/60))))
		left.Help = append(left.Help, soak.OpenWindow.String())
	}
	if l.NoBench {
		words = append(words, "no room to dry")
		left.Help = append(left.Help, soak.MoreBench.String())
	}
	if l.NoHands {
		words = append(words, "no hours left to take it out")
	}
	left.Reason = strings.Join(words, "; ")
	return left
}

// note adds what the grower should know before the first step.
func (p *planning) note() {
	say := func(kind advice.ReasonKind, format string, args ...any) {
		p.plan.Notes = append(p.plan.Notes, advice.Because(kind, format, args...))
	}
	if p.plan.Fills > 0 && p.rules[model.WaterRest] > 0 {
		say(advice.Capped, "house rule: tap water stands %s h before plants go in; draw it the evening before, or use rain", p.rules.Word(model.WaterRest))
	}
	if p.unfed > 0 && len(p.ask.Plants) == 0 {
		say(advice.Saw, "%d are not to be fed now, and soak in plain water; name one to see why", p.unfed)
	}
	if n := len(p.plan.Late); n > 0 {
		say(advice.Warning, "%d in the water or drying cannot be kept to the rules", n)
	}
	if p.room.ReadAt.IsZero() {
		say(advice.Computed, "drying times are for an assumed room: enter a reading")
	}
}
