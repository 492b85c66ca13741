package board

import (
	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
)

// groups are the keys of triage; while signs are being keyed in, digits, the
// keys that end it, and all the others, which drop what is not finished.
func (t *triage) groups() []group {
	if t.keyingIn.asking {
		return []group{t.whichSheet(), {keys: []binding{anyOther("no sheet", func(msg tea.KeyMsg) tea.Cmd {
			t.keyingIn.asking = false
			return t.pass(msg)
		})}}}
	}
	if t.choosing != nil {
		return []group{t.choosePull()}
	}
	if len(t.digits) > 0 {
		return append([]group{t.signKeys()}, group{keys: []binding{anyOther("drop the signs", t.otherThanSigns)}})
	}
	return t.usualKeys()
}

func (t *triage) signKeys() group {
	signs := []binding{
		bind("0-3", "curl, tips and shift, a digit each", t.digit).pad("0-3").unless(t.nobody),
		bind("-", "a sign not looked at", t.digit).pad(".").unless(t.nobody).foot("not looked"),
		act("4-9", "", func() { t.desk.say("Grades go from 0 to 3") }).pad("4-9"),
		act("enter", "save the signs so far", t.saveDigits).foot("saves"),
		act("backspace", "take the last digit back", func() { t.digits = t.digits[:len(t.digits)-1] }).pad("-"),
		act("esc", "drop the signs", func() { t.digits = nil }).pad("/"),
	}
	if t.mayBeWhole() {
		signs = append([]binding{
			t.sheetKeys().keys[0],
			act("j ↓", "", t.saveDigits).pad("+"),
			act("esc", "save, and leave the sheet", t.leaveSheet).pad("/"),
		}, signs...)
	}
	return group{"Signs", signs}
}

// otherThanSigns is a key that is none of signs: it drops them, and does what it
// does.
func (t *triage) otherThanSigns(msg tea.KeyMsg) tea.Cmd {
	if msg.String() == "p" || t.mayBeWhole() { // the plant is in the hand: what was seen of it is written
		t.saveDigits()
		return t.pass(msg)
	}
	t.digits = nil
	t.desk.say("Signs not finished, nothing written")
	return t.pass(msg)
}

func (t *triage) nobody() string {
	if t.rows.current() == 0 {
		return "No plant here"
	}
	return ""
}

func (t *triage) usualKeys() []group {
	here := t.nobody
	some := func() bool { return t.rows.several() }
	var begin []group
	if t.desk.book.Len() == 0 {
		begin = []group{{"A new book", []binding{act("enter", "six questions, and your list",
			func() { t.desk.push(newFirstMinute(t.desk)) }).foot("six questions, and your list")}}}
	}
	if t.keyingIn.on {
		begin = []group{t.sheetKeys()}
	}
	return append(begin, []group{
		{"Signs", []binding{
			bind("0-3", "signs: curl, tips and shift, a digit each",
				t.digit).pad("0-3").unless(here),
			remark(t.scale()).unless(here),
			bind("-", "a sign not looked at", t.digit).pad(".").unless(here),
			act("4-9", "", func() { t.desk.say("Grades go from 0 to 3") }),
			act("f", "looks fine: flat leaves, clean tips",
				func() { t.lookAgain(model.LooksFine) }).pad("5").unless(here).foot("fine"),
			act("r", "the same signs as before", t.repeat).pad("6").unless(here).foot("again"),
			act("R", "the last entry was meant for this plant", t.meant).unless(here),
			act("K", "key in a sheet: curl and tips a plant, from where it was left", t.keyIn).unless(here),
		}},
		{"To the water", []binding{
			act("p", "pull, or put back", t.pull).pad("*").unless(here).foot("pull"),
			act("P", "pull by itself today: from which soak or curl on", t.askPull),
			act("m", "misted", func() { t.enterChosen(&model.Mist{}) }).unless(here).footWhen("misted", some),
		}},
		{"What was found", t.desk.findings(t.rows)},
		{"The list", t.listKeys()},
		{"The collection", []binding{
			act("+", "add a plant", func() { t.desk.push(addForm(t.desk, t.rows, t.added)) }).
				footWhen("add a plant", func() bool { return t.desk.book.Len() == 0 }),
			act("L", "bring in a list: a spreadsheet saved as CSV", func() { t.desk.push(listForm(t.desk)) }),
			act("e", "edit", func() { t.desk.push(editForm(t.desk, t.rows.current())) }).unless(here),
			act("M", "move to another home", func() { t.desk.push(moveForm(t.desk, t.rows)) }).unless(here),
			act("X", "swap the hooks of the two marked plants, or of the marked one and this, or of this and the next",
				t.swap).unless(here),
			act("y", "split plants off a tray, or separate offsets",
				func() { t.desk.push(splitForm(t.desk, t.rows.current())) }).unless(t.notATray),
			act("x", "gone: lost, sold, given", func() { t.desk.push(goneForm(t.desk, t.rows)) }).unless(here),
			act("W", "weigh it: far better than looking",
				func() { t.desk.push(weighForm(t.desk, t.rows.current())) }).unless(here),
			act("w", "write a note", func() { t.desk.push(noteForm(t.desk, t.rows)) }).unless(here),
		}},
	}...)
}

