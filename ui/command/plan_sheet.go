package command

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// planSheet writes the plan as a sheet to print.
func (r *run) planSheet(ctx context.Context, k *estimate.Keeper, p *day.Plan, q *planQuestion) error {
	rest, at, err := p.Rest(ctx, k, r.now(), breakTime)
	if err != nil {
		return err
	}
	sheet := soakSheet(k.Book(), p, breakWords(p, rest, at))
	sheet.Under = append(sheet.Under, printedWords(p, r.now()))
	return r.writeSheet(q.file, sheet, q.calendar.force)
}

// printedWords say when a sheet was made, so that nobody goes by an earlier one.
func printedWords(p *day.Plan, now time.Time) string {
	at := now.In(p.Ask.From.Location()).Format("Mon 2 Jan 15:04")
	if p.Agreed.IsZero() {
		return "Printed " + at + ". Nobody has agreed to this plan yet: tubside enter plan, and print it then."
	}
	return fmt.Sprintf("Printed %s, as the plan agreed at %s stands. It takes the place of every sheet printed before.", at, planClock(p)(p.Agreed))
}

// soakSheet is a soak day on paper, for somebody who has never seen the program: how to
// go about it, what to do with boxes to tick, and each load's plants in the order in
// which they are fetched, go in and come out.
func soakSheet(b *model.Book, p *day.Plan, rest string) *paper.Sheet {
	at := planClock(p)
	s := &paper.Sheet{
		Title: "Soak day, " + p.Ask.From.Format("Monday 2 January 2006"),
		Under: []string{countsLine(p), show.Line(freeWords(p)) + ". " + hangingLine(p)},
		Foot:  "Pulled = soaked = dried = hung back. If they do not match, a plant is missing.",
	}
	s.Add("How to go about it", howTo(p, rest))
	for i, note := range show.PlanNotes(b, p) {
		title := ""
		if i == 0 {
			title = "Before you begin"
		}
		s.Add(title, paper.Words(show.Line(note)+"."))
	}
	s.Add("Take care", soakCautions)
	steps := paper.Table{Tick: true, Wrap: true, Columns: []paper.Column{{Head: "at"}, {Head: "done by"},
		{Head: "load", Right: true}, {Head: "what to do", Least: 24}}}
	done := 0
	for i := range p.Steps {
		step := &p.Steps[i]
		if step.Done {
			done++
			continue
		}
		steps.Add(at(step.At), at(step.Until), loadOf(p, step), stepOnPaper(b, p, step))
	}
	if done > 0 {
		s.Add("The day", paper.Words(fmt.Sprintf("%s done already and left out here.", show.Count(done, "step"))), &steps)
	} else {
		s.Add("The day", &steps)
	}
	hung := hangTimes(p)
	for i := range p.Loads {
		s.Add(loadTitle(i, &p.Loads[i]), loadBlocks(b, p, &p.Loads[i], hung)...)
	}
	if lying := lyingBefore(b, p, hung); len(lying.Rows) > 0 {
		s.Add("On the racks already", paper.Words("These lay there before the day began."), lying)
	}
	addHanging(s, b, p)
	if len(p.Left) > 0 {
		s.Add("Not today", notToday(b, p)...)
	}
	s.Add("To close the day", closing(p))
	return s
}

