package board

import (
	"fmt"
	"strings"
	"time"

	"tubside/model/day"
	"tubside/model/soak"
	"tubside/ui/show"
)

// draw writes the next thing large, the day's sum, the loads, and the lanes.
func (s *planScreen) draw(p *page, height int) {
	if s.plan == nil && s.making != nil {
		s.drawMaking(p, height)
		return
	}
	if s.plan == nil {
		s.drawNothing(p)
		return
	}
	before := p.lines
	for _, line := range s.nextLines() {
		p.line(line)
	}
	for _, tap := range s.desk.taps {
		text, paint := s.desk.tapLine(tap)
		p.line(paint.of(show.Fit(" "+text, s.desk.width)))
	}
	if tap := s.beside(); tap != nil {
		p.line(s.desk.theme.input.of(" Beside it, now: " + s.stepWords(tap, s.desk.width-30) + "; f"))
	}
	for _, line := range s.newsLines() {
		p.line(line)
	}
	p.line(s.sumLine())
	for _, line := range s.noteLines() {
		p.line(line)
	}
	lanes := s.laneLines(height)
	offers := s.offers[:min(len(s.offers), max(0, height-len(lanes)-9))]
	s.rows.fit(len(s.plan.Loads), height-(p.lines-before)-1-len(lanes)-len(offers))
	p.line(s.columnHeads())
	for from, until := s.rows.inView(); from < until; from++ {
		p.line(s.loadLine(from))
	}
	for i, o := range offers {
		p.line(show.Fit(fmt.Sprintf(" %s  %s", s.desk.theme.input.of(fmt.Sprint(i+1)), show.Safe(show.Offer(s.plan, o))), s.desk.width))
	}
	s.drawLoad(p, height-len(lanes)-(p.lines-before))
	for p.lines-before < height-len(lanes) {
		p.line("")
	}
	for _, lane := range lanes {
		p.line(lane)
	}
}

func (s *planScreen) drawNothing(p *page) {
	p.line("")
	switch {
	case s.why != "":
		p.line(s.desk.theme.warn.of(show.Fit("   "+show.Line(show.Safe(s.why)), s.desk.width)))
	default:
		p.line("   No plant needs water today.")
	}
}

// largeFrom is from how many lines of the window on the hour of the next thing to do
// stands in large digits. A choice: below it the loads need the lines.
const largeFrom = 30

// nextLines are what to do next, to be read from the tub: its hour, what it is, and how
// long that is from now; where there is room the hour is large, and what comes then
// stands below.
func (s *planScreen) nextLines() []string {
	step := s.nextStep()
	if step == nil {
		if len(s.plan.Loads) == 0 {
			return []string{"   No plant needs water today."}
		}
		done := "All is done."
		if !s.plan.Stopped.IsZero() {
			done = show.Line(show.PlanAgreed(s.desk.book, s.plan)) + "."
		}
		return []string{"   " + s.desk.theme.good.of(done) + "  " + morningWords(s.plan)}
	}
	due := s.dueAt(step)
	when, paint := "in "+show.Duration(due.Sub(s.desk.now)), s.desk.theme.input
	switch wait := due.Sub(s.desk.now); {
	case wait <= -time.Minute:
		when, paint = show.Duration(-wait)+" late", s.desk.theme.alarm
	case wait < time.Minute:
		when = "now"
	}
	if step.Begun(s.desk.now) && due.Equal(step.At) {
		when, paint = "now, until "+show.Clock(step.Until, s.desk.now, s.desk.book.Zone()), s.desk.theme.input
	}
	hour := show.Clock(due, s.desk.now, s.desk.book.Zone())
	if s.desk.height < largeFrom || s.desk.lines {
		room := s.desk.width - show.Width(" Next "+hour+"  "+"   "+when+" ")
		return []string{s.desk.theme.title.of(" Next "+hour) + "  " + s.stepWords(step, room) + "   " + paint.of(when)}
	}
	digits := fineDigits(hour, s.desk.ascii)
	room := s.desk.width - show.Width(digits[0]) - 6
	beside := [len(digits)]string{s.desk.theme.quiet.of("Next ") + s.desk.theme.title.of(s.stepWords(step, room-5)),
		paint.of("     " + when)}
	if then := s.stepAfter(step); then != nil {
		at := "then " + show.Clock(then.At, s.desk.now, s.desk.book.Zone()) + "  "
		beside[2] = s.desk.theme.quiet.of(at + s.stepWords(then, room-show.Width(at)))
	}
	var lines []string
	for i, digit := range digits {
		lines = append(lines, "  "+paint.of(digit)+"   "+beside[i])
	}
	return lines
}

// dueAt is when a step is to be done: a load that lies in the water is to come out when
// its own clock says, where the plan has it out too late for it.
func (s *planScreen) dueAt(step *day.Step) time.Time {
	if step.Do == soak.GetOut {
		if load := s.desk.book.Load(s.plan.Loads[step.Load].Load); load != nil {
			return s.desk.outAt(load).From
		}
	}
	return step.At
}

// stepAfter is the next thing to do after another, or nil.
func (s *planScreen) stepAfter(step *day.Step) *day.Step {
	after := false
	for i := range s.plan.Steps {
		next := &s.plan.Steps[i]
		if after && !next.Done {
			return next
		}
		after = after || next == step
	}
	return nil
}

