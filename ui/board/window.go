package board

// window is a cursor in a column of lines, and the lines that are in view. It
// costs what is on the screen, not what is in the column.
type window struct {
	cursor int            // the line under the cursor, from 0
	top    int            // the first line in view
	height int            // lines in view
	lines  int            // how many there are
	pass   func(int) bool // lines the cursor passes over; nil: none
}

// fit says how many lines there are and how many are in view; the cursor stays
// where it is as far as it can.
func (w *window) fit(lines, height int) {
	w.lines, w.height = lines, max(1, height)
	w.cursor = min(w.cursor, max(0, lines-1))
	w.keepInView()
}

// put moves the cursor to a line, or as near to it as there are lines.
func (w *window) put(i int) {
	w.cursor = min(max(i, 0), max(0, w.lines-1))
	w.settle(1)
	w.keepInView()
}

// move steps the cursor by n lines.
func (w *window) move(n int) {
	w.cursor = min(max(w.cursor+n, 0), max(0, w.lines-1))
	w.settle(n)
	w.keepInView()
}

// page steps by a screenful.
func (w *window) page(dir int) { w.move(dir * max(1, w.height-2)) }

// settle moves the cursor off a line that it passes over, first in the direction
// of n.
func (w *window) settle(n int) {
	if w.pass == nil {
		return
	}
	dir := 1
	if n < 0 {
		dir = -1
	}
	for _, d := range []int{dir, -dir} {
		for i := w.cursor; i >= 0 && i < w.lines; i += d {
			if !w.pass(i) {
				w.cursor = i
				return
			}
		}
	}
}

// keepInView holds the cursor inside the window. Under headings the cursor keeps
// one line more from the top, for the heading that stays there.
func (w *window) keepInView() {
	above := 0
	if w.pass != nil {
		above = 1
	}
	if w.cursor < w.top+above {
		w.top = w.cursor - above
	}
	if w.cursor >= w.top+w.height {
		w.top = w.cursor - w.height + 1
	}
	w.top = min(max(w.top, 0), max(0, w.lines-w.height))
}

// inView are the lines to draw, from and up to.
func (w *window) inView() (from, until int) { return w.top, min(w.top+w.height, w.lines) }

// keys move the cursor.
func (w *window) keys() []binding {
	return []binding{
		act("j ↓", "down", func() { w.move(1) }).pad("+"),
		act("k ↑", "up", func() { w.move(-1) }).pad("-"),
		act("pgdn ctrl+d", "a screen down", func() { w.page(1) }),
		act("pgup ctrl+u", "a screen up", func() { w.page(-1) }),
		act("home", "first", func() { w.move(-w.lines) }),
		act("G end", "last", func() { w.move(w.lines) }),
	}
}

// scroll is a window on text, without a cursor.
type scroll struct {
	text   []string
	top    int
	height int
}

// set replaces the text and goes to its first line.
func (s *scroll) set(lines []string) { s.text, s.top = lines, 0 }

// by moves the window by n lines.
func (s *scroll) by(n int) { s.top = min(max(s.top+n, 0), max(0, len(s.text)-s.height)) }

// fit sets how many lines are in view.
func (s *scroll) fit(height int) {
	s.height = height
	s.by(0)
}

// draw writes the lines in view, as many as height, cut at the width.
func (s *scroll) draw(p *page, width, height int) {
	s.fit(height)
	for i := s.top; i < len(s.text) && i < s.top+height; i++ {
		p.line(fitStyled(s.text[i], width))
	}
}

// below reports whether there is text below what is in view.
func (s *scroll) below() bool { return s.top+s.height < len(s.text) }

// keys scroll.
func (s *scroll) keys() []binding {
	return []binding{
		act("j ↓", "down", func() { s.by(1) }).pad("+").foot("scroll"),
		act("k ↑", "up", func() { s.by(-1) }).pad("-").foot("scroll"),
		act("pgdn ctrl+d space", "a screen down", func() { s.by(max(1, s.height-1)) }),
		act("pgup ctrl+u", "a screen up", func() { s.by(-max(1, s.height-1)) }),
		act("g home", "first line", func() { s.by(-len(s.text)) }),
		act("G end", "last line", func() { s.by(len(s.text)) }),
	}
}
