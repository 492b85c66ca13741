package board

import (
	"tubside/model"
	"tubside/ui/ink"
)

// shelfMap shows the shelves as they hang, a cell a hook. Its cursor is the
// list's, so the keys that work on a plant in the list work on it here.
type shelfMap struct {
	desk    *desk
	rows    *list
	shows   mapView
	lines   []hookLine
	shelves []shelfPlants
	at      []hookAt // where each row of the list hangs
	wide    int      // width of a hook, with the gap before it: the same on every shelf
	top     int
	height  int
	built   struct{ layout, width int } // what the lines were made for
	stale   bool                        // the list was built anew
	drawn   []string                    // lines as they look without the cursor, "" for not drawn yet
	as      drawnAs                     // what they were drawn for
}

// drawnAs is all that changes how the map looks, but for the cursor.
type drawnAs struct {
	version, marks int
	shows          mapView
	paper          ink.Paper
}

// hookAt is a place on the map.
type hookAt struct{ line, column int32 }

// mapView is what the cells of the map tell.
type mapView int

// The views.
const (
	viewNeed mapView = iota
	viewDays
	viewThirst
	viewBloom
	viewTrouble
	viewCount
)

var viewWords = [viewCount]string{"need", "days", "thirst", "bloom", "trouble"}

// sync hangs the plants anew where that is needed.
func (m *shelfMap) sync() {
	if !m.stale && m.built.layout == m.desk.layout && m.built.width == m.desk.width {
		return
	}
	m.stale, m.built.layout, m.built.width = false, m.desk.layout, m.desk.width
	m.lines, m.shelves = m.lines[:0], shelvesOf(m.desk.book, m.rows.rows)
	for g := range m.shelves {
		m.lines = append(m.lines, m.shelves[g].hang(g, m.desk.width)...)
	}
	m.wide = cellWidth(m.lines, m.desk.width)
	m.drawn = make([]string, len(m.lines))
	m.at = make([]hookAt, len(m.rows.rows))
	for i, line := range m.lines {
		for c, h := range line.hooks {
			for _, row := range h.rows {
				m.at[row] = hookAt{int32(i), int32(c)}
			}
		}
	}
}

// here is where the cursor hangs.
func (m *shelfMap) here() hookAt {
	if m.rows.cursor < len(m.at) {
		return m.at[m.rows.cursor]
	}
	return hookAt{}
}

// across goes to the next plant along the row, and on to the next row.
func (m *shelfMap) across(dir int) {
	at := m.here()
	line, column := int(at.line), int(at.column)
	if line >= len(m.lines) {
		return
	}
	if rows := m.lines[line].hooks[column].rows; len(rows) > 1 { // several on one hook
		for i, row := range rows {
			if next := i + dir; int(row) == m.rows.cursor && next >= 0 && next < len(rows) {
				m.rows.put(int(rows[next]))
				return
			}
		}
	}
	for column += dir; ; column += dir {
		if column < 0 || column >= len(m.lines[line].hooks) {
			if line = m.nextRow(line, dir); line < 0 {
				return
			}
			column = 0
			if dir < 0 {
				column = len(m.lines[line].hooks) - 1
			}
		}
		if rows := m.lines[line].hooks[column].rows; len(rows) > 0 {
			m.rows.put(int(rows[0]))
			return
		}
	}
}

// down goes n rows of hooks down, or up, to the plant nearest to the column.
func (m *shelfMap) down(n int) {
	dir := 1
	if n < 0 {
		dir, n = -1, -n
	}
	at := m.here()
	line := int(at.line)
	for range n {
		next := m.nextRow(line, dir)
		for next >= 0 && m.nearest(next, int(at.column)) < 0 {
			next = m.nextRow(next, dir)
		}
		if next < 0 {
			break
		}
		line = next
	}
	if line != int(at.line) {
		m.rows.put(m.nearest(line, int(at.column)))
	}
}

// nextRow is the next line with hooks, -1 when there is none.
func (m *shelfMap) nextRow(line, dir int) int {
	for line += dir; line >= 0 && line < len(m.lines); line += dir {
		if m.lines[line].kind == hookRow {
			return line
		}
	}
	return -1
}

// nearest is the list's row of the plant nearest to a column, -1 when nothing
// hangs in the line.
func (m *shelfMap) nearest(line, column int) int {
	best, off := -1, 0
	for c, h := range m.lines[line].hooks {
		if d := max(c-column, column-c); len(h.rows) > 0 && (best < 0 || d < off) {
			best, off = int(h.rows[0]), d
		}
	}
	return best
}

// shelf goes to the first plant of the shelf n further on.
func (m *shelfMap) shelf(n int) {
	at := m.here()
	if int(at.line) >= len(m.lines) {
		return
	}
	g := min(max(m.lines[at.line].group+n, 0), len(m.shelves)-1)
	m.rows.put(int(m.shelves[g].rows[0]))
	m.top = int(m.here().line) - 2
}

// next goes to the plant after this one as the grower walks.
func (m *shelfMap) next() { m.across(1) }

// ends goes to the first plant or to the last.
func (m *shelfMap) ends(last bool) {
	if len(m.shelves) == 0 {
		return
	}
	s := m.shelves[0].rows[:1]
	if last {
		rows := m.shelves[len(m.shelves)-1].rows
		s = rows[len(rows)-1:]
	}
	m.rows.put(int(s[0]))
}

// keys walk the map.
func (m *shelfMap) keys() []binding {
	return []binding{
		act("j ↓", "a row down", func() { m.down(1) }),
		act("k ↑", "a row up", func() { m.down(-1) }),
		act("l →", "next plant along the row", func() { m.across(1) }).pad("+"),
		act("h ←", "plant before", func() { m.across(-1) }).pad("-"),
		act("pgdn ctrl+d", "next shelf", func() { m.shelf(1) }),
		act("pgup ctrl+u", "shelf before", func() { m.shelf(-1) }),
		act("home", "first", func() { m.ends(false) }),
		act("G end", "last", func() { m.ends(true) }),
		act("space", "mark and step on", func() { m.rows.toggle(); m.next() }).pad("4").
			footWhen("mark", func() bool { return m.rows.current() != 0 && !m.rows.several() }),
		act("A", "mark the whole shelf", m.markShelf).pad("7"),
		act("o", "show need, days since the soak, thirst, bloom or troubles",
			m.nextView).foot(viewWords[(m.shows+1)%viewCount]),
	}
}

func (m *shelfMap) nextView() {
	m.shows = (m.shows + 1) % viewCount
	m.desk.say("The map shows %s", [...]string{"what each plant needs", "the days since the soak",
		"how much of its water each has lost", "bloom, buds and offsets", "troubles"}[m.shows])
}

// markShelf marks every plant of the cursor's shelf, or unmarks them when all are
// marked.
func (m *shelfMap) markShelf() {
	at := m.here()
	if int(at.line) >= len(m.lines) {
		return
	}
	var ids model.IDs
	for _, row := range m.shelves[m.lines[at.line].group].rows {
		ids = append(ids, m.rows.rows[row].id)
	}
	m.rows.mark(ids)
}
