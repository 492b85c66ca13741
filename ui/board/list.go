package board

import (
	"fmt"

	"tubside/model"
)

// list is a window on rows under headings. The cursor passes over headings, and
// stays with its plant when the rows are built anew.
type list struct {
	window
	rows   []rowRef
	heads  []string // a heading each group, in order; empty for no headings
	anchor int      // where a range of marks began, -1 none
	marks  map[model.ID]bool
	skip   func(model.ID) bool // plants the cursor passes over, and marks with a range or a group leave out
	bar    func(string) string // lays the bar behind the row under the cursor
}

// rowRef is one line of the list: a plant, or the heading of its group.
type rowRef struct {
	id    model.ID // 0 for a heading
	group int
}

func newList() *list {
	l := &list{anchor: -1, marks: map[model.ID]bool{}}
	l.pass = func(i int) bool {
		id := l.rows[i].id
		return id == 0 || l.skip != nil && l.skip(id)
	}
	return l
}

// section is the rows of one group while a list is being built.
type section struct {
	head string
	ids  model.IDs
}

// fill replaces the rows. Marks on plants no longer listed are dropped.
func (l *list) fill(sections []section) {
	was, at := l.current(), l.cursor
	l.rows, l.heads, l.anchor = l.rows[:0], l.heads[:0], -1
	listed := make(map[model.ID]bool)
	for g, s := range sections {
		l.heads = append(l.heads, s.head)
		if s.head != "" {
			l.rows = append(l.rows, rowRef{0, g})
		}
		for _, id := range s.ids {
			l.rows = append(l.rows, rowRef{id, g})
			listed[id] = true
		}
	}
	for id := range l.marks {
		if !listed[id] {
			delete(l.marks, id)
		}
	}
	l.lines = len(l.rows)
	if was == 0 || !l.goTo(was) {
		l.put(at)
	}
	l.settle(1)
	l.keepInView()
}

// current is the plant under the cursor, 0 when there is none.
func (l *list) current() model.ID {
	if l.cursor < len(l.rows) {
		return l.rows[l.cursor].id
	}
	return 0
}

// ids lists the plants, in the order in which they stand.
func (l *list) ids() (ids model.IDs) {
	for _, r := range l.rows {
		if r.id != 0 {
			ids = append(ids, r.id)
		}
	}
	return ids
}

// goTo puts the cursor on a plant, if it is listed.
func (l *list) goTo(id model.ID) bool {
	for i, r := range l.rows {
		if r.id == id && id != 0 {
			l.cursor = i
			l.keepInView()
			return true
		}
	}
	return false
}

// moveGroup puts the cursor on the first plant of the group n further on.
func (l *list) moveGroup(n int) {
	if len(l.rows) == 0 {
		return
	}
	g := min(max(l.rows[l.cursor].group+n, 0), len(l.heads)-1)
	for i, r := range l.rows {
		if r.group == g && r.id != 0 {
			l.cursor = i
			break
		}
	}
	l.settle(n)
	l.top = max(0, l.cursor-1) // the heading first
	l.keepInView()
}

// resize sets the number of lines to show.
func (l *list) resize(height int) { l.fit(len(l.rows), height) }

// draw writes the window's lines: row draws a plant, head a heading. The
// heading of the first group shown stays on top.
func (l *list) draw(add func(string), row func(id model.ID, i int) string, head func(g int) string) {
	for i := l.top; i < len(l.rows) && i < l.top+l.height; i++ {
		r := l.rows[i]
		switch {
		case r.id == 0:
			add(head(r.group))
		case i == l.top && i != l.cursor && l.heads[r.group] != "":
			add(head(r.group))
		default:
			line := row(r.id, i)
			if i == l.cursor && l.bar != nil {
				line = l.bar(line)
			}
			add(line)
		}
	}
}