// howTo is what somebody has to know who has never done it.
func howTo(p *day.Plan, rest string) paper.Points {
	points := paper.Points{
		"Do the lines of the day from top to bottom, and tick each when it is done. To fill a vessel takes the minutes in brackets: stay near the tap, and go on with the next line meanwhile.",
		"If you are late, keep to the order, and do the next line as soon as you can. Each load's list says when it has to begin to come out at the latest: that goes before everything else.",
		"A load is plants that go into one vessel together. Its list is further down. To pull them is to take them from their homes and bring them to the vessel, in the order of the list's first number. One with a star stands there already.",
		"Plants that are pulled early wait in that order beside their vessel, dry and in the shade. A vessel that is filled early stands full until its load goes in: one tap cannot fill two at once.",
		"Put them in in the same order, from one end of the vessel to the other, so that you know which were first. In a tub begin at the tap end.",
		"Take them out in the same order. Shake each well and lay it upside down where its list says.",
		"A plant is dry when it is dry to the heart: look between its inner leaves. Hang it back home then. What is still damp stays where it lies. The list says when there is time for it; \"tomorrow\" is tomorrow morning.",
		rest,
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

// mostWalks is how many walks along the shelves a list is cut into; where the order of
// the times goes to and fro more often than that, it stays in one piece. A guess.
const mostWalks = 5

// loadBlocks is a load said in a few sentences, and its plants in their order, a table
// for each walk along the shelves.
func loadBlocks(b *model.Book, p *day.Plan, l *day.Load, hung map[model.ID]time.Time) []paper.Block {
	at := planClock(p)
	from, last := l.Plants[0].Dry, l.Plants[0].Dry
	for _, t := range l.Plants {
		from, last = model.Earlier(from, t.Dry), model.Later(last, t.Dry)
	}
	var said []string
	switch {
	case l.Done:
		said = append(said, fmt.Sprintf("It has been out since %s.", at(l.End)))
	case l.Load != 0:
		said = append(said, fmt.Sprintf("It has been in since %s.", at(l.Start)), outWords(l, at))
	default:
		said = append(said, fmt.Sprintf("Put it in from %s on.", at(l.Start)), outWords(l, at))
		if n := stands(l); n > 0 {
			said = append(said, fmt.Sprintf("Standing by the water already, with a star in the list: %d. To pull: %d.", n, len(l.Plants)-n))
		}
	}
	if heap := show.Heap(b, l); heap != "" {
		said = append(said, "It is "+heap+".")
	}
	if !l.Done {
		said = append(said, fmt.Sprintf("Look for dry ones from %s on; the last should be dry by %s.", at(from), at(last)))
	}
	walks := walksOf(b, l)
	if len(walks) > mostWalks {
		said = append(said, "The list goes to and fro between the shelves: in this order each plant has its own time in the water.")
		walks = [][]int{slices.Concat(walks...)}
	}
	blocks := []paper.Block{paper.Words(strings.Join(said, " "))}
	for n, walk := range walks {
		if len(walks) > 1 {
			blocks = append(blocks, paper.Words(fmt.Sprintf("Walk %d of %d: once along the shelves, from top to bottom of this list.", n+1, len(walks))))
		}
		blocks = append(blocks, plantTable(b, p, l, walk, hung))
	}
	return blocks
}

// outWords say when a load comes out, and when at the latest.
func outWords(l *day.Load, at func(time.Time) string) string {
	first := l.Plants[0]
	least, most := first.Out.Sub(first.In), first.Out.Sub(first.In)
	for _, t := range l.Plants {
		in := t.Out.Sub(t.In)
		least, most = min(least, in), max(most, in)
	}
	soaks := show.Duration(least)
	if longest := show.Duration(most); longest != soaks {
		soaks += " to " + longest
	}
	latest := latestOut(l)
	if latest.Before(l.Out) && l.Load != 0 {
		return fmt.Sprintf("OVERDUE: it should have begun to come out by %s. Take it out now, before anything else.", at(latest))
	}
	return fmt.Sprintf("Take it out from %s on, done by %s: each plant soaks %s. Begin to take it out by %s at the latest.",
		at(l.Out), at(l.End), soaks, at(model.Later(latest, l.Out)))
}

// latestOut is when a load begins to come out at the latest, so that none of its
// plants, one after the other, is in for longer than it may be.
func latestOut(l *day.Load) time.Time {
	latest := l.Plants[0].In.Add(time.Duration(l.Plants[0].Most) * time.Second)
	for _, t := range l.Plants {
		latest = model.Earlier(latest, t.In.Add(time.Duration(t.Most)*time.Second-t.Out.Sub(l.Plants[0].Out)))
	}
	return latest
}

// breakTime is half an hour: long enough to eat. A guess.
const breakTime = 30 * time.Minute

// breakWords say when a break fits: where there is nothing to do, or where the day as it
// is then loses nobody by it.
func breakWords(p, then *day.Plan, at time.Time) string {
	clock := planClock(p)
	if from, until := longestWait(p); until.Sub(from) >= breakTime {
		return fmt.Sprintf("There is nothing to do from %s to %s: time for a break.", clock(from), clock(until))
	}
	const other = "see when each load in the water has to come out at the latest, and be back before."
	if then == nil {
		return "The day has no half hour to spare. For a shorter break, " + other
	}
	return fmt.Sprintf("There is time for a break of half an hour at %s: what follows is up to half an hour later then, you're free at %s and the last is dry by %s. For another, ",
		clock(at), clock(then.DayFree), clock(then.AllDry)) + other
}

// longestWait is the longest time between two steps in which no hands have anything to
// do, before they are free.
func longestWait(p *day.Plan) (from, until time.Time) {
	var busy time.Time
	for i := range p.Steps {
		s := &p.Steps[i]
		if s.Done || !s.Do.Hands() || s.At.After(p.DayFree) {
			continue
		}
		if !busy.IsZero() && s.At.Sub(busy) > until.Sub(from) {
			from, until = busy, s.At
		}
		busy = model.Later(busy, s.Until)
	}
	return from, until
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

func plantTable(b *model.Book, p *day.Plan, l *day.Load, places []int, hung map[model.ID]time.Time) *paper.Table {
	at := planClock(p)
	t := &paper.Table{Tick: true, Wrap: true, Columns: []paper.Column{
		{Head: "nth", Right: true}, {Head: "home", Least: 8}, {Head: "plant", Least: 12}, {Head: "id", Right: true},
		{Head: "lay on"}, {Head: "dry by"}, {Head: "hang back"}, {Head: "coming out", Least: 12},
	}}
	for _, i := range places {
		plant, row := l.Plants[i], b.Row(l.Plants[i].ID)
		nth := fmt.Sprint(i + 1)
		if l.Load == 0 && plant.Hands.Pull == 0 {
			nth += standsBy
		}
		t.Add(nth, show.Home(row.Home), show.Title(row.Plant), plant.ID.String(), cmp.Or(plant.Bench, "any rack"),
			at(plant.Dry), hangWord(p, hung, plant.ID), whenOut(row))
	}
	return t
}

// standsBy marks a plant that is pulled already.
const standsBy = "*"

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

// notToday is who stays where it hangs, by name, under why.
func notToday(b *model.Book, p *day.Plan) []paper.Block {
	blocks := []paper.Block{paper.Words("Leave these where they hang.")}
	tables := map[string]*paper.Table{}
	for _, l := range p.Left {
		row := b.Row(l.ID)
		if row == nil {
			continue
		}
		why := show.Line(show.LeftOut(b, p, l.WithoutTimes())) + "."
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
		if !slices.Contains(p.Standing, v.Name) && !slices.ContainsFunc(p.Loads, func(l day.Load) bool { return l.Vessel == v.Name }) {
			continue
		}
		ticks = append(ticks, v.Name+" empty and dry")
	}
	ticks = append(ticks, "floor wiped", "fans still running where plants dry")
	if n := len(p.Morning); n > 0 {
		ticks = append(ticks, fmt.Sprintf("tomorrow morning, or in the evening if you like: look into the hearts of the %s that are still on the racks (\"tomorrow\" in the lists), and hang those that are dry", show.Count(n, "plant")))
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
