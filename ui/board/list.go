package board

import (
	"tubside/model"
)

// list is a window on rows under headings. It costs what is on the screen, not
// what is in the collection. The cursor stays with its plant when the rows are
// built anew.
type list struct {
	rows   []rowRef
	heads  []string // a heading each group, in order; empty for no headings
	cursor int      // index into rows, never a heading unless there is nothing else
	top    int      // first row shown
	height int
	anchor int // where a range of marks began, -1 none
	marks  map[model.ID]bool
}

// rowRef is one line of the list: a plant, or the heading of its group.
type rowRef struct {
	id    model.ID // 0 for a heading
	group int
}

func newList() list { return list{anchor: -1, marks: map[model.ID]bool{}} }

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
	l.cursor = min(at, max(0, len(l.rows)-1))
	if was == 0 || !l.goTo(was) {
		l.settle(1)
	}
	l.keepInView()
}

// current is the plant under the cursor, 0 when there is none.
func (l *list) current() model.ID {
	if l.cursor < len(l.rows) {
		return l.rows[l.cursor].id
	}
	return 0
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

// settle moves the cursor off a heading, first in the direction given.
func (l *list) settle(dir int) {
	for _, d := range []int{dir, -dir} {
		for i := l.cursor; i >= 0 && i < len(l.rows); i += d {
			if l.rows[i].id != 0 {
				l.cursor = i
				return
			}
		}
	}
}

// move steps the cursor by n rows, over headings.
func (l *list) move(n int) {
	if len(l.rows) == 0 {
		return
	}
	dir := 1
	if n < 0 {
		dir = -1
	}
	l.cursor = min(max(l.cursor+n, 0), len(l.rows)-1)
	l.settle(dir)
	l.keepInView()
}

// page steps by a screenful.
func (l *list) page(dir int) { l.move(dir * max(1, l.height-2)) }

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
	l.top = max(0, l.cursor-1) // the heading first
	l.keepInView()
}

// resize sets the number of lines to show.
func (l *list) resize(height int) {
	l.height = max(1, height)
	l.keepInView()
}

// keepInView holds the cursor inside the window. A row whose heading has
// scrolled away needs one line more, for the heading that stays on top.
func (l *list) keepInView() {
	if l.cursor < l.top+1 {
		l.top = l.cursor - 1
	}
	if l.cursor >= l.top+l.height {
		l.top = l.cursor - l.height + 1
	}
	l.top = min(max(l.top, 0), max(0, len(l.rows)-l.height))
}

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
			add(row(r.id, i))
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
		if id := l.rows[i].id; id != 0 {
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
	ids := l.groupIDs()
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
	for _, r := range l.rows {
		if r.group == g && r.id != 0 {
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
	return []binding{
		act([]string{"j", "down"}, "j ↓", "down", func() { l.move(1) }),
		act([]string{"k", "up"}, "k ↑", "up", func() { l.move(-1) }),
		act([]string{"pgdown", "ctrl+d"}, "pgdn", "a screen down", func() { l.page(1) }),
		act([]string{"pgup", "ctrl+u"}, "pgup", "a screen up", func() { l.page(-1) }),
		act([]string{"l", "right"}, "l →", "next group", func() { l.moveGroup(1) }),
		act([]string{"h", "left"}, "h ←", "group before", func() { l.moveGroup(-1) }),
		act([]string{"g", "home"}, "g", "first", func() { l.move(-len(l.rows)) }),
		act([]string{"G", "end"}, "G", "last", func() { l.move(len(l.rows)) }),
		act([]string{" "}, "space", "mark and step on", func() { l.toggle(); l.move(1) }),
		act([]string{"v"}, "v", "mark a range: start, then end", l.startRange),
		act([]string{"A"}, "A", "mark the whole group", l.markGroup),
	}
}
