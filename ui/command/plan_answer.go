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

// planTables answers a person: the day in a few lines, its steps, what has no place in
// it, and what the day could be instead.
func (r *run) planTables(b *model.Book, p *day.Plan, other []string) error {
	text := r.folded(strings.Join(planHead(b, p), "\n")) + "\n"
	for _, late := range show.TooLate(b, p) {
		text += r.folded(late) + "\n"
	}
	if back := show.PutBack(b, p); back != "" {
		text += r.folded(back+": tubside enter putback "+p.Back(b).String()) + "\n"
	}
	if news := show.PlanNews(p.News(b)); news != "" {
		text += r.folded("changed since: "+news) + "\n"
	}
	if gone := show.LoadsGone(p); gone != "" {
		text += r.folded(gone) + "\n"
	}
	if len(p.Steps) > 0 {
		text += "\n" + r.text(planSteps(b, p))
	}
	if left := unplacedTable(b, p, p.Left); len(left.Rows) > 0 {
		text += "\nno place today\n" + r.text(left)
	}
	for i, o := range other {
		if i == 0 {
			text += "\nor\n"
		}
		text += r.folded(o) + "\n"
	}
	for i, note := range show.PlanNotes(b, p) {
		if i == 0 {
			text += "\n"
		}
		text += r.folded(note) + "\n"
	}
	return r.print(text)
}

// planClock says times of a plan: the hour, with the day when it is another one.
func planClock(p *day.Plan) func(time.Time) string {
	return func(t time.Time) string { return show.Clock(t, p.Ask.From, p.Ask.From.Location()) }
}

// planHead is the day in a few lines.
func planHead(b *model.Book, p *day.Plan) []string {
	a, clock := p.Ask, planClock(p)
	lines := []string{fmt.Sprintf("%s, %s to %s, dry by %s: %s in %s",
		a.From.Format("Mon 2 Jan"), a.From.Format("15:04"), clock(a.Until), clock(a.DryBy),
		show.Count(p.Count(), "plant"), show.Count(p.CountLoads(), "load"))}
	if n := p.InWater(); n > 0 {
		lines[0] += fmt.Sprintf(", and %d in the water already", n)
	}
	lines[0] += ", " + show.Count(p.Fills, "fill") + " of water"
	if len(p.Loads) == 0 {
		return append(lines, "nothing to soak")
	}
	if !p.Agreed.IsZero() {
		lines[0] += ", " + show.PlanAgreed(b, p)
	}
	lines = append(lines, fmt.Sprintf("%s; all dry by %s; %s to the vessels", freeWords(p), clock(p.AllDry),
		show.Count(p.Visits, "visit")))
	if n := len(p.Morning); n > 0 {
		lines = append(lines, fmt.Sprintf("%s to hang back in the morning", show.Count(n, "plant")))
	}
	return lines
}

// freeWords say when the hands are free, and until when the night's load keeps
// them.
func freeWords(p *day.Plan) string {
	clock := planClock(p)
	free := "you're free at " + clock(p.DayFree)
	if p.PastHours() {
		free += " (after your hours, which end at " + clock(p.HoursEnd()) + ")"
	}
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
		text := show.Step(b, p, s)
		if s.Done {
			text += ", done"
		}
		t.Add(clock(s.At), clock(s.Until), text, s.Plants.String())
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
		why := show.LeftOut(b, p, l.WithoutTimes())
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
	Agreed    *time.Time         `json:"agreed_at"`
	HandsFree *time.Time         `json:"hands_free_at"`
	DayFree   *time.Time         `json:"day_free_at"`
	AllDry    *time.Time         `json:"all_dry_by"`
	Bound     *time.Time         `json:"lower_bound"` // of day_free_at
	Visits    int                `json:"visits"`
	Morning   []model.ID         `json:"hang_in_the_morning"`
	Offers    []offerAnswer      `json:"offers"`
	Left      []unplacedAnswer   `json:"left_out"`
}