// toggle marks or unmarks the plant under the cursor.
func (l *list) toggle() {
	id := l.current()
	switch {
	case id == 0:
	case l.marks[id]:
		delete(l.marks, id)
	default:
		l.marks[id] = true
	}
}

// startRange begins a range at the cursor, or ends it and marks what it spans.
func (l *list) startRange() {
	if l.anchor < 0 {
		l.anchor = l.cursor
		return
	}
	for _, id := range l.ranged() {
		l.marks[id] = true
	}
	l.anchor = -1
}

// ranged lists the plants between the range's start and the cursor.
func (l *list) ranged() model.IDs {
	if l.anchor < 0 {
		return nil
	}
	var ids model.IDs
	for i := min(l.anchor, l.cursor); i <= max(l.anchor, l.cursor) && i < len(l.rows); i++ {
		if id := l.rows[i].id; !l.pass(i) {
			ids = append(ids, id)
		}
	}
	return ids
}

// markGroup marks every plant of the cursor's group, or unmarks them when all
// are marked.
func (l *list) markGroup() {
	if len(l.rows) == 0 {
		return
	}
	l.mark(l.groupIDs())
}

// mark marks plants, or unmarks them when all are marked.
func (l *list) mark(ids model.IDs) {
	all := true
	for _, id := range ids {
		all = all && l.marks[id]
	}
	for _, id := range ids {
		if all {
			delete(l.marks, id)
		} else {
			l.marks[id] = true
		}
	}
}

// groupIDs lists the plants of the cursor's group.
func (l *list) groupIDs() model.IDs {
	var ids model.IDs
	if len(l.rows) == 0 {
		return nil
	}
	g := l.rows[l.cursor].group
	for i, r := range l.rows {
		if r.group == g && !l.pass(i) {
			ids = append(ids, r.id)
		}
	}
	return ids
}

// chosen lists what a key should act on, in the order shown: the marked
// plants and the open range, else the plant under the cursor.
func (l *list) chosen() model.IDs {
	inRange := map[model.ID]bool{}
	for _, id := range l.ranged() {
		inRange[id] = true
	}
	var ids model.IDs
	for _, r := range l.rows {
		if r.id != 0 && (l.marks[r.id] || inRange[r.id]) {
			ids = append(ids, r.id)
		}
	}
	if len(ids) == 0 && l.current() != 0 {
		ids = model.IDs{l.current()}
	}
	return ids
}

// several reports whether more than the cursor's plant is chosen by hand.
func (l *list) several() bool { return len(l.marks) > 0 || l.anchor >= 0 }

// markCount is how many plants are chosen by hand.
func (l *list) markCount() int {
	n := len(l.marks)
	for _, id := range l.ranged() {
		if !l.marks[id] {
			n++
		}
	}
	return n
}

// lead says how many plants are marked, to stand before the keys for them.
func (l *list) lead() string {
	if !l.several() {
		return ""
	}
	return fmt.Sprintf("%d marked:", l.markCount())
}

// unmark drops all marks and the range.
func (l *list) unmark() {
	clear(l.marks)
	l.anchor = -1
}

// isMarked reports whether a plant is marked or inside the open range.
func (l *list) isMarked(id model.ID, i int) bool {
	if l.marks[id] {
		return true
	}
	return l.anchor >= 0 && i >= min(l.anchor, l.cursor) && i <= max(l.anchor, l.cursor)
}

// keys move in the list and mark plants.
func (l *list) keys() []binding {
	return append(l.window.keys(),
		act("l →", "next group", func() { l.moveGroup(1) }),
		act("h ←", "group before", func() { l.moveGroup(-1) }),
		act("space", "mark and step on", func() { l.toggle(); l.move(1) }).pad("4").
			footWhen("mark", func() bool { return l.current() != 0 && !l.several() }),
		act("v", "mark a range: start, then end", l.startRange),
		act("A", "mark the whole group", l.markGroup).pad("7").footWhen("group",
			func() bool { return l.current() != 0 && !l.several() }),
	)
}
