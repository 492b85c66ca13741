package board

import (
	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/ui/show"
)

// globalKeys work on every screen.
func (m *board) globalKeys() group {
	none := func() string {
		if m.plant() == 0 && !m.desk.onPad() {
			return "No plant here"
		}
		return ""
	}
	return group{"Everywhere", []binding{
		act("tab", "next screen", func() { m.show(m.at + 1) }).pad("/"),
		act("shift+tab", "screen before", func() { m.show(m.at - 1) }),
		act("enter", "open the plant's card; on a number pad all that has no key there", m.open).unless(none),
		act("T", "to another screen by its letter", func() { m.desk.push(newPlaces(m.desk, m.screens, m.show)) }),
		act("/", "find a plant, or words on the page", m.seek).unless(m.noPlants),
		act("n", "next one found, or the next of the same name", func() { m.findAgain(1) }).unless(m.noPlants),
		act("N", "one found before, or the last of the same name", func() { m.findAgain(-1) }).unless(m.noPlants),
		act("u", "undo the last entry", m.desk.strike).pad("9"),
		act("U", "redo what was undone", m.desk.bringBack),
		act("a", "enter a reading of the air", func() { m.desk.push(readingForm(m.desk)) }),
		act("c", "big clock", func() { m.desk.push(m.newClock()) }),
		act("#", "number pad: digits, + - * / . and enter alone, or not", m.desk.switchPad),
		act(model.CodeSign, "a label's code, as a scanner types it: to the plant, into the load, dry, or hung", m.scan),
		act("E", "the guide, where it explains this screen", m.guide),
		act("?", "help", func() { m.desk.push(newHelp(m)) }),
		bind("ctrl+l", "draw the screen again", func(tea.KeyMsg) tea.Cmd { return tea.ClearScreen }),
		bind("ctrl+z", "suspend", func(tea.KeyMsg) tea.Cmd { return m.suspend() }),
		bind("q", "leave", func(tea.KeyMsg) tea.Cmd { return m.leave("q") }),
	}}
}

// open opens the card of the plant under the cursor. On a number pad it opens the
// menu of what has no key there, with the card on top.
func (m *board) open() {
	if m.desk.onPad() {
		m.desk.push(newPadMenu(m))
		return
	}
	m.desk.push(newCard(m.desk, m.front().list(), m.pass))
}

// noPlants says why a plant cannot be sought here, if it cannot.
func (m *board) noPlants() string {
	if _, ok := m.front().(finder); !ok && m.front().list() == nil {
		return "Nothing is listed on this screen"
	}
	return ""
}

// leave ends the program. With plants in the water it asks first, since nothing rings
// once it has ended; the same key again leaves.
func (m *board) leave(key string) tea.Cmd {
	n := 0
	for _, l := range m.desk.loads {
		n += l.Left
	}
	if n == 0 || m.leaving {
		return tea.Quit
	}
	m.leaving = true
	m.desk.say("%s in the water, and nothing rings once you leave: %s again leaves", show.Count(n, "plant"), key)
	return nil
}
