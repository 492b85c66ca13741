package command

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// planSheet writes the plan as a sheet to print.
func (r *run) planSheet(b *model.Book, p *day.Plan, q *planQuestion) error {
	return r.writeSheet(q.file, soakSheet(b, p), q.calendar.force)
}

// soakSheet is a soak day on paper, for somebody who has never seen the program: how to
// go about it, what to do with boxes to tick, and each load's plants in the order in
// which they are fetched, go in and come out.
func soakSheet(b *model.Book, p *day.Plan) *paper.Sheet {
	at := planClock(p)
	s := &paper.Sheet{
		Title: "Soak day, " + p.Ask.From.Format("Monday 2 January 2006"),
		Under: []string{fmt.Sprintf("%s in %s. %s; all dry by %s.", show.Count(p.Count(), "plant"),
			show.Count(len(p.Loads), "load"), show.Line(freeWords(p)), at(p.AllDry))},
		Foot: "Pulled = soaked = dried = hung back. If they do not match, a plant is missing.",
	}
	s.Add("How to go about it", howTo(p))
	s.Add("Take care", soakCautions)
	steps := paper.Table{Tick: true, Wrap: true, Columns: []paper.Column{{Head: "at"}, {Head: "done by"},
		{Head: "load", Right: true}, {Head: "what to do", Least: 24}}}
	for i := range p.Steps {
		step := &p.Steps[i]
		if step.Done { // nobody is to do it twice
			continue
		}
		steps.Add(at(step.At), at(step.Until), loadOf(p, step), show.Line(show.Step(b, p, step)))
	}
	s.Add("The day", &steps)
	for i := range p.Loads {
		s.Add(loadTitle(i, &p.Loads[i]), loadBlocks(b, &p.Loads[i], at)...)
	}
	if lying := lyingBefore(b, p); len(lying.Rows) > 0 {
		s.Add("On the racks already", paper.Words("These lay there before the day began. Hang each when it is dry to the heart."), lying)
	}
	if len(p.Left) > 0 {
		s.Add("Not today", notToday(b, p)...)
	}
	s.Add("To close the day", closing(p))
	return s
}

// howTo is what somebody has to know who has never done it.
func howTo(p *day.Plan) paper.Points {
	points := paper.Points{
		"Do the lines of the day from top to bottom, and tick each when it is done. If you are late, keep to the order: what is in the water comes out before anything else goes in.",
		"A load is plants that go into one vessel together. Its list is further down. Pull its plants in the order of their numbers: take them from their homes and bring them to the vessel.",
		"Put them in in the same order, side by side along the vessel, so that you know who was first. In a tub begin at the tap end.",
		"Take them out in the same order. Shake each well and lay it upside down where its list says.",
		"A plant is dry when it is dry to the heart: look between its inner leaves. Hang it back home then. What is still damp lies on.",
	}
	if slices.ContainsFunc(p.Loads, func(l day.Load) bool { return l.Heap > 0 }) {
		points = append(points, "Where two heaps share a vessel keep a hand's width between them: each has a time of its own.")
	}
	return points
}

// loadOf names the loads that a step is about.
func loadOf(p *day.Plan, step *day.Step) string {
	if step.Load >= 0 {
		return fmt.Sprint(step.Load + 1)
	}
	var loads []int
	for _, id := range step.Plants {
		if l, _, ok := p.Placed(id); ok && !slices.Contains(loads, l+1) {
			loads = append(loads, l+1)
		}
	}
	slices.Sort(loads)
	return strings.Trim(strings.ReplaceAll(fmt.Sprint(loads), " ", ", "), "[]")
}

func loadTitle(i int, l *day.Load) string {
	title := fmt.Sprintf("Load %d: %s in %s", i+1, show.Count(len(l.Plants), "plant"), l.Vessel)
	if l.Company != soak.Healthy {
		title += ", " + l.Company.String() + ": nobody else goes in with them"
	}
	if l.Fed {
		title += ", in fed water"
	}
	return title
}

// loadBlocks is a load said in a few sentences, and its plants in their order, a table
// for each walk along the shelves.
func loadBlocks(b *model.Book, l *day.Load, at func(time.Time) string) []paper.Block {
	from, last := l.Plants[0].Dry, l.Plants[0].Dry
	for _, t := range l.Plants {
		from, last = model.Earlier(from, t.Dry), model.Later(last, t.Dry)
	}
	var said []string
	switch {
	case l.Done:
		said = append(said, fmt.Sprintf("It is out since %s.", at(l.End)))
	case l.Load != 0:
		said = append(said, fmt.Sprintf("It has been in since %s. Take it out from %s on, done by %s.", at(l.Start), at(l.Out), at(l.End)))
	default:
		said = append(said, fmt.Sprintf("Put it in from %s on. Take it out from %s on, done by %s.", at(l.Start), at(l.Out), at(l.End)))
		if n := stands(l); n > 0 {
			said = append(said, fmt.Sprintf("%d of its plants stand by the water already.", n))
		}
	}
	if heap := show.Heap(b, l); heap != "" {
		said = append(said, "It is "+heap+".")
	}
	if !l.Done {
		said = append(said, fmt.Sprintf("Look for dry ones from %s on; the last should be dry by %s.", at(from), at(last)))
	}
	blocks := []paper.Block{paper.Words(strings.Join(said, " "))}
	walks := walksOf(b, l)
	for n, walk := range walks {
		if len(walks) > 1 {
			blocks = append(blocks, paper.Words(fmt.Sprintf("Walk %d of %d:", n+1, len(walks))))
		}
		blocks = append(blocks, plantTable(b, l, walk, at))
	}
	return blocks
}

