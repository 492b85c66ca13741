package board

import (
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/ui/show"
)

// keyingIn is a triage sheet being keyed in from paper, box by box as it is printed:
// bloom and rot, curl and tips, the shift, and whether it is pulled. Few wet a leaf of
// every plant or tick a box, so that most plants take two keys, and the next plant's
// curl saves them; a box that is filled takes one more.
type keyingIn struct {
	on      bool
	asking  bool        // which box the sheet has first
	older   bool        // a sheet of the time when pull and shift stood before curl and tips
	shift   model.Grade // on an older sheet, of the plant whose curl and tips come next
	shiftOf model.ID    // that plant; 0 for none
	place   model.ID    // where a sheet was left in this run of the program; 0 for nowhere
	done    int         // plants of the list looked at in this walk
	all     int         // plants of the list that can be
}

// firstShift is the key for a shift of 0 on a sheet, where a digit from 0 to 3 is the
// next plant's curl. The keys after it are on a number pad's upper rows, 7 8 9 over
// 1 2 3.
const firstShift = '6'

// signsToKey is how many signs of a plant are keyed in before they are saved.
func (t *triage) signsToKey() int {
	if t.keyingIn.on && t.keyingIn.older {
		return 2
	}
	return 3
}

// mayBeWhole reports whether what is keyed in of a plant is all that the sheet has of
// it: the next plant's first box saves it.
func (t *triage) mayBeWhole() bool {
	return t.keyingIn.on && !t.keyingIn.older && len(t.digits) == t.signsToKey()-1
}

// sheetKeys are the keys that mean something else while a sheet is keyed in.
func (t *triage) sheetKeys() group {
	after, foot := "the box of the shift, 0 to 3, after curl and tips", ""
	if t.keyingIn.older {
		after, foot = "the box of the shift, 0 to 3, before curl and tips", "shift first"
	}
	return group{"The sheet", []binding{
		bind("6-9", after, t.keyShift).pad("6-9").unless(t.nobody).foot(foot),
		act("K esc", "leave the sheet", t.leaveSheet).foot("leave"),
	}}
}

// keyShift takes the shift: as the third sign of the plant, or on an older sheet of
// the plant whose curl and tips come next.
func (t *triage) keyShift(msg tea.KeyMsg) tea.Cmd {
	g, _ := model.ParseGrade(string(msg.Runes[0] - firstShift + '0'))
	switch {
	case t.keyingIn.older:
		t.keyingIn.shift, t.keyingIn.shiftOf = g, t.rows.current()
		t.desk.say("Shift %s, then curl and tips", g)
	case t.mayBeWhole():
		t.digits = append(t.digits, g)
		t.saveDigits()
	default:
		t.desk.say("6 to 9 are the shift, after curl and tips")
	}
	return nil
}

// whichSheet are the keys that say which box a sheet has first: a filled box must not
// go to the wrong plant.
func (t *triage) whichSheet() group {
	begin := func(older bool) func() {
		return func() {
			t.keyingIn.asking, t.keyingIn.older = false, older
			t.beginSheet()
		}
	}
	return group{"The first box on the sheet", []binding{
		act("enter b", "bloom: curl and tips come before the shift, pull is last", begin(false)).foot("bloom"),
		act("p", "pull, on an older sheet: the shift comes before curl and tips", begin(true)).pad("*").
			foot("pull, an older sheet"),
		act("esc", "no sheet", func() { t.keyingIn.asking = false }).pad(".").foot("no sheet"),
	}}
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

// keyIn asks for the kind of sheet.
func (t *triage) keyIn() {
	t.keyingIn.asking = true
	t.desk.say("Which box does the sheet have first?")
}

// beginSheet begins with the sheet where it was left.
func (t *triage) beginSheet() {
	t.mapped, t.order = false, byShelf
	t.keyingIn.on, t.keyingIn.shiftOf = true, 0
	t.rows.unmark()
	t.build()
	id := t.leftAt()
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
	if t.mayBeWhole() {
		t.saveDigits()
	}
	if !t.keyingIn.on { // that was the last
		return t.desk.said
	}
	t.keyingIn.place = t.leftOn(t.rows.current())
	t.keyingIn.on, t.keyingIn.shiftOf = false, 0
	id := t.keyingIn.place
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
func (t *triage) left() model.ID { return t.leftOn(0) }

// leftOn is the first of them from a plant on, or else before it.
func (t *triage) leftOn(from model.ID) (left model.ID) {
	reached := from == 0
	for _, r := range t.rows.rows {
		reached = reached || r.id == from
		if r.id == 0 || t.looked(r.id) || t.desk.book.Row(r.id).State.Away() {
			continue
		}
		if reached {
			return r.id
		}
		if left == 0 {
			left = r.id
		}
	}
	return left
}

// leftAt is where a sheet was left: in this run of the program, else as far as the
// looks written tell.
func (t *triage) leftAt() model.ID {
	if place := t.keyingIn.place; place != 0 && t.keyingIn.done > 0 {
		return t.leftOn(place)
	}
	if _, id := t.halfLooked(t.rows.ids()); id != 0 {
		return id
	}
	return t.left()
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
	t.desk.say("%s is half looked at: %s is next (K: from a sheet)", show.Line(shelfOf(r)), where)
}

// shelfOf is the name of a plant's shelf.
func shelfOf(r *model.Row) string { return show.Home(model.Home{Shelf: r.Home.Shelf}) }

// halfLooked finds the next plant to look at on the shelf whose beginning was looked
// at in this walk and whose rest was not, and how many were: where there are several,
// the shelf on which most were, so that a plant graded by hand on the way does not move
// the place. Both are 0 where no shelf is left half.
func (t *triage) halfLooked(ids model.IDs) (most int, next model.ID) {
	here := slices.DeleteFunc(slices.Clone(ids), func(id model.ID) bool {
		r := t.desk.book.Row(id)
		return r.State != model.AtHome
	})
	here = t.desk.book.Walk(here)
	for len(here) > 0 {
		shelf := shelfOf(t.desk.book.Row(here[0]))
		n, looked := 0, 0
		for n < len(here) && shelfOf(t.desk.book.Row(here[n])) == shelf {
			if looked == n && t.looked(here[n]) {
				looked++
			}
			n++
		}
		if looked > most && looked < n {
			most, next = looked, here[looked]
		}
		here = here[n:]
	}
	return most, next
}
