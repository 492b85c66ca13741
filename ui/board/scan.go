package board

import (
	"slices"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/ui/show"
)

// A scanner types the code of a label as if by hand: the sign, the plant's number,
// Enter. Each screen does with the plant what is done there.

// codeTaker is a screen that does more with a scanned plant than go to it.
type codeTaker interface {
	scanned(id model.ID)
}

// twiceWithin is how long after a plant was marked dry its code is taken for one
// scanned twice by mistake. A guess.
const twiceWithin = time.Minute

// scans reports whether a key begins a code: not where text is typed.
func (m *board) scans(msg tea.KeyMsg) bool {
	if msg.Paste || msg.String() != model.CodeSign {
		return false
	}
	return !slices.ContainsFunc(m.desk.over, func(o overlay) bool {
		switch o.(type) {
		case *form, *prompt, *firstMinute:
			return true
		}
		return false
	})
}

// scan takes the code as it is typed: until Enter no digit means anything else.
func (m *board) scan() {
	p := newPrompt(m.desk, m.front(), "Code:", model.CodeSign)
	p.accept = m.scanned
	p.cancel = func() { m.desk.said = "" }
	m.desk.push(p)
}

// scanned does with the plant of a code what the screen in front does with it.
func (m *board) scanned(code string) {
	m.desk.said = ""
	id, err := model.ParseCode(code)
	if err != nil {
		m.desk.complain(err)
		return
	}
	r := m.desk.book.Row(id)
	switch {
	case r == nil:
		m.desk.refuse("There is no plant %s in this book: is the label from another?", id)
		return
	case r.State == model.Gone:
		m.desk.refuse("%s is gone: %s", m.desk.named(id), show.Standing(r, m.desk.book, m.desk.now))
		return
	}
	m.desk.over, m.sought = nil, "" // n goes on from this plant to others of its name
	if s, ok := m.front().(codeTaker); ok {
		s.scanned(id)
		return
	}
	if l := m.front().list(); l != nil {
		if !l.goTo(id) {
			m.desk.refuse("%s is not on this list: %s", m.desk.named(id), show.Standing(r, m.desk.book, m.desk.now))
		}
		return
	}
	m.show(0)
	m.screens[0].(codeTaker).scanned(id)
}

// named is a plant's number and name.
func (d *desk) named(id model.ID) string {
	return "#" + id.String() + " " + show.Title(d.book.Row(id).Plant)
}

// refuse says why nothing was done.
func (d *desk) refuse(format string, args ...any) {
	d.say(format, args...)
	d.trouble = true
}

// scanned goes to the plant; a filter that hides it is dropped.
func (t *triage) scanned(id model.ID) {
	t.digits = nil
	also := ""
	if !t.rows.goTo(id) {
		t.filter, also = "", "; all plants are shown again"
		t.build()
		t.rows.goTo(id)
	}
	t.desk.say("%s: %s%s", t.desk.named(id), show.Standing(t.desk.book.Row(id), t.desk.book, t.desk.now), also)
}

// scanned marks the plant for the load that goes into the chosen vessel next. One
// that still hangs is pulled.
func (s *soakScreen) scanned(id model.ID) {
	r, waits := s.desk.book.Row(id), s.desk.book.Waiting().Has(id)
	switch {
	case r.State != model.AtHome:
		s.desk.refuse("%s does not go in: it is %s", s.desk.named(id), show.Standing(r, s.desk.book, s.desk.now))
		return
	case !r.Rot.IsZero():
		s.desk.refuse("%s does not go in: rot is suspected", s.desk.named(id))
		return
	case !r.Bloom.IsZero():
		s.desk.refuse("%s does not go in: it is in bloom, to be misted", s.desk.named(id))
		return
	case r.MistOnly && !waits:
		s.desk.refuse("%s does not go in: mist only, you said; pull it first", s.desk.named(id))
		return
	case waits && s.rows.marks[id]:
		s.desk.refuse("%s was scanned before: it goes in with the next load", s.desk.named(id))
		return
	case s.apart(id):
		return
	case !waits && !s.desk.enter(&model.Pull{}, id):
		return
	}
	s.rows.anchor = -1
	s.build()
	s.rows.marks[id] = true
	s.rows.goTo(id)
	s.desk.say("%s goes into %s next, %d so far: s starts them", s.desk.named(id), show.Safe(s.chosen().Name), s.rows.markCount())
}

// apart reports whether a plant keeps another company than those marked for the
// load, and says so.
func (s *soakScreen) apart(id model.ID) bool {
	if len(s.rows.marks) == 0 {
		return false
	}
	its, theirs := s.company(id), s.cleanest(s.rows.chosen())
	switch {
	case its > theirs:
		s.desk.refuse("%s stays out, it is kept apart: %s", s.desk.named(id), show.Company(its))
	case its < theirs:
		s.desk.refuse("%s stays out: these are %s, start them by themselves", s.desk.named(id), show.InCompany(theirs))
	}
	return its != theirs
}

// scanned marks a plant dry, or hangs it: which of the two says the list that the
// cursor is in. A code of the other list takes the cursor there, and does no more.
func (s *dryScreen) scanned(id model.ID) {
	if s.built != s.desk.version {
		s.build()
	}
	r, hanging := s.desk.book.Row(id), s.rehangs(s.rows.current())
	switch {
	case r.State == model.Drying && !hanging:
		s.tick(id, &model.FoundDry{})
	case r.State == model.Drying:
		s.rows.goTo(id)
		s.desk.refuse("%s is not marked dry yet: scan it again once its heart is dry", s.desk.named(id))
	case r.State != model.Dry:
		s.desk.refuse("%s is not to be dried or hung: it is %s", s.desk.named(id), show.Standing(r, s.desk.book, s.desk.now))
	case s.desk.now.Sub(r.DryAt) < twiceWithin:
		s.desk.refuse("%s was marked dry just now; r hangs it", s.desk.named(id))
	case !hanging:
		s.rows.goTo(id)
		s.desk.refuse("%s is dry already: scan it again when it hangs", s.desk.named(id))
	default:
		s.tick(id, &model.Hung{})
	}
}

// rehangs reports whether a plant is dry and waits to be hung.
func (s *dryScreen) rehangs(id model.ID) bool {
	r := s.desk.book.Row(id)
	return r != nil && r.State == model.Dry
}

// tick writes a fact of one plant. The cursor stays in its list as long as there is
// one: what the next code means must not change unseen.
func (s *dryScreen) tick(id model.ID, f model.Fact) {
	at, here, hanging := s.rows.cursor, s.rows.current(), s.rehangs(s.rows.current())
	if !s.desk.enter(f, id) {
		return
	}
	s.build()
	if here == id {
		s.rows.put(at)
	}
	if s.rehangs(s.rows.current()) == hanging {
		return
	}
	for _, r := range s.rows.rows {
		if r.id != 0 && s.rehangs(r.id) == hanging {
			s.rows.goTo(r.id)
			return
		}
	}
}
