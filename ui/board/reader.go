package board

import (
	"strings"

	"tubside/ui/paper"
	"tubside/ui/show"
)

// reader shows a sheet part by part, for screens of words. In a wide window the text goes
// on in a second column beside the first: long lines are hard to read.
type reader struct {
	desk     *desk
	behind   screen // the screen it is on
	text     scroll
	plain    []string // the same lines without their colours, for finding
	sections []int    // where each begins
	sought   string
	wide     laidFor // what it was laid out for
}

// keys scroll, and go from part to part.
func (s *reader) keys() []binding {
	return append(s.text.keys(),
		act("l →", "next part", func() { s.part(1) }).foot("next part"),
		act("h ←", "part before", func() { s.part(-1) }),
		remark("/ find"),
	)
}

// fill lays the sheet out for the window: each part under its heading, the heads
// of its tables dim.
func (s *reader) fill(sheet *paper.Sheet) {
	var lines []string
	s.wide = s.desk.laid()
	width := s.column()
	s.plain, s.sections = s.plain[:0], s.sections[:0]
	add := func(plain, shown string) {
		s.plain, lines = append(s.plain, plain), append(lines, shown)
	}
	for _, under := range sheet.Under {
		for _, line := range wrap(under, width-2) {
			add(line, s.desk.theme.quiet.of(" "+line))
		}
	}
	for _, section := range sheet.Sections {
		s.sections = append(s.sections, len(lines))
		add(section.Title, s.desk.headingIn(show.Safe(section.Title), "", width))
		for _, line := range section.Lines(width - 6) {
			paint := s.desk.theme.plain
			if line.Head {
				paint = s.desk.theme.quiet
			}
			add(line.Text, "   "+s.withBars(paint, line.Text))
		}
		add("", "")
	}
	for _, line := range wrap(sheet.Foot, width-2) {
		add(line, s.desk.theme.quiet.of(" "+line))
	}
	s.text.set(lines)
}

// column is how wide the text is.
func (s *reader) column() int {
	if s.desk.room() {
		return (s.desk.width - 2) / 2
	}
	return s.desk.width
}

// draw writes the text in view.
func (s *reader) draw(p *page, height int) {
	if !s.desk.room() {
		s.text.draw(p, s.desk.width, height)
		return
	}
	s.text.fit(2 * height)
	width, at := s.column(), func(i int) string {
		if i < len(s.text.text) {
			return s.text.text[i]
		}
		return ""
	}
	for i := s.text.top; i < s.text.top+height; i++ {
		left := fitStyled(at(i), width)
		p.line(left + strings.Repeat(" ", width-show.Width(left)) + " " + s.desk.theme.quiet.of("│") + fitStyled(at(i+height), width))
	}
}

// withBars paints a line, and the bars in it in the ink of charts.
func (s *reader) withBars(words paint, line string) string {
	from := strings.IndexAny(line, paper.BarSigns)
	if from < 0 {
		return words.of(line)
	}
	rest := strings.TrimLeft(line[from:], paper.BarSigns)
	bar := line[from : len(line)-len(rest)]
	return words.of(line[:from]) + s.desk.theme.accent.of(bar) + s.withBars(words, rest)
}

// part goes to the part n further on.
func (s *reader) part(n int) { s.turnTo(s.partHere() + n) }

// partHere is the part that the top of the window is in.
func (s *reader) partHere() int {
	at := 0
	for i, line := range s.sections {
		if line <= s.text.top {
			at = i
		}
	}
	return at
}

// turnTo goes to a part, or to the nearest there is.
func (s *reader) turnTo(part int) {
	if len(s.sections) > 0 {
		s.text.by(s.sections[min(max(part, 0), len(s.sections)-1)] - s.text.top)
	}
}

// find goes to the first line with a text while it is typed.
func (s *reader) find() {
	from := s.text.top
	p := newPrompt(s.desk, s.behind, "Find:", "")
	p.change = func(text string) { s.sought = text; s.seekFrom(0, 1) }
	p.accept = func(text string) { s.desk.said = ""; s.sought = text; s.seekFrom(0, 1) }
	p.cancel = func() { s.desk.said = ""; s.text.by(from - s.text.top) }
	s.desk.push(p)
}

// findAgain goes to the next line with the text sought, or the one before.
func (s *reader) findAgain(dir int) { s.seekFrom(s.text.top+dir, dir) }

// seekFrom goes to the first line from one on that has the text sought, going
// round.
func (s *reader) seekFrom(from, dir int) {
	text := strings.ToLower(strings.TrimSpace(s.sought))
	if text == "" {
		s.desk.say("Nothing looked for yet: / finds")
		return
	}
	n := len(s.plain)
	for i := range n {
		line := ((from+i*dir)%n + n) % n
		if strings.Contains(strings.ToLower(s.plain[line]), text) {
			s.text.by(line - s.text.top)
			return
		}
	}
	s.desk.say("The %s does not say %s", strings.ToLower(s.behind.name()), show.Safe(s.sought))
}
