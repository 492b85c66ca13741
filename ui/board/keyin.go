package board

import (
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/ui/show"
)

// keyingIn is a triage sheet being keyed in from paper, box by box as it is printed:
// the ticks, the shift, then curl and tips, which save and step on. Few wet a leaf
// of every plant or tick a box, so that most plants take two keys; a box that is
// filled takes one more.
type keyingIn struct {
	on      bool
	shift   model.Grade // of the plant whose curl and tips come next
	shiftOf model.ID    // that plant; 0 for none
	done    int         // plants of the list looked at in this walk
	all     int         // plants of the list that can be
}

// firstShift is the key for a shift of 0. The keys after it are on a number pad's
// upper rows, 7 8 9 over 1 2 3.
const firstShift = '6'

// signWords name the digits of a plant, for the footer.
func (t *triage) signWords() string {
	if t.signsToKey() == 2 {
		return "curl, then tips"
	}
	return "curl tips shift"
}

// signsToKey is how many signs of a plant are keyed in before they are saved.
func (t *triage) signsToKey() int {
	if t.keyingIn.on {
		return 2
	}
	return 3
}

// sheetKeys are the keys that mean something else while a sheet is keyed in.
func (t *triage) sheetKeys() group {
	return group{"The sheet", []binding{
		bind("6-9", "the box of the shift, 0 to 3, before curl and tips", t.keyShift).pad("6-9").unless(t.nobody).foot("shift first"),
		act("K esc", "leave the sheet", t.leaveSheet).foot("leave"),
	}}
}

// keyShift takes the shift of the plant whose curl and tips come next.
func (t *triage) keyShift(msg tea.KeyMsg) tea.Cmd {
	g, _ := model.ParseGrade(string(msg.Runes[0] - firstShift + '0'))
	t.keyingIn.shift, t.keyingIn.shiftOf = g, t.rows.current()
	t.desk.say("Shift %s, then curl and tips", g)
	return nil
}

// withShift adds the shift that was keyed in to the signs of the plant; one of
// another plant goes with no signs and is dropped, aloud.
func (t *triage) withShift(s *model.Signs) (dropped string) {
	of := t.keyingIn.shiftOf
	t.keyingIn.shiftOf = 0
	switch {
	case of == 0:
	case of == t.rows.current():
		s.Shift = t.keyingIn.shift
	default:
		return fmt.Sprintf("The shift of plant %s is not written: no curl and tips came with it", of)
	}
	return ""
}

// keyIn begins with the sheet where it was left.
func (t *triage) keyIn() {
	t.mapped, t.order = false, byShelf
	t.keyingIn.on, t.keyingIn.shiftOf = true, 0
	t.rows.unmark()
	t.build()
	_, id := t.halfLooked(t.rows.ids())
	if id == 0 {
		id = t.left()
	}
	if id == 0 {
		t.keyingIn.on = false
		t.desk.say("All %d are looked at: nothing is left to key in", t.keyingIn.all)
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
	if said := t.stopKeying(); said != "" {
		t.desk.say("%s", said)
	}
}

// stopKeying ends with the sheet, and gives where it was left; "" when nothing is.
func (t *triage) stopKeying() string {
	if !t.keyingIn.on {
		return ""
	}
	dropped := ""
	if t.keyingIn.shiftOf != 0 {
		dropped = "A shift alone is not written. "
	}
	t.keyingIn.on, t.keyingIn.shiftOf = false, 0
	_, id := t.halfLooked(t.rows.ids())
	if id == 0 {
		id = t.left()
	}
	if id == 0 {
		return ""
	}
	return fmt.Sprintf("%sLeft at %s; K goes on there", dropped, t.leftWords(id))
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

// left is the first plant as the grower walks that nobody has looked at in this
// walk; 0 when all were.
func (t *triage) left() model.ID {
	for _, r := range t.rows.rows {
		if r.id != 0 && !t.looked(r.id) && !t.desk.book.Row(r.id).State.Away() {
			return r.id
		}
	}
	return 0
}

// sayHalfLooked says unasked where a shelf was left half looked at.
func (t *triage) sayHalfLooked() {
	_, next := t.halfLooked(t.desk.book.IDs())
	if next == 0 || t.desk.said != "" {
		return
	}
	r := t.desk.book.Row(next)
	where := show.Title(r.Plant)
	if r.Home.Spot != "" {
		where = "hook " + show.Safe(r.Home.Spot)
	}
	t.desk.say("The %s sheet is half keyed in: K goes on at %s", shelfOf(r), where)
}

// shelfOf is the name of a plant's shelf.
func shelfOf(r *model.Row) string { return show.Home(model.Home{Shelf: r.Home.Shelf}) }

// halfLooked finds the shelf of which some plants were looked at in this walk and
// some were not, the one looked at last where there are several: the plant looked at
// last there, and the next one to look at. Both are 0 where no shelf is left half.
func (t *triage) halfLooked(ids model.IDs) (after, next model.ID) {
	here := slices.DeleteFunc(slices.Clone(ids), func(id model.ID) bool {
		r := t.desk.book.Row(id)
		return r.State != model.AtHome
	})
	here = t.desk.book.Walk(here)
	for len(here) > 0 {
		shelf := shelfOf(t.desk.book.Row(here[0]))
		n := 1
		for n < len(here) && shelfOf(t.desk.book.Row(here[n])) == shelf {
			n++
		}
		if a, b := t.halfOf(here[:n]); b != 0 && (after == 0 ||
			!t.desk.book.Row(a).SignsAt.Before(t.desk.book.Row(after).SignsAt)) {
			after, next = a, b
		}
		here = here[n:]
	}
	return after, next
}

// halfOf is halfLooked of the plants of one shelf as the grower walks. The next is
// the first of them not looked at, also where some behind it were.
func (t *triage) halfOf(shelf model.IDs) (after, next model.ID) {
	for _, id := range shelf {
		switch {
		case !t.looked(id):
			if next == 0 {
				next = id
			}
		case after == 0 || !t.desk.book.Row(id).SignsAt.Before(t.desk.book.Row(after).SignsAt):
			after = id
		}
	}
	if after == 0 || next == 0 {
		return 0, 0
	}
	return after, next
}