type planVesselAnswer struct {
	Name   string  `json:"name"`
	Litres float64 `json:"litres"`
}

// offerAnswer is another plan of the day, measured.
type offerAnswer struct {
	Text      string     `json:"text"`
	Plants    int        `json:"plants"`
	HandsFree *time.Time `json:"day_free_at"`
}

// planLoadAnswer is one load: one heap with one clock. Fill 0 is the water that
// stood in the vessel.
type planLoadAnswer struct {
	Number int               `json:"number"` // load:3 in the shell
	Vessel string            `json:"vessel"`
	Fill   int               `json:"fill"`
	Heap   int               `json:"heap"` // 0 alone in its vessel
	Night  bool              `json:"night"`
	Start  *time.Time        `json:"start"`
	Out    *time.Time        `json:"out"`
	Plants []planPlantAnswer `json:"plants"`
}

type planPlantAnswer struct {
	ID       model.ID   `json:"id"`
	Bulk     float64    `json:"bulk_litres"`
	From     float64    `json:"minutes_from"`
	To       float64    `json:"minutes_to"`
	Pull     int        `json:"hands_pull_s"`
	HandsIn  int        `json:"hands_in_s"`
	HandsOut int        `json:"hands_out_s"` // out, shaken and laid down
	Hang     int        `json:"hands_hang_s"`
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
	Litres float64    `json:"litres,omitempty"` // to fill: holds a tap, anything else a pair of hands
	Hands  int        `json:"hands"`            // which pair, from 1; 0 while the tap runs
}

type unplacedAnswer struct {
	ID     model.ID `json:"id"`
	Reason string   `json:"reason"`
}

func answerPlan(b *model.Book, p *day.Plan, offers []day.Offer) planAnswer {
	a := planAnswer{
		Vessels: []planVesselAnswer{}, Loads: []planLoadAnswer{}, Actions: []planStepAnswer{}, Left: []unplacedAnswer{},
		Agreed: when(p.Agreed), HandsFree: when(p.HandsFree), DayFree: when(p.DayFree), AllDry: when(p.AllDry),
		Bound: when(p.DayBound), Visits: p.Visits, Morning: append([]model.ID{}, p.Morning...), Offers: []offerAnswer{},
	}
	for _, v := range p.Vessels {
		a.Vessels = append(a.Vessels, planVesselAnswer{v.Name, v.Litres})
	}
	for _, l := range p.Loads {
		if !l.Done {
			a.Loads = append(a.Loads, answerLoad(l))
		}
	}
	for _, s := range p.Steps {
		if s.Done {
			continue
		}
		step := planStepAnswer{when(s.At), when(s.Until), s.Do.String(), s.Vessel, append([]model.ID{}, s.Plants...),
			s.Litres, 0}
		if s.Do.Hands() {
			step.Hands = s.Hands + 1
		}
		a.Actions = append(a.Actions, step)
	}
	slices.SortStableFunc(a.Actions, func(x, y planStepAnswer) int { return x.At.Compare(*y.At) })
	for _, l := range p.Left {
		a.Left = append(a.Left, unplacedAnswer{l.ID, show.LeftOut(b, p, l)})
	}
	for _, o := range offers {
		a.Offers = append(a.Offers, offerAnswer{show.Offer(p, o), o.Plan.Count(), when(o.Plan.DayFree)})
	}
	return a
}

func answerLoad(l day.Load) planLoadAnswer {
	a := planLoadAnswer{Number: l.Number, Vessel: l.Vessel, Fill: l.Fill, Heap: l.Heap, Night: l.Night, Start: when(l.Start),
		Out: when(l.Out), Plants: []planPlantAnswer{}}
	for _, t := range l.Plants {
		h := t.Hands
		a.Plants = append(a.Plants, planPlantAnswer{
			t.ID, litres(t.Bulk), minutesFrom(t.Least), minutesTo(t.Most), h.Pull, h.In, h.Out + h.Lay, h.Hang,
			t.Company.String(), when(t.In), when(t.Out),
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
