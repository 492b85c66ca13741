package board

import "strings"

// page collects the lines of a frame.
type page struct {
	b     strings.Builder
	lines int
	limit int // lines after which more are dropped
}

func (p *page) reset(limit int) {
	n := p.b.Len()
	p.b.Reset()
	p.b.Grow(n + n/8) // a frame is about as long as the one before
	p.lines, p.limit = 0, limit
}

// line adds one line, already no wider than the page. What does not fit below
// is left out.
func (p *page) line(s string) {
	if p.lines >= p.limit {
		return
	}
	if p.lines > 0 {
		p.b.WriteByte('\n')
	}
	p.b.WriteString(s)
	p.lines++
}

// fill adds empty lines up to a count.
func (p *page) fill(lines int) {
	for p.lines < min(lines, p.limit) {
		p.line("")
	}
}

// text is the frame with exactly the given number of lines.
func (p *page) text(height int) string {
	p.fill(height)
	return p.b.String()
}
