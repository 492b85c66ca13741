package command

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// planTables answers a person: the day in a few lines, its steps, and what has
// no place in it.
func (r *run) planTables(b *model.Book, p *day.Plan) error {
	text := strings.Join(planHead(p), "\n") + "\n"
	if len(p.Steps) > 0 {
		text += "\n" + planSteps(b, p).Text(r.width())
	}
	if left := unplacedTable(b, p, p.Left); len(left.Rows) > 0 {
		text += "\nno place today\n" + left.Text(r.width())
	}
	if late := unplacedTable(b, p, p.Late); len(late.Rows) > 0 {
		text += "\nin the water, and not to be kept to the rules\n" + late.Text(r.width())
	}
	for i, note := range show.PlanNotes(b, p) {
		if i == 0 {
			text += "\n"
		}
		text += note + "\n"
	}
	return r.print(text)
}

// planClock says times of a plan: the hour, with the day when it is another one.
func planClock(p *day.Plan) func(time.Time) string {
	return func(t time.Time) string { return show.Clock(t, p.Ask.From, p.Ask.From.Location()) }
}

// planHead is the day in a few lines.
func planHead(p *day.Plan) []string {
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
func freeWords(p *day.Plan) string {
	clock := planClock(p)
	free := "hands free " + clock(p.DayFree)
	if p.HandsFree.After(p.DayFree) {
		free += fmt.Sprintf(", and a load for the night until %s", clock(p.HandsFree))
	}
	return free
}

// planSteps is what to do, in clock order.
func planSteps(b *model.Book, p *day.Plan) *paper.Table {
	clock := planClock(p)
	t := &paper.Table{Wrap: true, Columns: []paper.Column{
		{Head: "at"}, {Head: "until"}, {Head: "do", Least: 24}, {Head: "plants", Least: 16},
	}}
	for i := range p.Steps {
		s := &p.Steps[i]
		t.Add(clock(s.At), clock(s.Until), show.Step(b, p, s), s.Plants.String())
	}
	return t
}

// unplacedTable groups plants by what keeps them out, the most first.
func unplacedTable(b *model.Book, p *day.Plan, left []day.LeftOut) *paper.Table {
	t := &paper.Table{Wrap: true, Columns: []paper.Column{
		{Head: "plants", Right: true}, {Head: "why", Least: 24}, {Head: "which", Least: 16},
	}}
	ids := map[string]model.IDs{}
	var order []string
	for _, l := range left {
		why := show.LeftOut(b, p, l)
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

// planAnswer is a soak day. From it alone every rule can be checked.
type planAnswer struct {
	Vessels   []planVesselAnswer `json:"vessels"`
	Loads     []planLoadAnswer   `json:"loads"`
	Actions   []planStepAnswer   `json:"actions"`
	HandsFree *time.Time         `json:"hands_free_at"`
	AllDry    *time.Time         `json:"all_dry_by"`
	Bound     *time.Time         `json:"lower_bound"`
	Left      []unplacedAnswer   `json:"left_out"`
}

type planVesselAnswer struct {
	Name   string  `json:"name"`
	Litres float64 `json:"litres"`
}

// planLoadAnswer is one load. Fill 0 is the water that stood in the vessel.
type planLoadAnswer struct {
	Vessel string            `json:"vessel"`
	Fill   int               `json:"fill"`
	Start  *time.Time        `json:"start"`
	Out    *time.Time        `json:"out"`
	Plants []planPlantAnswer `json:"plants"`
}

type planPlantAnswer struct {
	ID       model.ID   `json:"id"`
	Bulk     float64    `json:"bulk_litres"`
	From     float64    `json:"minutes_from"`
	To       float64    `json:"minutes_to"`
	HandsIn  int        `json:"hands_in_s"`
	HandsOut int        `json:"hands_out_s"`
	Company  string     `json:"company"`
	In       *time.Time `json:"in"`
	Out      *time.Time `json:"out"`
}

type planStepAnswer struct {
	At     *time.Time `json:"at"`
	Until  *time.Time `json:"until"`
	Do     string     `json:"do"`
	Vessel string     `json:"vessel"`
	IDs    []model.ID `json:"ids"`
}

type unplacedAnswer struct {
	ID     model.ID `json:"id"`
	Reason string   `json:"reason"`
}

func answerPlan(b *model.Book, p *day.Plan) planAnswer {
	a := planAnswer{
		Vessels: []planVesselAnswer{}, Loads: []planLoadAnswer{}, Actions: []planStepAnswer{}, Left: []unplacedAnswer{},
		HandsFree: when(p.HandsFree), AllDry: when(p.AllDry), Bound: when(p.Bound),
	}
	for _, v := range p.Vessels {
		a.Vessels = append(a.Vessels, planVesselAnswer{v.Name, v.Litres})
	}
	for _, l := range p.Loads {
		a.Loads = append(a.Loads, answerLoad(l))
	}
	for _, s := range p.Steps {
		a.Actions = append(a.Actions, planStepAnswer{when(s.At), when(s.Until), s.Do.String(), s.Vessel, append([]model.ID{}, s.Plants...)})
	}
	for _, l := range p.Left {
		a.Left = append(a.Left, unplacedAnswer{l.ID, show.LeftOut(b, p, l)})
	}
	return a
}

func answerLoad(l day.Load) planLoadAnswer {
	a := planLoadAnswer{Vessel: l.Vessel, Fill: l.Fill, Start: when(l.Start), Out: when(l.Out), Plants: []planPlantAnswer{}}
	for _, t := range l.Plants {
		a.Plants = append(a.Plants, planPlantAnswer{
			t.ID, litres(t.Bulk), minutesFrom(t.From), minutesTo(t.To), t.HandsIn, t.HandsOut, t.Company.String(), when(t.In), when(t.Out),
		})
	}
	return a
}

// litres is cut, not rounded, at a microlitre, so that a full vessel is never
// over its room by the digits left off.
func litres(v float64) float64 { return math.Floor(v*1e6) / 1e6 }

// minutesFrom and minutesTo are the ends of a window in minutes; the digits left
// off never make it narrower.
func minutesFrom(seconds int) float64 { return math.Floor(float64(seconds)/60*1e4) / 1e4 }
func minutesTo(seconds int) float64   { return math.Ceil(float64(seconds)/60*1e4) / 1e4 }