// stands is how many plants of a load are pulled already.
func stands(l *day.Load) int {
	n := 0
	for i := range l.Plants {
		if l.Plants[i].Hands.Pull == 0 {
			n++
		}
	}
	return n
}

// walksOf cuts a load's plants where a walk along the shelves begins anew, by their
// place in the load.
func walksOf(b *model.Book, l *day.Load) [][]int {
	var walks [][]int
	for i := range l.Plants {
		if i == 0 || b.Row(l.Plants[i].ID).WalkCompare(b.Row(l.Plants[i-1].ID)) < 0 {
			walks = append(walks, nil)
		}
		walks[len(walks)-1] = append(walks[len(walks)-1], i)
	}
	return walks
}

func plantTable(b *model.Book, l *day.Load, places []int, at func(time.Time) string) *paper.Table {
	t := &paper.Table{Tick: true, Wrap: true, Columns: []paper.Column{
		{Head: "nth", Right: true}, {Head: "home", Least: 8}, {Head: "plant", Least: 12}, {Head: "id", Right: true},
		{Head: "lay on"}, {Head: "dry by"}, {Head: "when it is out", Least: 12},
	}}
	for _, i := range places {
		plant, row := l.Plants[i], b.Row(l.Plants[i].ID)
		t.Add(fmt.Sprint(i+1), show.Home(row.Home), show.Title(row.Plant), plant.ID.String(),
			cmp.Or(plant.Bench, "any rack"), at(plant.Dry), whenOut(row))
	}
	return t
}

// handlings are what a form wants done when it comes out, beyond a shake.
var handlings = map[model.Form]advice.Code{model.Bulbous: advice.ShakeHard, model.Tank: advice.TipOut, model.Pendent: advice.Wring}

// whenOut says what a plant wants done when it comes out, beyond a shake; "" for most.
func whenOut(row *model.Row) string {
	code, ok := handlings[row.Form]
	if !ok {
		return ""
	}
	return show.About{Row: row}.Reason(advice.Reason{Code: code})
}

// lyingBefore is what the day hangs that is of none of its loads.
func lyingBefore(b *model.Book, p *day.Plan) *paper.Table {
	t := &paper.Table{Tick: true, Columns: []paper.Column{{Head: "home", Least: 8}, {Head: "plant", Least: 12}, {Head: "id", Right: true}}}
	var ids model.IDs
	add := func(all model.IDs) {
		for _, id := range all {
			if _, _, ok := p.Placed(id); !ok && !slices.Contains(ids, id) {
				ids = append(ids, id)
			}
		}
	}
	add(p.Morning)
	for i := range p.Steps {
		if p.Steps[i].Do == soak.Hang {
			add(p.Steps[i].Plants)
		}
	}
	for _, id := range b.Walk(ids) {
		row := b.Row(id)
		t.Add(show.Home(row.Home), show.Title(row.Plant), id.String())
	}
	return t
}

// notToday is who stays where it hangs, by name, under why.
func notToday(b *model.Book, p *day.Plan) []paper.Block {
	blocks := []paper.Block{paper.Words("Leave these where they hang.")}
	tables := map[string]*paper.Table{}
	for _, l := range p.Left {
		row := b.Row(l.ID)
		if row == nil {
			continue
		}
		why := show.Line(show.LeftOut(b, p, l)) + "."
		t := tables[why]
		if t == nil {
			t = &paper.Table{Columns: []paper.Column{{Head: "home", Least: 8}, {Head: "plant", Least: 12}, {Head: "id", Right: true}}}
			tables[why] = t
			blocks = append(blocks, paper.Words(why), t)
		}
		t.Add(show.Home(row.Home), show.Title(row.Plant), l.ID.String())
	}
	return blocks
}

// closing is what ends a soak day.
func closing(p *day.Plan) paper.Ticks {
	var ticks paper.Ticks
	for _, v := range p.Vessels {
		ticks = append(ticks, v.Name+" empty and dry")
	}
	ticks = append(ticks, "floor wiped", "fans still running where plants dry")
	if n := len(p.Morning); n > 0 {
		ticks = append(ticks, fmt.Sprintf("tomorrow morning: look into the hearts of the %s still on the racks, and hang those that are dry", show.Count(n, "plant")))
	}
	return ticks
}

// soakCautions are the usual ones, with who says so. They do not replace the
// rules of the place.
var soakCautions = paper.Cautions{
	{
		Text:   "Never leave a filled tub or bucket, not for a minute, where there is a child or a pet. Empty each at once.",
		Source: "US Consumer Product Safety Commission, 2007 and 2012",
	},
	{Text: "Keep fans, lamps and their cords 1.5 m (5 ft) or more from the water. Dry your hands before you touch them. Follow your local electrical code, and ask a qualified electrician.", Source: "Safe Electricity"},
	{Text: "Wipe up drips at once: most injuries in bathrooms are falls.", Source: "MMWR 2011;60(22):729-733"},
}
