package board

import (
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/ui/show"
)

// scales say what the digit to come stands for; the first is curl, before it is pressed.
var scales = [...]struct{ wide, short string }{
	{"curl: 0 flat, 1 edges lifting, 2 deep channel, 3 rolled shut", "curl: 0 flat 1 lifting 2 channel 3 rolled"},
	{"tips: 0 none, 1 a few, 2 many, 3 most of the new tips brown", "tips: 0 none 1 a few 2 many 3 most brown"},
	{"shift: 0 dark already, 1 slow, 2 quick, 3 stays pale", "shift: 0 dark already 1 slow 2 quick 3 pale"},
}

// scale is the scale of the sign that the next digit sets.
func (t *triage) scale() string {
	s := scales[len(t.digits)]
	switch {
	case t.mayBeWhole():
		return "shift: 6 dark already 7 slow 8 quick 9 pale"
	case t.desk.width < wideScreen:
		return s.short
	}
	return s.wide
}

func (t *triage) digit(msg tea.KeyMsg) tea.Cmd {
	if t.regrades() {
		return nil
	}
	g, _ := model.ParseGrade(msg.String())
	if t.mayBeWhole() { // that is the next plant's curl
		if t.saveDigits(); !t.keyingIn.on {
			return nil
		}
	}
	t.digits = append(t.digits, g)
	if len(t.digits) == t.signsToKey() {
		t.saveDigits()
	}
	return nil
}

// saveDigits writes what was keyed in; signs not reached are not seen.
func (t *triage) saveDigits() {
	s := model.NoSigns
	for i, g := range t.digits {
		switch i {
		case 0:
			s.Curl = g
		case 1:
			s.Tips = g
		case 2:
			s.Shift = g
		}
	}
	t.digits = nil
	dropped := t.withShift(&s)
	if t.look(s); dropped != "" && !t.desk.trouble {
		t.desk.say("%s", dropped)
	}
}

// lookAgain is look by one key, which is easily pressed once too often.
func (t *triage) lookAgain(s model.Signs) {
	if !t.regrades() {
		t.look(s)
	}
}

// look writes signs for the chosen plants and steps on.
func (t *triage) look(s model.Signs) {
	several, seen, onSheet := t.rows.several(), t.rows.chosen(), t.keyingIn.on
	if !t.desk.enter(&model.Look{Signs: s}, seen...) {
		return
	}
	t.pullItself(seen)
	t.last = s
	t.recount()
	t.rows.unmark()
	if !several {
		t.step()
		t.walked = walkedOn{from: seen[0], to: t.rows.current()}
	}
	if !onSheet {
		t.sayAllLooked()
	}
}

// sayAllLooked says when the last plant of the walk was looked at, and how the thirsty
// are pulled.
func (t *triage) sayAllLooked() {
	if t.desk.trouble || !t.walkWhole() {
		return
	}
	said := "All looked at"
	if n := len(t.lookedAndNeed("dip")); n > 0 {
		said += fmt.Sprintf("; P pulls the thirsty, %d from Dip on", n)
	} else if n := len(t.desk.book.Waiting()); n > 0 {
		said += fmt.Sprintf("; %s pulled", show.Count(n, "plant"))
	}
	t.desk.say("%s", said)
}

// walkWhole reports whether every plant at home was looked at in this walk.
func (t *triage) walkWhole() bool {
	return !slices.ContainsFunc(t.desk.book.IDs(), func(id model.ID) bool {
		return t.desk.book.Row(id).State == model.AtHome && !t.looked(id)
	})
}

// regrades holds the first key back that would grade the last plant of the list once
// more because the cursor could not go on: whoever means it presses it again.
func (t *triage) regrades() bool {
	w := &t.walked
	if len(t.digits) > 0 || t.keyingIn.on || w.from == 0 || w.from != t.rows.current() || w.to != w.from {
		return false
	}
	t.desk.say("%s is looked at, the last in the list; once more grades it again", show.Title(t.desk.book.Row(w.from).Plant))
	t.walked = walkedOn{}
	return true
}

// walkedOn is the plant just looked at and the one that the cursor went on to by
// itself: until it is moved, the plant in the hand is the one before.
type walkedOn struct{ from, to model.ID }

// inHand is the plant that p pulls although the cursor has gone on, 0 for none.
func (t *triage) inHand() model.ID {
	w := t.walked
	if w.from == 0 || w.to != t.rows.current() || w.to == w.from || t.rows.several() || t.desk.book.Waiting().Has(w.from) ||
		t.desk.book.Row(w.from) == nil || t.desk.book.Row(w.from).State.Away() {
		return 0
	}
	return w.from
}

// step goes on to the next plant.
func (t *triage) step() {
	if t.mapped {
		t.hooks.next()
		return
	}
	at := t.rows.cursor
	t.rows.move(1)
	if k := &t.keyingIn; k.on && (k.done >= k.all || t.rows.cursor == at) {
		t.endOfSheet()
	}
}
