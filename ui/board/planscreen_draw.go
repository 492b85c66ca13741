package board

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tubside/model"
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
// its clock says, whatever hour the plan has found for it.
func (s *planScreen) dueAt(step *day.Step) time.Time {
	if step.Do == soak.GetOut {
		if load := s.desk.book.Load(s.plan.Loads[step.Load].Load); load != nil {
			return model.Earlier(step.At, load.Due)
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
	if back := show.PutBack(s.desk.book, s.plan); back != "" {
		for _, line := range wrap(show.Line(show.Safe(back)), s.desk.width-2) {
			lines = append(lines, s.desk.theme.warn.of(" "+line))
		}
	}
	if s.proposed() && len(s.plan.Loads) > 0 {
		return append(lines, s.desk.theme.warn.of(" Proposed: y agrees to it"))
	}
	news := ""
	if s.before != nil {
		news = show.PlanChanged(s.plan.Since(s.before))
	}
	dropped, _ := s.plan.Dropped()
	switch {
	case !s.plan.Stopped.IsZero():
		return lines
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

// columnHeads name the columns of the loads; at the right stands how many plants have no
// place in the plan, and how many loads lie below the window.
func (s *planScreen) columnHeads() string {
	head := "   load  " + show.Pad("vessel", vesselColumn) + " plants  " + show.Pad("in", hoursColumn) + "  " + show.Pad("out", hoursColumn)
	if !s.narrow() {
		head += "  " + show.PadLeft("soak", soakColumn) + "  from"
	}
	head = show.Fit(head, s.desk.width-1)
	var rights []string // the fullest first
	_, until := s.rows.inView()
	if below := len(s.plan.Loads) - until; below > 0 {
		rights = []string{fmt.Sprintf("%d more below", below), fmt.Sprintf("%d below", below), fmt.Sprintf("+%d", below)}
	}
	if n := len(s.plan.Left); n > 0 {
		words := fmt.Sprintf("not today: %d (w)", n)
		if len(rights) > 0 {
			words += ", " + rights[0]
		}
		rights = append([]string{words}, rights...)
	}
	right := ""
	for _, words := range slices.Backward(rights) {
		if show.Width(head)+show.Width(words)+2 <= s.desk.width {
			right = words
		}
	}
	return s.desk.theme.quiet.of(head + show.PadLeft(right, s.desk.width-1-show.Width(head)))
}

// Widths of the columns of loads.
const (
	hoursColumn = 11 // "08:36–08:51"
	soakColumn  = 7
)

// vesselColumn is the width of a load's vessel and where in it the load lies.
const vesselColumn = 14

// narrow reports whether there is no room for how long loads soak, and from where.
func (s *planScreen) narrow() bool { return s.desk.width < 66 }

// loadLine is one load: ticked when it is out, an arrow to what is next.
func (s *planScreen) loadLine(i int) string {
	l := &s.plan.Loads[i]
	sign := " "
	switch next := s.nextStep(); {
	case l.Done:
		sign = "✓"
	case l.Load != 0:
		sign = "~"
	case next != nil && next.Load == i:
		sign = "→"
	}
	zone := s.desk.book.Zone()
	clock := func(t time.Time) string { return t.In(zone).Format("15:04") }
	vessel := show.Safe(l.Vessel)
	if l.Heap > 0 {
		vessel += " " + s.heapSign(l)
	}
	if l.Night {
		vessel = "night " + vessel
	}
	in, out := clock(l.Start)+"–"+clock(inUntil(l)), clock(l.Out)+"–"+clock(l.End)
	line := fmt.Sprintf(" %s %4d  %s %6d  %s  %s", sign, i+1, show.Pad(show.Fit(vessel, vesselColumn), vesselColumn), len(l.Plants),
		show.Pad(in, hoursColumn), show.Pad(out, hoursColumn))
	if !s.narrow() {
		line += "  " + show.PadLeft(clockLength(l.Out.Sub(l.Start)), soakColumn) + "  "
		line += s.from(l, s.desk.width-show.Width(line))
	}
	line = show.Fit(line, s.desk.width)
	switch {
	case i == s.rows.cursor:
		return s.desk.barred(line)
	case l.Done:
		return s.desk.theme.quiet.of(line)
	}
	return line
}

// clockLength is the clock of a load, for a column: "54 min", "1 h 10".
func clockLength(d time.Duration) string {
	minutes := int(d.Round(time.Minute).Minutes())
	if minutes < 60 {
		return fmt.Sprintf("%d min", minutes)
	}
	return fmt.Sprintf("%d h %02d", minutes/60, minutes%60)
}

// heapSign tells two heaps in one vessel apart, by where they lie.
func (s *planScreen) heapSign(l *day.Load) string {
	if v, _ := s.desk.book.Vessel(l.Vessel); show.IsTub(v) {
		return [...]string{"", "by tap", "far end"}[l.Heap]
	}
	return [...]string{"", "left", "right"}[l.Heap]
}

// inUntil is when the last plant of a load is in.
func inUntil(l *day.Load) time.Time {
	last := l.Plants[len(l.Plants)-1]
	return last.In.Add(time.Duration(last.Hands.In) * time.Second)
}

// from names the shelves of a load, in the order in which its plants go in, or counts
// them where they do not fit; and the company that keeps it apart.
func (s *planScreen) from(l *day.Load, room int) string {
	var names []string
	seen := map[string]bool{}
	for _, t := range l.Plants {
		shelf := s.desk.book.Row(t.ID).Home.Shelf
		if !seen[shelf] {
			seen[shelf] = true
			names = append(names, shelfWords(shelf))
		}
	}
	text, company := show.Safe(strings.Join(names, ", ")), ""
	if l.Company != soak.Healthy {
		company = l.Company.String() + ": "
	}
	if show.Width(company+text) <= room {
		return company + text
	}
	if company != "" {
		return l.Company.String()
	}
	return show.Count(len(names), "shelf", "shelves")
}

// leastDrawn is from how many free lines on the load under the cursor is drawn.
const leastDrawn = 4

// drawLoad shows the load under the cursor as it lies, in as many lines as are free:
// its plants in the order in which they are pulled, go in and come out.
func (s *planScreen) drawLoad(p *page, free int) {
	l := s.load()
	if l == nil || free < leastDrawn {
		return
	}
	title := fmt.Sprintf("Load %d, %s", s.rows.cursor+1, show.Safe(l.Vessel))
	if heap := show.Heap(s.desk.book, l); heap != "" {
		title += ", " + heap
	}
	p.line("")
	order := ", in the order to pull them"
	if !l.ToCome() {
		order = ", in the order in which they went in"
	}
	p.line(s.desk.heading(title+order, ""))
	cell := 38
	if s.desk.lines { // one after the other
		cell = s.desk.width - 1
	}
	rows, columns := free-2, max(1, (s.desk.width-1)/cell)
	n := len(l.Plants)
	if n > rows*columns {
		rows-- // to say how many more there are
	} else {
		rows = (n + columns - 1) / columns
	}
	for r := range rows {
		line := " "
		for c := range columns {
			if i := c*rows + r; i < len(l.Plants) {
				row := s.desk.book.Row(l.Plants[i].ID)
				line += show.Pad(show.Fit(fmt.Sprintf("%4d %s %s", i+1, show.Pad(show.Safe(show.Home(row.Home)), 12), show.Safe(show.Title(row.Plant))), cell-2), cell)
			}
		}
		p.line(show.Fit(line, s.desk.width))
	}
	if more := n - rows*columns; more > 0 {
		p.line(s.desk.theme.quiet.of(fmt.Sprintf("  and %d more: enter", more)))
	}
}
