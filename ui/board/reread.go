package board

import (
	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/ui/show"
)

// readAgain is what the model makes of a copy of the book, when the past was read
// again away from the keys.
type readAgain workedOut

// readingWords stand under the screen meanwhile.
const readingWords = "working out the needs …"

// lineWidth is the room for what just happened beside those words.
func (d *desk) lineWidth() int {
	if d.reading {
		return d.width - show.Width(readingWords) - 1
	}
	return d.width
}

// heed has what is believed follow an entry. Where the past reads otherwise after
// it, a short one is read again at once. A long one is read beside the keys, and
// until then the needs are those last known.
func (d *desk) heed(e model.Entry) {
	if !d.reading && d.shortPast() {
		d.keeper.Follow(e)
	} else if d.keeper.Lag(e) {
		d.readBeside()
	}
}

// shortest is how much past is read again at once, in entries, each counted once
// for every plant it names. A choice: measured, so many take about 10 ms, and a
// plant costs as much as plantCosts of them.
var shortest = 4000

const plantCosts = 10

// shortPast reports whether the past is read again quickly.
func (d *desk) shortPast() bool {
	n := plantCosts * d.book.Len()
	for _, e := range d.book.Entries() {
		if n > shortest {
			return false
		}
		n += 1 + len(e.Plants)
	}
	return n <= shortest
}

// readBeside reads the past again from a copy of the book. What asks for it
// meanwhile waits until that is done: one reading at a time is enough for every core.
func (d *desk) readBeside() {
	d.outrun = d.reading
	if d.reading {
		return
	}
	d.reading = true
	before, book, now := d.beliefs, d.book.Copy(), d.now
	d.later = append(d.later, func() tea.Msg { return readAgain(workOut(before, book, now)) })
}

// touches is the entry that says which needs change after another. While the past
// is read again a strike changes those of what it strikes, and no more.
func (d *desk) touches(e model.Entry) model.Entry {
	for d.reading {
		s, ok := e.Fact.(*model.Strike)
		if !ok {
			break
		}
		e, _ = d.book.Entry(s.Seq)
	}
	return e
}

// catchUp takes over what was read, with all that was written meanwhile.
func (d *desk) catchUp(r readAgain) {
	d.reading = false
	if d.outrun {
		d.readBeside()
		return
	}
	d.keeper.CatchUp(r.keeper)
	d.layout++
	d.look()
}

// startLater starts the work that was begun away from the keys.
func (d *desk) startLater() tea.Cmd {
	cmd := tea.Batch(d.later...)
	d.later = nil
	return cmd
}
