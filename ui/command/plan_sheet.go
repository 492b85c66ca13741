package command

import (
	"fmt"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// planSheet writes the plan as a sheet to print.
func (r *run) planSheet(b *model.Book, p *day.Plan, q *planQuestion) error {
	return r.writeSheet(q.file, soakSheet(b, p), q.calendar.force)
}

// soakSheet is a soak day on paper: what to do with boxes to tick, then for each
// load the plants to pull, in walking order.
func soakSheet(b *model.Book, p *day.Plan) *paper.Sheet {
	at := planClock(p)
	s := &paper.Sheet{
		Title: "Soak day, " + p.Ask.From.Format("Monday 2 January 2006"),
		Under: []string{
			fmt.Sprintf("%s in %s. %s; all dry by %s.", show.Count(p.Count(), "plant"),
				show.Count(len(p.Loads), "load"), show.Line(freeWords(p)), at(p.AllDry)),
			"Pull a load's plants from their homes, lay them in by their number (nth), and take them out in the same order.",
		},
		Foot: "Pulled = soaked = dried = hung back. A difference is a plant unaccounted for.",
	}
	s.Add("Take care", soakCautions)
	steps := paper.Table{Tick: true, Wrap: true, Columns: []paper.Column{{Head: "at"}, {Head: "until"},
		{Head: "what", Least: 24}}}
	for i := range p.Steps {
		step := &p.Steps[i]
		steps.Add(at(step.At), at(step.Until), show.Step(b, p, step))
	}
	s.Add("What to do", &steps)
	for i := range p.Loads {
		s.Add(loadTitle(b, i, &p.Loads[i], at), pulls(b, &p.Loads[i], at))
	}
	if left := unplacedTable(b, p, p.Left); len(left.Rows) > 0 {
		s.Add("No place today", left)
	}
	s.Add("To close the day", closing(p))
	return s
}

func loadTitle(b *model.Book, i int, l *day.Load, at func(time.Time) string) string {
	title := fmt.Sprintf("Load %d: %s, in %s, out from %s", i+1, l.Vessel, at(l.Start), at(l.Out))
	if heap := show.Heap(b, l); heap != "" {
		title += ", " + heap
	}
	if l.Company != soak.Healthy {
		title += ", " + l.Company.String()
	}
	if l.Fed {
		title += ", fed water"
	}
	return title
}

// pulls is a load's plants in walking order, with their homes, and when each
// goes in: that is the order of going in and coming out.
func pulls(b *model.Book, l *day.Load, at func(time.Time) string) *paper.Table {
	t := &paper.Table{Tick: true, Columns: []paper.Column{
		{Head: "home", Least: 8}, {Head: "plant", Least: 12}, {Head: "id", Right: true}, {Head: "nth", Right: true},
		{Head: "in"}, {Head: "out"}, {Head: "dry at the latest"},
	}}
	place := make(map[model.ID]int, len(l.Plants))
	for i, plant := range l.Plants {
		place[plant.ID] = i
	}
	for _, id := range b.Walk(l.IDs()) {
		i := place[id]
		plant, row := l.Plants[i], b.Row(id)
		t.Add(show.Home(row.Home), show.Title(row.Plant), id.String(), fmt.Sprint(i+1), at(plant.In), at(plant.Out),
			at(plant.Dry))
	}
	return t
}

// closing is what ends a soak day.
func closing(p *day.Plan) paper.Ticks {
	var ticks paper.Ticks
	for _, v := range p.Vessels {
		ticks = append(ticks, v.Name+" empty and dry")
	}
	return append(ticks, "floor wiped", "fans still running where plants dry",
		"every heart looked into before hanging back")
}

// soakCautions are the usual ones, with who says so. They do not replace the
// rules of the place.
var soakCautions = paper.Cautions{
	{
		Text:   "Never leave a filled tub or bucket, not for a minute, where there is a child or a pet. Empty each at once.",
		Source: "US Consumer Product Safety Commission, 2007 and 2012",
	},
	{Text: "Keep fans, lamps and their cords 1.5 m (5 ft) or more from the water. Dry your hands before you touch them. The local electrical code and a qualified electrician have the last word.", Source: "Safe Electricity"},
	{Text: "Wipe up drips at once: most injuries in bathrooms are falls.", Source: "MMWR 2011;60(22):729-733"},
}
