package board

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/ui/show"
)

// bigClock fills the screen with the time left of the load that is due first,
// to be read from across a bathroom.
type bigClock struct{ *desk }

func newClock(d *desk) *bigClock { return &bigClock{d} }

func (c *bigClock) groups() []group {
	none := func() string {
		if len(c.loads) == 0 {
			return "Nothing is in the water"
		}
		return ""
	}
	return []group{{"Big clock", []binding{
		act("o", "take out what is due first, shaken", func() { c.takeOut(true) }).unless(none).foot("take out, shaken"),
		act("O", "take it out, not shaken", func() { c.takeOut(false) }).unless(none).foot("not shaken"),
		act("u", "undo the last entry", c.strike),
		anyOther("go back", func(tea.KeyMsg) tea.Cmd { c.drop(c); return nil }).foot("goes back"),
	}}}
}

func (c *bigClock) lead() string { return "" }

// takeOut takes the load out that is due first; with none left there is no more
// to wait for.
func (c *bigClock) takeOut(shaken bool) {
	c.takeOutAll(c.book.StillIn(c.loads[0]), shaken)
	if len(c.loads) == 0 {
		c.drop(c)
	}
}

func (c *bigClock) draw(p *page, height int) {
	digits, words, paint := c.now.In(c.book.Zone()).Format("15:04"), "Nothing in the water", c.theme.plain
	if len(c.loads) > 0 {
		l := c.loads[0]
		digits, words, paint = c.reading(l)
	}
	scale := 1
	if width := len([]rune(bigLines(digits, 2)[0])); width <= c.width-4 && height >= 10+6 {
		scale = 2
	}
	lines := bigLines(digits, scale)
	top := max(1, (height-len(lines)-4)/2)
	start := p.lines
	p.fill(start + top)
	for _, line := range lines {
		pad := max(0, (c.width-show.Width(line))/2)
		p.line(strings.Repeat(" ", pad) + paint.of(show.Fit(line, c.width-pad)))
	}
	p.line("")
	p.line(centred(paint.of(show.Fit(words, c.width)), min(show.Width(words), c.width), c.width))
	for _, l := range c.rest(start + height - p.lines - 1) {
		p.line(centred(l, show.Width(l), c.width))
	}
}

// reading is the clock face of a load: digits, what to do, and its colour.
func (c *bigClock) reading(l *model.Load) (digits, words string, _ paint) {
	left := l.Due.Sub(c.now)
	what := show.Safe(l.Vessel) + ", " + show.Count(l.Left, "plant")
	if left <= 0 {
		return "+" + show.Timer(-left), "TAKE OUT " + what + ", due " + show.Clock(l.Due, c.now, c.book.Zone()), c.theme.alarm
	}
	return show.Timer(left), what + ", out at " + show.Clock(l.Due, c.now, c.book.Zone()), c.theme.good
}

// rest names the loads after the first, as many as fit.
func (c *bigClock) rest(lines int) []string {
	var out []string
	for i := 1; i < len(c.loads) && len(out) < lines; i++ {
		l := c.loads[i]
		when := show.Timer(l.Due.Sub(c.now))
		if late := c.now.Sub(l.Due); late > 0 {
			when = show.Timer(late) + " late"
		}
		out = append(out, show.Safe(l.Vessel)+", "+show.Count(l.Left, "plant")+"  "+when)
	}
	return out
}

func centred(s string, width, page int) string {
	return strings.Repeat(" ", max(0, (page-width)/2)) + s
}

// face is the digits of the big clock, five lines each.
var face = map[rune][5]string{
	'0': {"█████", "█   █", "█   █", "█   █", "█████"},
	'1': {"  █  ", " ██  ", "  █  ", "  █  ", " ███ "},
	'2': {"█████", "    █", "█████", "█    ", "█████"},
	'3': {"█████", "    █", " ████", "    █", "█████"},
	'4': {"█   █", "█   █", "█████", "    █", "    █"},
	'5': {"█████", "█    ", "█████", "    █", "█████"},
	'6': {"█████", "█    ", "█████", "█   █", "█████"},
	'7': {"█████", "    █", "   █ ", "  █  ", "  █  "},
	'8': {"█████", "█   █", "█████", "█   █", "█████"},
	'9': {"█████", "█   █", "█████", "    █", "█████"},
	':': {"   ", " █ ", "   ", " █ ", "   "},
	'+': {"     ", "  █  ", "█████", "  █  ", "     "},
	'-': {"     ", "     ", "█████", "     ", "     "},
}

// bigLines writes digits large: scale columns and lines to a dot.
func bigLines(digits string, scale int) []string {
	var lines []string
	for y := range 5 {
		var b strings.Builder
		for _, r := range digits {
			for _, dot := range face[r][y] {
				b.WriteString(strings.Repeat(string(dot), scale))
			}
			b.WriteString(strings.Repeat(" ", scale))
		}
		for range scale {
			lines = append(lines, b.String())
		}
	}
	return lines
}
