package board

import (
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/ui/show"
)

// bigClock fills the window with the time left of every load, to be read from
// across a bathroom.
type bigClock struct {
	*desk
	over *planScreen                  // the screen that it covers, where that is the plan; else nil
	pass func(msg tea.KeyMsg) tea.Cmd // gives a key to that screen
}

// newClock is the big clock over the screen in front.
func (m *board) newClock() *bigClock {
	plan, _ := m.front().(*planScreen)
	return &bigClock{m.desk, plan, m.pass}
}

func (c *bigClock) groups() []group {
	none := func() string {
		if len(c.loads) == 0 {
			return "Nothing is in the water"
		}
		return ""
	}
	noStep := func() string {
		if c.over.nextStep() == nil {
			return "Nothing is left to do"
		}
		return ""
	}
	var keys []binding
	if c.over != nil { // what she has just done is ticked off by the key that she knows
		keys = append(keys, bind("d", "back to the plan, and its next thing is done now", func(msg tea.KeyMsg) tea.Cmd {
			c.drop(c)
			return c.pass(msg)
		}).pad("*").unless(noStep).foot("done"))
	}
	return []group{{"Big clock", append(keys,
		act("o", "take out what is due first, shaken",
			func() { c.takeOut(true) }).pad("1").unless(none).foot("take out, shaken"),
		act("O", "take it out, not shaken", func() { c.takeOut(false) }).pad("2").unless(none).foot("not shaken"),
		act("u", "undo the last entry", c.strike).pad("9"),
		anyOther("go back", func(tea.KeyMsg) tea.Cmd { c.drop(c); return nil }).foot("goes back"),
	)}}
}

func (c *bigClock) lead() string { return "" }

// takeOut takes the load out that is due first; with none left there is no more
// to wait for.
func (c *bigClock) takeOut(shaken bool) {
	if in := c.book.StillIn(c.loads[0]); c.mayTakeOut(in, shaken) {
		c.takeOutAll(in, shaken, 0)
	}
	if len(c.loads) == 0 {
		c.drop(c)
	}
}

// reading is one vessel on the clock.
type reading struct {
	name, digits, words string
	paint               paint
}

// readings are the loads in the water, first due first; with none, the time of
// day.
func (c *bigClock) readings() []reading {
	if len(c.loads) == 0 {
		return []reading{{"", c.now.In(c.book.Zone()).Format("15:04"), "Nothing in the water", c.theme.plain}}
	}
	all := make([]reading, len(c.loads))
	for i, l := range c.loads {
		out, plants := c.outAt(l), show.Count(l.Left, "plant")
		when := show.Clock(out.From, c.now, c.book.Zone())
		switch left := c.left(l); {
		case out.ByNow(c.now):
			all[i] = reading{show.Safe(l.Vessel), show.Timer(out.Until.Sub(c.now)),
				"take out " + plants + " now, until " + show.Clock(out.Until, c.now, c.book.Zone()), c.theme.warn}
		case left <= 0:
			all[i] = reading{show.Safe(l.Vessel), "+" + show.Timer(-left),
				"take out " + plants + ", due since " + show.Clock(out.Until, c.now, c.book.Zone()), c.theme.alarm}
		case left < soonDue:
			all[i] = reading{show.Safe(l.Vessel), show.Timer(left), plants + ", out at " + when, c.theme.warn}
		default:
			all[i] = reading{show.Safe(l.Vessel), show.Timer(left), plants + ", out at " + when, c.theme.plain}
		}
	}
	return all
}

// soonDue is when a load asks to be kept in sight.
const soonDue = 5 * time.Minute

// draw fills the window: each vessel's name as large as its digits, and the line
// that says what to do below. What does not fit large stands small at the foot.
func (c *bigClock) draw(p *page, height int) {
	p.line("") // the letters stand clear of the line above
	height--
	all, foot := c.readings(), p.lines+height
	large, scale, beside := len(all), 0, false
	var small []string
	for ; large > 0; large-- {
		small = c.small(all[large:])
		room := height
		if len(small) > 0 {
			room -= len(small) + 1
		}
		if scale, beside = fitBig(all[:large], c.width-4, room, c.ascii); scale > 0 {
			break
		}
	}
	used := large*(bigBlock(scale, beside, c.ascii)+2) + len(small)
	p.fill(p.lines + max(0, (height-used)/2))
	for _, r := range all[:large] {
		c.drawReading(p, r, scale, beside)
	}
	p.fill(foot - len(small))
	for _, line := range small {
		p.line(c.theme.quiet.of(centred(line, c.width)))
	}
}

// small is the vessels that do not fit large.
func (c *bigClock) small(rest []reading) []string {
	if len(rest) == 0 {
		return nil
	}
	var words []string
	for _, r := range rest {
		words = append(words, strings.ReplaceAll(r.name+" "+r.digits, " ", "\u00a0"))
	}
	lines := wrap(strings.Join(words, " · "), c.width-4)
	for i := range lines {
		lines[i] = strings.ReplaceAll(lines[i], "\u00a0", " ")
	}
	return lines
}

// drawReading draws one vessel: name and digits, side by side or one over the
// other, and its line.
func (c *bigClock) drawReading(p *page, r reading, scale int, beside bool) {
	name, digits := big(fitName(r.name, c.width-4, scale), scale, c.ascii), big(r.digits, scale, c.ascii)
	switch {
	case r.name == "":
		c.drawBig(p, digits, r.paint)
	case beside:
		gap := max(2*scale, c.width-4-show.Width(name[0])-show.Width(digits[0]))
		for i := range name {
			p.line("  " + name[i] + strings.Repeat(" ", gap) + r.paint.of(digits[i]))
		}
	default:
		c.drawBig(p, name, c.theme.plain)
		p.line("")
		c.drawBig(p, digits, r.paint)
	}
	p.line(r.paint.of(centred(show.Fit(r.words, c.width), c.width)))
	p.line("")
}

func (c *bigClock) drawBig(p *page, lines []string, paint paint) {
	for _, line := range lines {
		p.line(paint.of(centred(line, c.width)))
	}
}

// fitName cuts a name that is too long for the window even so.
func fitName(name string, width, scale int) string {
	for name != "" && bigWidth(name, scale) > width {
		runes := []rune(name)
		name = string(runes[:len(runes)-1])
	}
	return name
}

// fitBig is the largest scale at which all readings fit, and whether name and
// digits stand side by side; 0 when they do not fit at all. A name may be cut at
// the smallest.
func fitBig(all []reading, width, height int, plain bool) (scale int, beside bool) {
	for scale = height; scale > 0; scale-- {
		if plain && scale > 1 && scale%2 == 1 {
			continue // a half of a line has no plain sign
		}
		side, over := true, true
		for _, r := range all {
			name, digits := bigWidth(r.name+" ", scale), bigWidth(r.digits, scale)
			side = side && name+2*scale+digits <= width
			over = over && digits <= width && (scale == 1 || name <= width)
		}
		for _, beside := range []bool{true, false} {
			if (beside && side || !beside && over) && len(all)*(bigBlock(scale, beside, plain)+2) <= height+1 {
				return scale, beside
			}
		}
	}
	return 0, false
}

// bigBlock is how many lines a name and its digits take.
func bigBlock(scale int, beside, plain bool) int {
	if beside {
		return bigHeight(scale, plain)
	}
	return 2*bigHeight(scale, plain) + 1
}

func centred(s string, page int) string {
	return strings.Repeat(" ", max(0, (page-show.Width(s))/2)) + s
}
