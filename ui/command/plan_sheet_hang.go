package command

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// countsLine says how many plants the lists of the sheet have, so that they add up:
// those that go in, those that are in, those that are out.
func countsLine(p *day.Plan) string {
	all := 0
	var parts []string
	for i := range p.Loads {
		l := &p.Loads[i]
		all += len(l.Plants)
		switch {
		case l.Done:
			parts = append(parts, fmt.Sprintf("%d out of %s already", len(l.Plants), l.Vessel))
		case l.Load != 0:
			parts = append(parts, fmt.Sprintf("%d in %s now", len(l.Plants), l.Vessel))
		}
	}
	lying := 0
	for _, id := range p.Morning {
		if _, _, ok := p.Placed(id); !ok {
			lying++
		}
	}
	for id := range hangTimes(p) {
		if _, _, ok := p.Placed(id); !ok {
			lying++
		}
	}
	line := fmt.Sprintf("%s in %s", show.Count(all, "plant"), show.Count(len(p.Loads), "load"))
	if len(parts) > 0 {
		line += fmt.Sprintf(": %d to put in, %s", p.Count(), strings.Join(parts, ", "))
	}
	if line += "."; lying > 0 {
		line += fmt.Sprintf(" On the racks already: %d more.", lying)
	}
	return line
}

// hangingLine says when all are dry, and who hangs when.
func hangingLine(p *day.Plan) string {
	line := fmt.Sprintf("The last is dry by %s. ", planClock(p)(p.AllDry))
	switch n, later := len(hangTimes(p)), len(p.Morning); {
	case later == 0:
		return line + "All hang back today."
	case n == 0:
		return line + fmt.Sprintf("%s to hang back tomorrow morning, or in the evening if you like.", show.Count(later, "plant"))
	default:
		return line + fmt.Sprintf("The day has time to hang back %d; that leaves %d for tomorrow morning, or the evening if you like.",
			n, later)
	}
}

// hangTimes is when the day hangs back whom, done already or to come. Who was not dry
// then, and is left for the morning, is not among them.
func hangTimes(p *day.Plan) map[model.ID]time.Time {
	times := map[model.ID]time.Time{}
	for _, s := range p.Steps {
		if s.Do == soak.Hang {
			for _, id := range s.Plants {
				times[id] = s.At
			}
		}
	}
	for _, id := range p.Morning {
		delete(times, id)
	}
	return times
}

// hangWord says when a plant hangs back.
func hangWord(p *day.Plan, hung map[model.ID]time.Time, id model.ID) string {
	if at, ok := hung[id]; ok {
		return planClock(p)(at)
	}
	if slices.Contains(p.Morning, id) {
		return "tomorrow"
	}
	return "hangs" // it is home already
}

// addHanging lists by name whom each step hangs back, and counts who of the others
// is dry before the hands are free.
func addHanging(s *paper.Sheet, b *model.Book, p *day.Plan) {
	at := planClock(p)
	for i := range p.Steps {
		step := &p.Steps[i]
		if step.Do != soak.Hang || step.Done {
			continue
		}
		t := &paper.Table{Tick: true, Columns: []paper.Column{{Head: "home", Least: 8}, {Head: "plant", Least: 12},
			{Head: "id", Right: true}, {Head: "load", Right: true}, {Head: "lies now on"}}}
		for _, id := range b.Walk(step.Plants) {
			row, load, bench := b.Row(id), "", "any rack"
			if l, place, ok := p.Placed(id); ok {
				load, bench = fmt.Sprint(l+1), place.Bench
			}
			t.Add(show.Home(row.Home), show.Title(row.Plant), id.String(), load, bench)
		}
		s.Add(fmt.Sprintf("Hang back at %s: %s", at(step.At), show.Count(len(step.Plants), "plant")),
			paper.Words("Each when it is dry to the heart. One that is not stays where it lies, and is for tomorrow morning."), t)
	}
	var early []string
	for i := range p.Loads {
		n := 0
		for _, plant := range p.Loads[i].Plants {
			if slices.Contains(p.Morning, plant.ID) && !plant.Dry.After(p.DayFree) {
				n++
			}
		}
		if n > 0 {
			early = append(early, fmt.Sprintf("%d of load %d", n, i+1))
		}
	}
	if len(early) > 0 {
		s.Add("When you are free", paper.Words(fmt.Sprintf("By %s these should be dry too, but until then you have been busy with the vessels: %s. "+
			"They are those that their lists say are dry by an earlier hour. Look into their hearts and hang them back in the evening if you like. "+
			"Tomorrow morning is soon enough.", at(p.DayFree), strings.Join(early, ", "))))
	}
}

// stepOnPaper says a step with what a list alone cannot tell: how long the tap runs, until when
// plants that are pulled wait, and where the names are.
func stepOnPaper(b *model.Book, p *day.Plan, s *day.Step) string {
	text := show.Line(show.Step(b, p, s))
	switch {
	case s.Do == soak.Hang:
		return text + fmt.Sprintf(" (by name under \"Hang back at %s\")", planClock(p)(s.At))
	case s.Load < 0:
		return text
	}
	l := &p.Loads[s.Load]
	goesIn := planClock(p)(l.Start)
	switch {
	case s.Do == soak.Fill:
		return text + fmt.Sprintf(" (%s)", show.Duration(s.Until.Sub(s.At)))
	case s.Do == soak.Pull && l.Start.Sub(s.Until) >= longWait:
		return text + fmt.Sprintf(" (they go in at %s, and wait beside it)", goesIn)
	case s.Do == soak.PutIn && len(s.Plants) > 1 && stands(l) > 0 && l.Load == 0:
		return text + fmt.Sprintf(" (%d pulled, %d that stood by it)", len(l.Plants)-stands(l), stands(l))
	}
	return text
}

// longWait is from how long on plants that are pulled are said to wait. A guess.
const longWait = 10 * time.Minute

// lyingBefore is what the day hangs that is of none of its loads, with when.
func lyingBefore(b *model.Book, p *day.Plan, hung map[model.ID]time.Time) *paper.Table {
	t := &paper.Table{Tick: true, Columns: []paper.Column{{Head: "home", Least: 8}, {Head: "plant", Least: 12},
		{Head: "id", Right: true}, {Head: "hang back"}}}
	ids := slices.Clone(p.Morning)
	for id := range hung {
		ids = append(ids, id)
	}
	for _, id := range b.Walk(ids) {
		if _, _, ok := p.Placed(id); ok {
			continue
		}
		row := b.Row(id)
		t.Add(show.Home(row.Home), show.Title(row.Plant), id.String(), hangWord(p, hung, id))
	}
	return t
}
