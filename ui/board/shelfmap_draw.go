package board

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/soak"
	"tubside/ui/show"
)

// draw writes the shelves in view.
func (m *shelfMap) draw(p *page, height int) {
	m.sync()
	m.height = max(1, height)
	m.keepInView()
	if as := (drawnAs{m.desk.version, m.rows.markCount(), m.shows, m.desk.colours.drawn}); as != m.as || m.rows.anchor >= 0 {
		clear(m.drawn)
		m.as = as
	}
	for i := m.top; i < len(m.lines) && i < m.top+m.height; i++ {
		if i == m.top && m.lines[i].kind != shelfHead && int(m.here().line) != i {
			p.line(m.shelfHead(m.lines[i].group)) // the shelf stays named
			if heads := m.columnHeadOf(i); heads >= 0 && i+1 < m.top+m.height && int(m.here().line) > i+1 {
				i++
				p.line(m.line(heads)) // and so do its columns
			}
			continue
		}
		if until := m.top + m.height; m.lines[i].kind != hookRow && i+1 < len(m.lines) && m.nextRow(i, 1) >= until {
			return // a shelf's name without its hooks tells nothing
		}
		p.line(m.line(i))
	}
}

// line is a line of the map. One without the cursor is drawn once and kept: the
// shelves of a wide window hold a thousand plants, and a key moves two rows.
func (m *shelfMap) line(i int) string {
	here := int(m.here().line) == i
	if !here && m.drawn[i] != "" {
		return m.drawn[i]
	}
	var text string
	switch line := &m.lines[i]; line.kind {
	case shelfHead:
		text = m.shelfHead(line.group)
	case columnHead:
		text = m.desk.theme.quiet.of(m.columnNumbers(line))
	default:
		text = m.hookRow(i, line)
	}
	if !here {
		m.drawn[i] = text
	}
	return text
}

// keepInView holds the cursor's row in view, under its shelf's heading.
func (m *shelfMap) keepInView() {
	at := int(m.here().line)
	if at < m.top+2 {
		m.top = at - 2
	}
	if at >= m.top+m.height {
		m.top = at - m.height + 1
	}
	m.top = min(max(m.top, 0), max(0, len(m.lines)-m.height))
	for i := m.top + 1; i <= m.top+2 && i < len(m.lines); i++ { // no heading over none of its rows
		if m.lines[m.top].kind != shelfHead && m.lines[i].kind == shelfHead {
			m.top = i
		}
	}
}

// columnHeadOf is the line with the numbers over a line's columns, -1 where its shelf has
// none.
func (m *shelfMap) columnHeadOf(i int) int {
	for ; i >= 0 && m.lines[i].kind != shelfHead; i-- {
		if m.lines[i].kind == columnHead {
			return i
		}
	}
	return -1
}

func (m *shelfMap) shelfHead(group int) string {
	s := &m.shelves[group]
	return m.desk.heading(show.Safe(shelfWords(s.name)), show.Count(len(s.rows), "plant")+" ")
}

// columnNumbers stand over the hooks.
func (m *shelfMap) columnNumbers(line *hookLine) string {
	var b strings.Builder
	b.WriteString(strings.Repeat(" ", rowLabel))
	for c := range line.hooks {
		b.WriteString(show.Pad(" "+strconv.Itoa(line.from+c), m.wide))
	}
	return b.String()
}

// hookRow is a row of hooks.
func (m *shelfMap) hookRow(i int, line *hookLine) string {
	var b strings.Builder
	b.WriteString(m.desk.theme.quiet.of(show.Pad(" "+line.label, rowLabel)))
	at := m.here()
	for c := range line.hooks {
		here := int(at.line) == i && int(at.column) == c
		after := int(at.line) == i && int(at.column) == c-1 // the cursor, which is closed here
		m.cell(&b, &line.hooks[c], m.wide-1, here, after)
	}
	if int(at.line) == i && int(at.column) == len(line.hooks)-1 {
		b.WriteString(m.desk.theme.cursor.of("◂"))
	}
	return b.String()
}

// legend says what the signs behind a word mean.
func (m *shelfMap) legend() string {
	if m.shows == viewNeed {
		return "* in bloom  + more than one there"
	}
	return "+ more than one there"
}

