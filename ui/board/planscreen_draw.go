package board

import (
	"fmt"
	"slices"
	"time"

	"tubside/model/day"

	"tubside/ui/show"
)

// draw writes the next step large, the day's sum, the lanes, and the steps.
func (s *planScreen) draw(p *page, height int) {
	if s.plan == nil || len(s.plan.Steps) == 0 {
		s.drawNothing(p)
		return
	}
	before := p.lines
	p.line(s.tonight())
	p.line(s.nextLine())
	p.line(s.theme.warn.of(show.Fit(" "+show.Safe(s.news), s.width)))
	p.line(s.sumLine())
	s.drawLanes(p, height-10)
	remark := s.leftWords()
	if long := laneKey + "   " + remark; show.Width(long) < s.width/2+8 {
		remark = long
	}
	p.line(s.heading("Steps", remark))
	s.rows.fit(s.steps(), height-(p.lines-before))
	for from, until := s.rows.inView(); from < until; from++ {
		p.line(s.stepLine(from))
	}
}

func (s *planScreen) drawNothing(p *page) {
	p.line("")
	switch {
	case s.why != "":
		p.line(s.theme.warn.of(show.Fit("   "+show.Line(show.Safe(s.why)), s.width)))
	case s.tally.Soaking+s.tally.Drying+s.tally.Dry > 0:
		p.line("   Nothing more to soak today; what is out is on the Drying screen.")
	default:
		p.line("   No plant needs water today.")
	}
	if s.plan != nil {
		for _, note := range show.PlanNotes(s.book, s.plan) {
			p.line(show.Fit("   "+show.Line(show.Safe(note)), s.width))
		}
	}
}

// next is the step to do next and when, "" when there is none.
func (s *planScreen) next() (time.Time, string) {
	if s.plan == nil || len(s.plan.Steps) == 0 {
		return time.Time{}, ""
	}
	step := &s.plan.Steps[0]
	return step.At, show.Safe(show.Step(s.book, s.plan, step))
}

// nextLine is what to do next, to be read from the tub.
func (s *planScreen) nextLine() string {
	step := &s.plan.Steps[0]
	wait := step.At.Sub(s.now)
	when := "in " + show.Duration(wait)
	paint := s.theme.title
	switch {
	case wait < -time.Minute:
		when, paint = show.Duration(-wait)+" late", s.theme.alarm
	case wait < time.Minute:
		when, paint = "now", s.theme.input
	}
	text := fmt.Sprintf("%s  %s", show.Clock(step.At, s.now, s.book.Zone()), show.Line(show.Safe(show.Step(s.book, s.plan, step))))
	return "   " + paint.of(show.Fit(text, s.width-show.Width(when)-9)) + "   " + paint.of(when)
}

// standAtLeast is how long before the plan begins water is still worth filling to
// let it stand. Our own.
const standAtLeast = 4 * time.Hour

// tonight reminds of water that must stand before the plan begins; "" when none
// must, or when it is too late for that.
func (s *planScreen) tonight() string {
	if s.plan.Ask.From.Sub(s.now) < standAtLeast {
		return ""
	}
	var vessels []string
	for _, l := range s.plan.Loads {
		if l.Load == 0 && l.Fill == 1 && !slices.Contains(vessels, l.Vessel) {
			vessels = append(vessels, l.Vessel)
		}
	}
	r, ok := day.FillTonight(s.keeper.Book(), s.plan.Ask.From, s.plan.Count(), vessels, s.now)
	if !ok {
		return ""
	}
	return s.theme.warn.of(show.Fit(" "+show.Line(show.Safe(show.Reminder(r)[0])), s.width))
}

// sumLine is the day in one line, as fully as fits.
func (s *planScreen) sumLine() string {
	clock := func(t time.Time) string { return show.Clock(t, s.now, s.book.Zone()) }
	rows, loads := show.Count(s.plan.Count(), "plant"), show.Count(len(s.plan.Loads), "load")
	free, dry := clock(s.plan.DayFree), clock(s.plan.AllDry)
	long, short := "", ""
	if s.plan.HandsFree.After(s.plan.DayFree) {
		long = ", a load for the night until " + clock(s.plan.HandsFree)
		short = ", night " + clock(s.plan.HandsFree)
	}
	text := fmt.Sprintf(" %s in %s; hands free %s%s, all dry by %s", rows, loads, free, long, dry)
	if show.Width(text) > s.width {
		text = fmt.Sprintf(" %s in %s; free %s%s, dry by %s", rows, loads, free, short, dry)
	}
	if show.Width(text) > s.width {
		text = fmt.Sprintf(" %s; free %s%s, dry by %s", rows, free, short, dry)
	}
	return show.Fit(text, s.width)
}

// leftWords says how many have no place in the plan.
func (s *planScreen) leftWords() string {
	switch {
	case len(s.plan.Late) > 0:
		return fmt.Sprintf("%d in the water too long ", len(s.plan.Late))
	case len(s.plan.Left) > 0:
		return fmt.Sprintf("%d left out ", len(s.plan.Left))
	}
	return ""
}

func (s *planScreen) stepLine(i int) string {
	step := &s.plan.Steps[i]
	sign, text := "  ", show.Line(show.Safe(show.Step(s.book, s.plan, step)))
	room := s.width - 2 - clockWidth - 2 - 1
	text = show.Fit(text, room)
	if i == s.rows.cursor {
		sign, text = s.theme.cursor.of("▸")+" ", s.theme.cursor.of(text)
	}
	return sign + show.PadLeft(show.Clock(step.At, s.now, s.book.Zone()), clockWidth) + "  " + text
}
