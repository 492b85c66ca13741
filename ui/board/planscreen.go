package board

import (
	"context"
	"fmt"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/ui/show"
)

// planScreen is the soak day ahead: the vessels and the hands along the clock,
// what to do next, and what follows. Doing something else than planned is
// normal; the plan is made again from what was really done.
type planScreen struct {
	*desk
	plan  *day.Plan
	ask   day.Ask
	why   string // why there is no plan
	news  string // what the last entry changed in the plan
	rows  window // the plan's steps
	built int
	seen  int // entries of the book that the plan knows of
}

// reflowWork is the effort of a plan made again between two keys: some
// hundredths of a second. Our own.
const reflowWork = 200_000

func newPlan(d *desk) *planScreen { return &planScreen{desk: d, built: -1} }

func (s *planScreen) name() string   { return "Plan" }
func (s *planScreen) letter() string { return "p" }
func (s *planScreen) badge() string  { return "" }
func (s *planScreen) list() *list    { return nil }

// open makes a plan where there is none of today; one of today is made again by
// sync, which keeps to it.
func (s *planScreen) open() {
	zone := s.book.Zone()
	if s.plan == nil || show.Day(s.plan.Made, zone) != show.Day(s.now, zone) {
		s.make(0)
	}
}

// sync ticks off what was done, and makes the plan again when it was something
// else or out of time, only while it is in front.
func (s *planScreen) sync() {
	if s.built == s.version {
		return
	}
	if s.plan == nil {
		s.make(reflowWork)
		return
	}
	s.built = s.version
	known := s.seen
	if s.follow() {
		if s.seen > known {
			s.news = ""
		}
		return
	}
	before := *s.plan
	before.Ask.Effort = soak.Effort{Work: reflowWork}
	plan, err := day.Replan(context.Background(), s.keeper, s.now, &before)
	if err != nil {
		s.make(reflowWork) // the hours of the plan are over: those to come
		return
	}
	s.take(plan, nil)
	if s.trouble {
		return
	}
	s.news = newsOf(show.PlanChanges(day.Changes(&before, plan)))
}

// newsOf is the first change of a plan, and how many more there are.
func newsOf(changes []string) string {
	switch len(changes) {
	case 0:
		return ""
	case 1:
		return "Plan changed: " + changes[0]
	}
	return fmt.Sprintf("Plan changed: %s; %s", changes[0], show.Count(len(changes)-1, "more change"))
}

// inOrder puts steps in clock order, and taking out before whatever else is to be
// done at that time: no plant stays in too long while another vessel fills.
func inOrder(steps []day.Step) {
	slices.SortStableFunc(steps, func(a, b day.Step) int {
		switch {
		case !a.At.Equal(b.At):
			return a.At.Compare(b.At)
		case a.Do == soak.GetOut && b.Do != soak.GetOut:
			return -1
		case b.Do == soak.GetOut && a.Do != soak.GetOut:
			return 1
		}
		return 0
	})
}

// make plans the day from now on.
func (s *planScreen) make(work int) {
	s.built = s.version
	ask := s.ask
	ask.Effort = soak.Effort{Work: work}
	s.take(day.NewPlan(context.Background(), s.keeper, s.now, ask))
}

func (s *planScreen) take(plan *day.Plan, err error) {
	s.plan, s.why, s.news, s.seen = plan, "", "", len(s.book.Entries())
	if err != nil {
		s.plan, s.why = nil, err.Error()
		return
	}
	inOrder(plan.Steps)
	s.rows.fit(s.steps(), s.rows.height)
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
	return []group{
		{"The day", []binding{
			act("d", "done: the step under the cursor, as it is planned", s.do).unless(none).foot("done"),
			act("enter", "the plants of this step", func() { s.push(newPullList(s.desk, s.load(), s.step().Plants)) }).unless(noLoad).foot("plants"),
			act("p", "pull the plants of this step, in walking order", s.pull).unless(noLoad).footWhen("pull", func() bool { return s.step().Do == soak.PutIn }),
			act("s", "plan again, with time to look", func() { s.make(3 * soak.DefaultWork); s.say("Planned again") }).foot("plan again"),
			act("H", "hours, dry-by, which shelf", func() { s.push(hoursForm(s)) }).foot("hours"),
		}},
		{"The list", s.rows.keys()},
	}
}

func (s *planScreen) steps() int {
	if s.plan == nil {
		return 0
	}
	return len(s.plan.Steps)
}

// step is the step under the cursor, or nil.
func (s *planScreen) step() *day.Step {
	if s.rows.cursor >= s.steps() {
		return nil
	}
	return &s.plan.Steps[s.rows.cursor]
}

// load is the load the step under the cursor belongs to.
func (s *planScreen) load() *day.Load { return &s.plan.Loads[s.step().Load] }

// do writes the step under the cursor as done now, and goes back to the next
// thing to do.
func (s *planScreen) do() {
	step := s.step()
	s.rows.put(0)
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
		s.putIn(step)
	case soak.GetOut:
		s.takeOutAll(step.Plants, true)
	}
}

// began is when the hands began with a step that is done now: as long ago as it
// takes, not before its hour, and now if that is still to come.
func (s *planScreen) began(step *day.Step) time.Time {
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

func (s *planScreen) lead() string { return "" }