func (t *triage) listKeys() []binding {
	if t.mapped {
		return append(t.hooks.keys(),
			act("g", "the list again", t.turn).foot("list"),
			act("F", "show only some: by band, form, leaf, shelf or words", func() { t.desk.push(newFilterMenu(t)) }),
			act("esc", "drop marks, then the filter, then the map", t.escape).footWhen("unmark",
				func() bool { return t.rows.several() }),
		)
	}
	some := func() bool { return t.desk.book.Len() > 0 }
	return append(t.rows.keys(),
		act("g", "the shelves as they hang, a cell a hook", t.turn).footWhen("map", some),
		act("o", "order: by shelf, thirstiest first, by band", t.nextOrder).footWhen("order", some),
		act("F", "show only some: by band, form, leaf, shelf or words", func() { t.desk.push(newFilterMenu(t)) }),
		act("esc", "drop marks, then the filter", t.escape).footWhen("unmark", func() bool { return t.rows.several() }),
	)
}

func (t *triage) escape() {
	switch {
	case t.rows.several():
		t.rows.unmark()
	case t.filter != "":
		t.filter = ""
		t.build()
	case t.mapped:
		t.turn()
	}
}

func (t *triage) nextOrder() {
	t.order = (t.order + 1) % orderCount
	t.build()
	if t.order == byUrgency {
		t.rows.move(-len(t.rows.rows)) // what this order is for stands on top
	}
	t.desk.say("Order: %s", orderWords[t.order])
}

func (t *triage) repeat() {
	if !t.last.Seen() {
		t.desk.say("No signs entered yet to repeat")
		return
	}
	t.lookAgain(t.last)
}

// enterChosen writes an entry for the chosen plants and drops the marks.
func (t *triage) enterChosen(f model.Fact) {
	if t.desk.enter(f, t.rows.chosen()...) {
		t.rows.unmark()
	}
}

func (t *triage) all(is func(*model.Row) bool) bool {
	for _, id := range t.rows.chosen() {
		if !is(t.desk.book.Row(id)) {
			return false
		}
	}
	return true
}

// swap writes that two plants hang on each other's hooks: the two marked ones, the
// marked one and the cursor's, or the cursor's and the next in the list.
func (t *triage) swap() {
	ids := t.rows.chosen()
	if id := t.rows.current(); len(ids) == 1 && id != 0 && id != ids[0] {
		ids = append(ids, id)
	}
	if len(ids) == 1 {
		for i := t.rows.cursor + 1; i < len(t.rows.rows) && len(ids) == 1; i++ {
			if id := t.rows.rows[i].id; id != 0 {
				ids = append(ids, id)
			}
		}
	}
	if len(ids) != 2 {
		t.desk.say("Mark the two plants that hang on each other's hooks")
		return
	}
	if t.desk.enter(model.NewSwap(t.desk.book.Row(ids[0]), t.desk.book.Row(ids[1])), ids...) {
		t.rows.unmark()
	}
}

// meant moves the last entry from the plant that it names to the one under the
// cursor, for which it was meant.
func (t *triage) meant() {
	last, ok := t.desk.book.LastToStrike()
	id := t.rows.current()
	switch {
	case !ok || len(last.Plants) != 1 || !seenOn(last.Fact):
		t.desk.say("The last entry is not what was seen or done on one plant: u undoes it")
		return
	case last.Plants[0] == id:
		t.desk.say("The last entry is of this plant: go to the one that was meant")
		return
	}
	if !t.desk.enter(&model.Strike{Seq: last.Seq}) {
		return
	}
	if err := t.desk.writeAt(last.At, last.Fact, id); err != nil {
		if strike, ok := t.desk.book.LastStrike(); ok {
			t.desk.enter(&model.Strike{Seq: strike.Seq})
		}
		t.desk.complain(err)
		return
	}
	t.recount()
	t.desk.say("Moved to this plant: %s", t.desk.said)
}

// seenOn reports whether a fact is what was seen or done on a plant, and says
// nothing of its own about which plant that is.
func seenOn(f model.Fact) bool {
	switch f.(type) {
	case *model.Look, *model.Mist, *model.Bloom, *model.Rot, *model.Trouble, *model.Offsets, *model.Note, *model.Pull:
		return true
	}
	return false
}

func (t *triage) notATray() string {
	r := t.desk.book.Row(t.rows.current())
	if r == nil || r.Count < 2 && r.Offsets == 0 {
		return "Only a tray of several, or a mother with offsets (I), can be split"
	}
	return ""
}
