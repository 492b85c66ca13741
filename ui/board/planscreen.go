package board

import (
	"context"
	"fmt"
	"slices"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/model/care"
	"tubside/model/soak"
	"tubside/ui/show"
)

// planScreen is the soak day ahead: the vessels and the hands along the clock,
// what to do next, and what follows. Doing something else than planned is
// normal; the plan is made again from what was really done.
type planScreen struct {
	*board
	plan   *care.Plan
	ask    care.Ask
	why    string // why there is no plan
	cursor int    // in the plan's steps
	top    int
	shown  int
	built  int
}

// reflowWork is the effort of a plan made again between two keys: some
// hundredths of a second. Our own.
const reflowWork = 200_000

func newPlan(m *board) *planScreen { return &planScreen{board: m, built: -1} }

func (s *planScreen) name() string          { return "Plan" }
func (s *planScreen) letter() string        { return "p" }
func (s *planScreen) badge() string         { return "" }
func (s *planScreen) list() *list           { return nil }
func (s *planScreen) typed(tea.KeyMsg) bool { return false }

func (s *planScreen) open() {
	if s.built != s.version {
		s.make(0)
	}
}

// sync makes the plan again when something was done, only while it is in front.
func (s *planScreen) sync() {
	if s.built == s.version || s.front() != screen(s) {
		return
	}
	if s.plan == nil {
		s.make(reflowWork)
		return
	}
	s.built = s.version
	before := *s.plan
	before.Ask.Effort = soak.Effort{Work: reflowWork}
	plan, err := s.keeper.Replan(context.Background(), s.now, &before)
	s.take(plan, err)
	if err != nil || s.trouble {
		return
	}
	if changes := care.PlanChanges(&before, plan); len(changes) > 0 {
		s.say("%s · plan: %s", s.said, changes[0])
	}
}

// make plans the day from now on.
func (s *planScreen) make(work int) {
	s.built = s.version
	ask := s.ask
	ask.Effort = soak.Effort{Work: work}
	s.take(s.keeper.Plan(context.Background(), s.now, ask))
}

func (s *planScreen) take(plan *care.Plan, err error) {
	s.plan, s.why = plan, ""
	if err != nil {
		s.plan, s.why = nil, err.Error()
	}
	s.cursor = min(s.cursor, max(0, s.steps()-1))
}

func (s *planScreen) groups() []group {
	none := func() string {
		if s.step() == nil {
			return "Nothing is planned"
		}
		return ""
	}
	noLoad := func() string {
		if step := s.step(); step == nil || len(step.Plants) == 0 {
			return "No plants in this step"
		}
		return ""
	}
	move := func(n int) func() {
		return func() { s.cursor = min(max(s.cursor+n, 0), max(0, s.steps()-1)) }
	}
	return []group{
		{"The day", []binding{
			act([]string{"d"}, "d", "done: the step under the cursor, as it is planned", s.do).unless(none),
			act([]string{"p"}, "p", "pull the plants of this step, in walking order", s.pull).unless(noLoad),
			act([]string{"enter"}, "enter", "the plants of this step", func() { s.push(newPullList(s.board, s.load())) }).unless(noLoad),
			act([]string{"s"}, "s", "plan again, with time to look", func() { s.make(3 * soak.DefaultWork); s.say("Planned again") }),
			act([]string{"H"}, "H", "hours, dry-by, which shelf", func() { s.push(hoursForm(s)) }),
		}},
		{"The list", []binding{
			act([]string{"j", "down"}, "j ↓", "down", move(1)),
			act([]string{"k", "up"}, "k ↑", "up", move(-1)),
			act([]string{"pgdown", "ctrl+d"}, "pgdn", "a screen down", func() { move(max(1, s.shown-1))() }),
			act([]string{"pgup", "ctrl+u"}, "pgup", "a screen up", func() { move(-max(1, s.shown-1))() }),
			act([]string{"g", "home"}, "g", "first", func() { s.cursor = 0 }),
			act([]string{"G", "end"}, "G", "last", func() { s.cursor = max(0, s.steps()-1) }),
		}},
	}
}

func (s *planScreen) steps() int {
	if s.plan == nil {
		return 0
	}
	return len(s.plan.Steps)
}

// step is the step under the cursor, or nil.
func (s *planScreen) step() *care.Step {
	if s.cursor >= s.steps() {
		return nil
	}
	return &s.plan.Steps[s.cursor]
}

// load is the load the step under the cursor belongs to.
func (s *planScreen) load() *care.PlanLoad { return &s.plan.Loads[s.step().Load] }

