package board

import (
	tea "github.com/charmbracelet/bubbletea"

	"tubside/ui/show"
)

// groups are the keys of the plan: agreeing, ticking off, changing, and the offers.
func (s *planScreen) groups() []group {
	noPlan := func() string {
		switch {
		case s.making != nil && s.plan == nil:
			return "Still planning, one moment"
		case s.plan == nil:
			return "There is no plan"
		}
		return ""
	}
	nothing := func() string {
		if s.nextStep() == nil {
			return "Nothing is left to do"
		}
		return ""
	}
	noTap := func() string {
		if s.beside() == nil {
			return "No tap is to be opened beside what is next"
		}
		return ""
	}
	noLoad := func() string {
		if s.load() == nil {
			return "No load here"
		}
		return ""
	}
	notToDo := func() string {
		switch l := s.load(); {
		case l == nil:
			return "No load here"
		case s.ofLoad() == nil:
			return "It is done"
		}
		return ""
	}
	notAgreed := func() string {
		if s.plan == nil || s.proposed() {
			return "Agree to the plan first: y"
		}
		return ""
	}
	notSkipped := func() string {
		if why := notAgreed(); why != "" {
			return why
		}
		if l := s.load(); l == nil || l.Done || l.Load != 0 {
			return "Too late to skip: it is in the water or already out"
		}
		return ""
	}
	agreed := func() string {
		if why := noPlan(); why != "" {
			return why
		}
		if !s.proposed() {
			return "It is agreed"
		}
		return ""
	}
	idle := func() string {
		if s.making == nil && !(s.anew && s.proposed()) {
			return "No plan is being made just now"
		}
		return ""
	}
	dry := func() string {
		if len(s.desk.loads) == 0 && (s.plan == nil || s.proposed()) {
			return "Nothing is in the water"
		}
		if len(s.desk.loads) == 0 && !s.plan.Stopped.IsZero() {
			return "You have stopped for today: all is written out of the water"
		}
		return ""
	}
	var back []binding
	if s.instead.plan != nil && idle() == "" { // before the key that strikes entries
		back = append(back, act("u", "not this plan: the one before it", s.cancel).pad("9").foot("back"))
	}
	return []group{
		{"The day", append(back, []binding{
			act("y", "agree to this plan: from then on it stays as it is, and only its times move", s.agree).pad("0").unless(agreed).footWhen("agree", s.proposed),
			act("d", "the next thing is done now", func() { s.do("d", s.nextStep()) }).pad("*").unless(nothing).foot("done"),
			act("f", "the tap beside it runs now", func() { s.do("f", s.beside()) }).unless(noTap).footWhen("tap", func() bool { return s.beside() != nil }),
			act("D", "the load under the cursor first: its next thing is done now", func() { s.do("D", s.ofLoad()) }).unless(notToDo),
			act("-", "the load put in just now went in earlier: when the plan had it, or a minute", s.earlier).unless(s.notEarlier),
			act("x", "the load under the cursor another day", s.skip).unless(notSkipped).footWhen("skip", func() bool { return !s.proposed() }),
			act("m", "a plant of the load under the cursor is not there: it is left for another day", func() { s.desk.push(newMissing(s)) }).unless(notSkipped),
			act("l", "a quarter of an hour late", s.late).unless(notAgreed).footWhen("late", func() bool { return !s.proposed() }),
			act("enter", "the load under the cursor: as it lies, and what to pull", func() { s.desk.push(newLoadView(s.desk, s.plan, s.rows.cursor)) }).unless(noLoad).foot("load"),
			act("w", "who is not in it today, and why", func() { s.desk.push(newNotToday(s.desk, s.plan)) }).unless(noPlan).foot("not today"),
			bind("1-9", "take an offer", s.takeOffer).pad("1-8"),
			act("+", "another pair of hands for an hour", s.anotherPair).unless(noPlan),
			act("s", "plan again from now, with everybody who is due", s.again).pad(".").foot("again"),
			act("esc", "give up planning: a plan you agreed to stands", s.cancel).unless(idle).footWhen("give up", func() bool { return s.making != nil }),
			act("X", "everything out now: stop for today; asks once", s.breakOff).unless(dry),
			act("H", "hours, dry-by, a break, which shelf", func() { s.desk.push(hoursForm(s)) }).foot("hours"),
		}...)},
		{"The loads", s.cursorKeys()},
	}
}

// takeOffer shows an offered plan instead.
func (s *planScreen) takeOffer(msg tea.KeyMsg) tea.Cmd {
	i := int(msg.String()[0] - '1')
	if i >= len(s.offers) {
		s.desk.say("There is no offer %d", i+1)
		return nil
	}
	o := s.offers[i]
	s.desk.say("%s: y agrees", show.Line(show.Safe(show.Offer(s.plan, o))))
	s.another()
	s.ask, s.anew, s.offered = o.Ask, true, offered{}
	s.take(o.Plan)
	return nil
}
