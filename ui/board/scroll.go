package board

// scroll is a window on lines of text.
type scroll struct {
	lines  []string
	top    int
	height int
}

// set replaces the lines and goes to the first.
func (s *scroll) set(lines []string) { s.lines, s.top = lines, 0 }

// by moves the window by n lines.
func (s *scroll) by(n int) { s.top = min(max(s.top+n, 0), max(0, len(s.lines)-s.height)) }

// draw writes the lines in view, as many as height, cut at the width.
func (s *scroll) draw(p *page, width, height int) {
	s.height = height
	s.by(0)
	for i := s.top; i < len(s.lines) && i < s.top+height; i++ {
		p.line(fitStyled(s.lines[i], width))
	}
}

// keys scroll.
func (s *scroll) keys() []binding {
	return []binding{
		act([]string{"j", "down"}, "j ↓", "down", func() { s.by(1) }),
		act([]string{"k", "up"}, "k ↑", "up", func() { s.by(-1) }),
		act([]string{"pgdown", "ctrl+d", " "}, "pgdn", "a screen down", func() { s.by(max(1, s.height-1)) }),
		act([]string{"pgup", "ctrl+u"}, "pgup", "a screen up", func() { s.by(-max(1, s.height-1)) }),
		act([]string{"g", "home"}, "g", "first line", func() { s.by(-len(s.lines)) }),
		act([]string{"G", "end"}, "G", "last line", func() { s.by(len(s.lines)) }),
	}
}