// do writes the step under the cursor as done now.
func (s *planScreen) do() {
	step := s.step()
	switch step.Do {
	case soak.Fill:
		fill := &model.Fill{Vessel: step.Vessel}
		if w := s.book.Water(step.Vessel); w != nil {
			fill.Of = w.Of
		}
		s.enter(fill)
	case soak.Empty:
		s.enter(&model.Drain{Vessel: step.Vessel})
	case soak.PutIn:
		_, first, _ := s.plan.Placed(step.Plants[0])
		in := s.began(step)
		due := in.Add(first.Out.Sub(first.In))
		s.enterAt(in, &model.Soak{Load: s.book.NextLoad(), Vessel: step.Vessel, Due: due.UTC().Truncate(time.Second)}, step.Plants...)
	case soak.GetOut:
		s.takeOutAll(step.Plants, true)
	}
}

// began is when the hands began with a step that is done now: as long ago as it
// takes, not before its hour, and now if that is still to come.
func (s *planScreen) began(step *care.Step) time.Time {
	in := s.now.Add(-step.Until.Sub(step.At))
	if in.Before(step.At) {
		in = step.At
	}
	if in.After(s.now) {
		in = s.now
	}
	return in
}

// pull takes the step's plants off the shelf to wait beside the water.
func (s *planScreen) pull() {
	var ids model.IDs
	for _, id := range s.step().Plants {
		if s.book.Row(id).State == model.AtHome && !s.book.Waiting().Has(id) {
			ids = append(ids, id)
		}
	}
	if len(ids) == 0 {
		s.say("They are off the shelf already")
		return
	}
	s.enter(&model.Pull{}, s.book.Walk(ids)...)
}

func (s *planScreen) hints() string { return "d done   enter plants   p pull   s plan again   H hours" }

// draw writes the next step large, the day's sum, the lanes, and the steps.
func (s *planScreen) draw(p *page, height int) {
	if s.plan == nil || len(s.plan.Steps) == 0 {
		s.drawNothing(p)
		return
	}
	before := p.lines
	p.line(s.tonight())
	p.line(s.nextLine())
	p.line("")
	p.line(s.sumLine())
	s.drawLanes(p, height-10)
	p.line(s.heading("Steps", s.leftWords()))
	s.shown = max(1, height-(p.lines-before))
	s.top = min(max(s.top, s.cursor-s.shown+1), s.cursor)
	for i := s.top; i < len(s.plan.Steps) && i < s.top+s.shown; i++ {
		p.line(s.stepLine(i))
	}
}

func (s *planScreen) drawNothing(p *page) {
	p.line("")
	switch {
	case s.why != "":
		p.line(s.theme.warn.of(show.Fit("   "+show.Line(show.Safe(s.why)), s.width)))
	default:
		p.line("   No plant needs water today.")
	}
	if s.plan != nil {
		for _, n := range s.plan.Notes {
			p.line(show.Fit("   "+show.Line(show.Safe(n.Text)), s.width))
		}
	}
}

// nextLine is what to do next, to be read from the tub.
func (s *planScreen) nextLine() string {
	step := s.plan.Steps[0]
	wait := step.At.Sub(s.now)
	when := "in " + show.Duration(wait)
	paint := s.theme.title
	switch {
	case wait < -time.Minute:
		when, paint = show.Duration(-wait)+" late", s.theme.alarm
	case wait < time.Minute:
		when, paint = "now", s.theme.input
	}
	text := fmt.Sprintf("%s  %s", show.Clock(step.At, s.now, s.book.Zone()), show.Line(show.Safe(step.Text)))
	return "   " + paint.of(show.Fit(text, s.width-show.Width(when)-9)) + "   " + paint.of(when)
}

// tonight reminds of water that must stand before the plan begins; "" when none
// must.
func (s *planScreen) tonight() string {
	var vessels []string
	for _, l := range s.plan.Loads {
		if l.Load == 0 && l.Fill == 1 && !slices.Contains(vessels, l.Vessel) {
			vessels = append(vessels, l.Vessel)
		}
	}
	r, ok := s.keeper.FillTonight(s.plan.Ask.From, s.plan.Count(), vessels, s.now)
	if !ok {
		return ""
	}
	return s.theme.warn.of(show.Fit(" "+show.Line(show.Safe(r.Reasons[0].Text)), s.width))
}

// sumLine is the day in one line.
func (s *planScreen) sumLine() string {
	zone := s.book.Zone()
	text := fmt.Sprintf(" %s in %s; hands free %s, all dry by %s", show.Count(s.plan.Count(), "row"), show.Count(len(s.plan.Loads), "load"),
		show.Clock(s.plan.HandsFree, s.now, zone), show.Clock(s.plan.AllDry, s.now, zone))
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
	step := s.plan.Steps[i]
	sign, text := "  ", show.Line(show.Safe(step.Text))
	room := s.width - 2 - clockWidth - 2 - 1
	text = show.Fit(text, room)
	if i == s.cursor {
		sign, text = s.theme.cursor.of("▸")+" ", s.theme.cursor.of(text)
	}
	return sign + show.PadLeft(show.Clock(step.At, s.now, s.book.Zone()), clockWidth) + "  " + text
}
