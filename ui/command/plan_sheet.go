package command

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// planSheet writes the plan as a sheet to print.
func (r *run) planSheet(ctx context.Context, k *estimate.Keeper, p *day.Plan, q *planQuestion) error {
	rest, err := breakWords(ctx, k, r.now(), p)
	if err != nil {
		return err
	}
	points := []string{rest}
	for _, o := range offerWords(p, day.Offers(ctx, k, r.now(), p), k.Book().Rules(), r.now()) {
		points = append(points, "You can have the day another way: "+o+". Agree to that before you go on, and print this again.")
	}
	return r.writeSheet(q.file, soakSheet(k, p, r.now(), points...), q.calendar.force)
}

// soakPaper is a soak day as it goes on paper.
type soakPaper struct {
	k      *estimate.Keeper
	b      *model.Book
	p      *day.Plan
	now    time.Time
	at     func(time.Time) string // a time of the day
	rounds []hangRound
	round  map[model.ID]int // the number of the round that hangs a plant
}

// soakSheet is a soak day on paper, for somebody who has never seen the program: how to
// go about it, what to do with boxes to tick, and each load's plants in the order in
// which they are fetched, go in and come out.
func soakSheet(k *estimate.Keeper, p *day.Plan, now time.Time, rest ...string) *paper.Sheet {
	s := &soakPaper{k: k, b: k.Book(), p: p, now: now.In(p.Ask.From.Location()), at: planClock(p)}
	s.hangInRounds()
	sheet := &paper.Sheet{
		Title: "Soak day, " + p.Ask.From.Format("Monday 2 January 2006"),
		Under: s.head(),
		Foot:  "Pulled = soaked = dried = hung back. If they do not match, a plant is missing.",
	}
	if first := s.first(); len(first) > 0 {
		sheet.Add("Before anything else", first)
	}
	sheet.Add("How to go about it", s.howTo(rest...))
	sheet.Add("Take care", s.cautions())
	sheet.Add("The day", s.day()...)
	for i := range p.Loads {
		addSmall(sheet, loadTitle(&p.Loads[i]), s.load(&p.Loads[i])...)
	}
	if lying := s.lyingBefore(); len(lying.Rows) > 0 {
		addSmall(sheet, "Drying already", paper.Words("These lay there before the day began."), lying)
	}
	s.addRounds(sheet)
	if len(p.Left) > 0 {
		addSmall(sheet, "Not today", s.notToday()...)
	}
	sheet.Add("To close the day", s.closing())
	return sheet
}

// addSmall puts a section of long lists at the end of the sheet.
func addSmall(sheet *paper.Sheet, title string, blocks ...paper.Block) {
	sheet.Sections = append(sheet.Sections, paper.Section{Title: title, Blocks: blocks, Small: true})
}

// head is what stands under the title: which plan this is, how many plants, until when.
func (s *soakPaper) head() []string {
	lines := []string{s.printed()}
	for i := range s.p.Loads {
		if since, over := s.overdue(&s.p.Loads[i]); over {
			lines = append(lines, fmt.Sprintf("OVERDUE: load %d in %s, since %s. Take it out before anything goes in.",
				s.p.Loads[i].Number, s.p.Loads[i].Vessel, s.at(since)))
		}
	}
	return append(lines, s.counts(), s.ends(), s.hanging())
}

// printed tells this sheet from others of the same day.
func (s *soakPaper) printed() string {
	if s.p.Agreed.IsZero() {
		return fmt.Sprintf("Printed at %s. Nobody has agreed to this plan yet: agree to it (tubside enter plan), and "+
			"print it again, so that the program goes by the same one.", s.at(s.now))
	}
	return fmt.Sprintf("The plan %s; printed at %s. Throw older sheets of this day away.",
		strings.TrimSuffix(show.PlanAgreed(s.b, s.p), "; print a new sheet"), s.at(s.now))
}

// counts says how many plants the lists of the sheet have, so that they add up: those
// that go in, those that are in, those that are out.
func (s *soakPaper) counts() string {
	in := map[string]int{}
	var vessels []string
	out := 0
	for i := range s.p.Loads {
		switch l := &s.p.Loads[i]; {
		case l.Done:
			out += len(l.Plants)
		case l.Load != 0:
			if in[l.Vessel] == 0 {
				vessels = append(vessels, l.Vessel)
			}
			in[l.Vessel] += len(l.Plants) - s.toCome(l)
		}
	}
	parts := []string{fmt.Sprintf("To put in: %s in "+
		"%s", show.Count(s.p.Count(), "plant"), show.Count(s.p.CountLoads(), "load"))}
	for _, v := range vessels {
		parts = append(parts, fmt.Sprintf("in %s now: %d", v, in[v]))
	}
	if out > 0 {
		parts = append(parts, fmt.Sprintf("out already: %d", out))
	}
	if n := len(s.lyingBefore().Rows); n > 0 {
		parts = append(parts, fmt.Sprintf("drying from before: %d", n))
	}
	return strings.Join(parts, "; ") + "."
}

// ends says when the hands are free and all are dry, and who is wet for too long.
func (s *soakPaper) ends() string {
	line := show.Line(freeWords(s.p)) + "."
	line += fmt.Sprintf(" The last is dry by %s.", s.at(s.p.AllDry))
	if wet := show.Wet(s.b, s.p, len(s.p.Lying)+s.p.Count()); wet != "" {
		line += " " + show.Line(wet) + "."
	}
	return line
}

// first is what comes before the lines of the day.
func (s *soakPaper) first() paper.Ticks {
	var ticks paper.Ticks
	for _, name := range s.p.Standing {
		ticks = append(ticks, fmt.Sprintf("Empty %s at once and rinse it. It stands full since %s, and nothing "+
			"goes into it any more.",
			name, s.at(s.b.Water(name).At)))
	}
	return ticks
}

// closing is what ends a soak day.
func (s *soakPaper) closing() paper.Ticks {
	var ticks paper.Ticks
	for _, v := range s.b.Vessels() {
		uses := func(night bool) bool {
			return slices.ContainsFunc(s.p.Loads, func(l day.Load) bool {
				return l.Vessel == v.Name && !l.Done && l.Night == night
			})
		}
		used := slices.ContainsFunc(s.p.Loads, func(l day.Load) bool { return l.Vessel == v.Name })
		switch {
		case uses(true):
			ticks = append(ticks, "tomorrow morning, after the load of the night: "+v.Name+" empty and dry")
		case used || s.b.Water(v.Name) != nil:
			ticks = append(ticks, v.Name+" empty and dry")
		}
	}
	ticks = append(ticks, "floor wiped", "fans still running where plants dry")
	if n := len(s.morning()); n > 0 {
		ticks = append(ticks, fmt.Sprintf("tomorrow morning, or in the evening if you like: look into the hearts "+
			"of the %s that "+
			"still lie there (\"tomorrow\" in the lists), and hang up those that are dry", show.Count(n, "plant")))
	}
	return ticks
}