// stepWords say what to do, in so many cells.
func (s *planScreen) stepWords(step *day.Step, room int) string {
	return show.Clause(show.Line(show.Safe(show.Step(s.desk.book, s.plan, step))), room)
}

// newsLines say that the plan waits for a yes, or whom it cannot get out as it should,
// and how it has changed since the grower last did something.
func (s *planScreen) newsLines() []string {
	var lines []string
	if s.making != nil {
		return []string{s.desk.theme.quiet.of(" Planning again …  Esc gives up")}
	}
	for _, words := range show.TooLate(s.desk.book, s.plan) {
		for _, line := range wrap(show.Line(show.Safe(words)), s.desk.width-2) {
			lines = append(lines, s.desk.theme.alarm.of(" "+line))
		}
	}
	if out := show.BrokenOff(s.desk.book, s.plan, s.desk.now); out != "" {
		for _, line := range wrap(show.Line(out), s.desk.width-2) {
			lines = append(lines, s.desk.theme.alarm.of(" "+line))
		}
	}
	if back := show.PutBack(s.desk.book, s.plan); back != "" {
		for _, line := range wrap(show.Line(show.Safe(back)), s.desk.width-2) {
			lines = append(lines, s.desk.theme.warn.of(" "+line))
		}
	}
	if s.proposed() && len(s.plan.Loads) > 0 {
		for _, line := range wrap(s.proposedWords(), s.desk.width-2) {
			lines = append(lines, s.desk.theme.warn.of(" "+line))
		}
		return lines
	}
	news := ""
	if s.before != nil {
		news = show.PlanChanged(s.plan.Since(s.before))
	}
	dropped, _ := s.plan.Dropped()
	switch {
	case !s.plan.Stopped.IsZero():
		if s.nextStep() == nil {
			return lines
		}
		news = show.PlanAgreed(s.desk.book, s.plan)
	case len(dropped) > 0: // the paper that was printed before does not hold
		for _, line := range wrap(show.Line(show.Safe(show.PlanAgreed(s.desk.book, s.plan))), s.desk.width-2) {
			lines = append(lines, s.desk.theme.warn.of(" "+line))
		}
	case news == "":
		news = show.PlanNews(s.plan.News(s.desk.book))
	}
	if news != "" || len(lines) == 0 {
		lines = append(lines, s.desk.theme.warn.of(show.Fit(" "+show.Line(show.Safe(news)), s.desk.width)))
	}
	return lines
}

// proposedWords say that the plan waits for a yes, and what one of another kind would give.
func (s *planScreen) proposedWords() string {
	if s.instead.plan == nil {
		return "Proposed: y agrees to it"
	}
	what := ""
	if help := show.Stretches(s.plan.Ask.Help, s.desk.now); len(help) > 0 {
		what = ", with two pairs of hands " + strings.Join(help, ", ")
	}
	return "Proposed" + what + ": " + show.Gives(s.instead.plan, s.plan) + ". y agrees, u goes back"
}

// sumLine is the day in one line, as fully as fits.
func (s *planScreen) sumLine() string {
	clock := func(t time.Time) string { return show.Clock(t, s.desk.now, s.desk.book.Zone()) }
	rows, loads := show.Count(s.plan.Count(), "plant"), show.Count(s.plan.CountLoads(), "load")
	visits := show.Count(s.plan.Visits, "visit")
	if !s.proposed() {
		visits += " to come"
	}
	free, dry := clock(s.plan.DayFree), clock(s.plan.AllDry)
	night := ""
	if s.plan.HandsFree.After(s.plan.DayFree) {
		night = ", night " + clock(s.plan.HandsFree)
	}
	for _, text := range []string{
		fmt.Sprintf(" %s in %s, %s; you're free at %s%s, all dry by %s; %s", rows, loads, visits, free, night, dry, morningWords(s.plan)),
		fmt.Sprintf(" %s in %s, %s; you're free at %s%s, all dry by %s", rows, loads, visits, free, night, dry),
		fmt.Sprintf(" %s in %s; free at %s%s, dry by %s", rows, loads, free, night, dry),
	} {
		if show.Width(text) <= s.desk.width {
			return text
		}
	}
	return show.Fit(fmt.Sprintf(" %s; free at %s%s, dry by %s", rows, free, night, dry), s.desk.width)
}

// noteLines say what the grower should know before the first step: the first of it, and of
// the rest as much as a high window has lines for.
func (s *planScreen) noteLines() []string {
	var lines []string
	for _, note := range show.PlanNotes(s.desk.book, s.plan) {
		lines = append(lines, s.desk.theme.quiet.of(" "+show.Clause(show.Line(show.Safe(note)), s.desk.width-2)))
	}
	if s.desk.height < largeFrom && len(lines) > 1 {
		return lines[:1]
	}
	return lines
}

// morningWords says how many are left to hang in the morning.
func morningWords(p *day.Plan) string {
	if len(p.Morning) == 0 {
		return "all hung"
	}
	return fmt.Sprintf("%d to hang in the morning", len(p.Morning))
}