// cell is one hook, a gap before it: the plant under the cursor, else the first
// that hangs there, or a dot for a hook that is free. The cell under the cursor is a
// hole among the patches, with arrows at both sides.
func (m *shelfMap) cell(b *strings.Builder, h *hook, width int, here, after bool) {
	gap := " "
	if after {
		gap = m.desk.theme.cursor.of("◂")
	}
	if len(h.rows) == 0 {
		free := "·"
		if m.desk.ascii { // where a dot is a dash, as the sign of a plant with nothing to tell
			free = "."
		}
		b.WriteString(gap + m.desk.theme.quiet.of(show.Pad(free, width)))
		return
	}
	row := int(h.rows[0])
	if here {
		row = m.rows.cursor
	}
	id := m.rows.rows[row].id
	word, ground := m.tells(id)
	more := ""
	if len(h.rows) > 1 {
		more = "+"
	}
	if show.Width(word)+len(more) > width {
		word = strings.ReplaceAll(word, " ", "") // "3off+", not "3 of+"
	}
	word = show.Pad(ansi.Truncate(word, width-len(more), "")+more, width)
	if m.rows.isMarked(id, row) {
		gap = m.desk.theme.marked.of("•")
	}
	if here {
		gap, ground = m.desk.theme.cursor.of("▸"), m.desk.theme.chosen
	}
	b.WriteString(gap + ground.of(word))
}

// tells is what the map says of a plant, and on which patch.
func (m *shelfMap) tells(id model.ID) (string, paint) {
	r, n := m.desk.book.Row(id), m.desk.need(id)
	if n == nil {
		return "", m.desk.theme.plain
	}
	switch m.shows {
	case viewDays:
		if n.DaysSince < 0 {
			return "?", m.desk.theme.away
		}
		return fmt.Sprintf("%d d", int(n.DaysSince)), m.desk.theme.cells[min(int(n.DaysSince/3), int(soak.Overnight))]
	case viewThirst:
		return fmt.Sprintf("%.0f %%", 100*n.Thirst()), m.desk.theme.cells[min(max(int(n.Thirst()/0.07), 0), int(soak.Overnight))]
	case viewBloom:
		return m.bloom(r)
	case viewTrouble:
		return m.trouble(r)
	}
	return m.needs(r, n)
}

// needs is the band of a plant at home, or where it is; a plant in danger says so
// before anything else.
func (m *shelfMap) needs(r *model.Row, n *advice.Need) (string, paint) {
	switch {
	case !r.Rot.IsZero():
		return "ROT", m.desk.theme.danger
	case r.State == model.Soaking:
		if load := m.desk.book.Load(r.Load); load != nil {
			return show.Safe(load.Vessel), m.desk.theme.away
		}
		return "soaks", m.desk.theme.away
	case r.State == model.Drying:
		return "rack", m.desk.theme.away
	case r.State == model.Dry:
		return "dry", m.desk.theme.done
	case r.InSession && m.desk.book.Waiting().Has(r.ID):
		return "waits", m.desk.theme.away
	}
	word := n.Band.String()
	if !r.Bloom.IsZero() {
		word = ansi.Truncate(word, 4, "") + "*"
	}
	return word, m.desk.theme.cells[n.Band]
}

func (m *shelfMap) bloom(r *model.Row) (string, paint) {
	switch {
	case !r.Bloom.IsZero() && r.Stage == model.Bud:
		return "bud", m.desk.theme.cells[soak.Mist]
	case !r.Bloom.IsZero():
		return "bloom", m.desk.theme.cells[soak.Long]
	case r.Offsets > 0:
		return fmt.Sprintf("%d off", r.Offsets), m.desk.theme.cells[soak.Dip]
	}
	return "-", m.desk.theme.away
}

func (m *shelfMap) trouble(r *model.Row) (string, paint) {
	switch {
	case !r.Rot.IsZero():
		return "ROT", m.desk.theme.danger
	case len(r.Troubles) > 0:
		return string(r.Troubles[0].What), m.desk.theme.danger
	case !r.Quarantine.IsZero():
		return "apart", m.desk.theme.cells[soak.Dip]
	case !r.Fading.IsZero():
		return "fades", m.desk.theme.cells[soak.Mist]
	}
	return "-", m.desk.theme.away
}
