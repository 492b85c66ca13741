package board

import (
	"fmt"
	"time"

	"tubside/model"
	"tubside/ui/show"
)

// keyingIn is a triage sheet being keyed in from paper, in the order in which it is
// printed: two digits a plant, curl and tips. Few wet a leaf of every plant, so the
// shift is asked for only where it was seen.
type keyingIn struct {
	on    bool
	shift model.ID // the plant whose shift comes as well
	done  int      // plants of the list looked at today
	all   int      // plants of the list that can be
}

// signWords name the digits of a plant, for the footer.
func (t *triage) signWords() string {
	if t.signsToKey() == 2 {
		return "curl tips"
	}
	return "curl tips shift"
}

// signsToKey is how many signs of a plant are keyed in before they are saved.
func (t *triage) signsToKey() int {
	if t.keyingIn.on && t.keyingIn.shift != t.rows.current() {
		return 2
	}
	return 3
}

// sheetKeys are the keys that mean something else while a sheet is keyed in.
func (t *triage) sheetKeys() group {
	return group{"The sheet", []binding{
		act(".", "the shift as well: three digits for this plant", func() {
			t.keyingIn.shift = t.rows.current()
			t.desk.say("Curl, tips and shift of this plant")
		}).unless(t.nobody).foot("shift too"),
		act("K esc", "leave the sheet", t.leaveSheet).foot("leave"),
	}}
}

// keyIn begins with the sheet where it was left.
func (t *triage) keyIn() {
	t.mapped, t.order, t.keyingIn.on, t.keyingIn.shift = false, byShelf, true, 0
	t.rows.unmark()
	t.build()
	id := t.left()
	if id == 0 {
		t.keyingIn.on = false
		t.desk.say("All %d are looked at today: nothing is left to key in", t.keyingIn.all)
		return
	}
	t.rows.goTo(id)
	if t.keyingIn.done == 0 {
		t.desk.say("The sheet begins at %s, %s", show.Home(t.desk.book.Row(id).Home), show.Count(t.keyingIn.all, "plant"))
		return
	}
	t.desk.say("The sheet was left at %s", t.leftWords(id))
}

// leaveSheet stops keying in, and says where.
func (t *triage) leaveSheet() {
	t.keyingIn.on = false
	if id := t.left(); id != 0 {
		t.desk.say("Left at %s; K goes on there", t.leftWords(id))
	}
}

// endOfSheet is where no plant comes after: what was passed over is next.
func (t *triage) endOfSheet() {
	t.count()
	id := t.left()
	if id == 0 {
		t.keyingIn.on = false
		t.desk.say("The sheet is keyed in, %d of %d", t.keyingIn.done, t.keyingIn.all)
		return
	}
	t.rows.goTo(id)
	t.desk.say("The end of the sheet. Passed over: %s", t.leftWords(id))
}

func (t *triage) leftWords(id model.ID) string {
	r := t.desk.book.Row(id)
	return fmt.Sprintf("%s (%s), %d of %d", show.Home(r.Home), show.Title(r.Plant), t.keyingIn.done, t.keyingIn.all)
}

// left is the first plant as the grower walks that nobody has looked at today; 0
// when all were.
func (t *triage) left() model.ID {
	for _, r := range t.rows.rows {
		if r.id != 0 && !t.seenToday(r.id) && !t.desk.book.Row(r.id).State.Away() {
			return r.id
		}
	}
	return 0
}

// seenToday reports whether a plant was looked at since midnight.
func (t *triage) seenToday(id model.ID) bool {
	return !t.desk.book.Row(id).SignsAt.Before(t.today())
}

// today is when the day began.
func (t *triage) today() time.Time { return model.AtHour(t.desk.now.In(t.desk.book.Zone()), 0) }
