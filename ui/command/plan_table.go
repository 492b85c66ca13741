package command

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/care"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// planTables answers a person: the day in a few lines, its steps, and what has
// no place in it.
func (r *run) planTables(b *model.Book, p *care.Plan) error {
	text := strings.Join(planHead(p), "\n") + "\n"
	if len(p.Steps) > 0 {
		text += "\n" + planSteps(p).Text(r.width())
	}
	if left := unplacedTable(p.Left); len(left.Rows) > 0 {
		text += "\nno place today\n" + left.Text(r.width())
	}
	if late := unplacedTable(p.Late); len(late.Rows) > 0 {
		text += "\nin the water, and not to be kept to the rules\n" + late.Text(r.width())
	}
	for i, note := range p.Notes {
		if i == 0 {
			text += "\n"
		}
		text += note.Text + "\n"
	}
	return r.print(text)
}

// planClock says times of a plan: the hour, with the day when it is another one.
func planClock(p *care.Plan) func(time.Time) string {
	return func(t time.Time) string { return show.Clock(t, p.Ask.From, p.Ask.From.Location()) }
}

// planHead is the day in a few lines.
func planHead(p *care.Plan) []string {
	a, clock := p.Ask, planClock(p)
	lines := []string{fmt.Sprintf("%s, %s to %s, dry by %s: %s in %s, %s of water",
		a.From.Format("Mon 2 Jan"), a.From.Format("15:04"), clock(a.Until), clock(a.DryBy),
		show.Count(p.Count(), "plant"), show.Count(len(p.Loads), "load"), show.Count(p.Fills, "fill"))}
	if len(p.Loads) == 0 {
		return append(lines, "nothing to soak")
	}
	bound := clock(p.DayBound)
	if p.HandsFree.After(p.DayFree) {
		bound += fmt.Sprintf(", or the night's load in before %s", clock(p.Bound))
	}
	lines = append(lines, fmt.Sprintf("%s; all dry by %s", freeWords(p), clock(p.AllDry)))
	return append(lines, "no plan of these plants could have the hands free before "+bound)
}

// freeWords say when the hands are free, and until when the night's load keeps
// them.
func freeWords(p *care.Plan) string {
	clock := planClock(p)
	free := "hands free " + clock(p.DayFree)
	if p.HandsFree.After(p.DayFree) {
		free += fmt.Sprintf(", and a load for the night until %s", clock(p.HandsFree))
	}
	return free
}

// planSteps is what to do, in clock order.
func planSteps(p *care.Plan) *paper.Table {
	clock := planClock(p)
	t := &paper.Table{Wrap: true, Columns: []paper.Column{
		{Head: "at"}, {Head: "until"}, {Head: "do", Least: 24}, {Head: "plants", Least: 16},
	}}
	for _, s := range p.Steps {
		t.Add(clock(s.At), clock(s.Until), s.Text, s.Plants.String())
	}
	return t
}

// unplacedTable groups plants by what keeps them out, the most first.
func unplacedTable(left []care.LeftOut) *paper.Table {
	t := &paper.Table{Wrap: true, Columns: []paper.Column{
		{Head: "plants", Right: true}, {Head: "why", Least: 24}, {Head: "which", Least: 16},
	}}
	ids := map[string]model.IDs{}
	var order []string
	for _, l := range left {
		why := unplacedWords(l)
		if ids[why] == nil {
			order = append(order, why)
		}
		ids[why] = append(ids[why], l.ID)
	}
	slices.SortStableFunc(order, func(x, y string) int { return len(ids[y]) - len(ids[x]) })
	for _, why := range order {
		t.Add(fmt.Sprint(len(ids[why])), why, ids[why].String())
	}
	return t
}
