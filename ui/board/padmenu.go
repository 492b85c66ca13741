package board

import (
	"fmt"
	"strconv"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/ui/show"
)

// padMenu is all that a screen can do and that has no key of its own on a number
// pad: a number goes to a line, + and - move, and Enter does it.
type padMenu struct {
	desk  *desk
	items []binding
	rows  window
	typed string // the number so far
}

func newPadMenu(m *board) *padMenu {
	p := &padMenu{desk: m.desk}
	for _, g := range once(append(m.front().groups(), m.global)) {
		for _, b := range g.keys {
			if b.do != nil && b.num == "" && !names(b.keys, "enter") {
				p.items = append(p.items, b)
			}
		}
	}
	if m.plant() != 0 {
		card := act("enter", "open the plant's card", func() { m.desk.push(newCard(m.desk, m.front().list(), m.pass)) })
		p.items = append([]binding{card}, p.items...)
	}
	p.rows.fit(len(p.items), m.desk.body())
	return p
}

func (p *padMenu) lead() string { return "" }

func (p *padMenu) groups() []group {
	return []group{{"Everything else", append([]binding{
		act("enter", "do it", p.do).foot("does it"),
		bind("0-9", "the number of a line", p.number).pad("0-9").foot("to a line"),
		act("esc", "back", func() { p.desk.drop(p) }).pad("/").foot("back"),
	}, p.rows.keys()...)}}
}

// number goes to the line whose number is typed, two digits at most.
func (p *padMenu) number(msg tea.KeyMsg) tea.Cmd {
	for _, typed := range []string{p.typed + msg.String(), msg.String()} {
		if n, err := strconv.Atoi(typed); err == nil && n >= 1 && n <= len(p.items) {
			p.typed = typed
			p.rows.put(n - 1)
			return nil
		}
	}
	p.typed = ""
	return nil
}

// do closes the menu and does what the line says, or says why it cannot be done.
func (p *padMenu) do() {
	b := p.items[p.rows.cursor]
	p.desk.drop(p)
	if why := b.why(); why != "" {
		p.desk.say("%s", why)
		return
	}
	cmd := b.do(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(keysOf(b.keys)[0])})
	if cmd != nil {
		p.desk.later = append(p.desk.later, cmd)
	}
}

func (p *padMenu) draw(pg *page, height int) {
	pg.line("")
	pg.line(p.desk.heading("Everything else here", "what has no key on the number pad "))
	p.rows.fit(len(p.items), height-2)
	for i, until := p.rows.inView(); i < until; i++ {
		b := p.items[i]
		text, paint := show.Line(b.help), p.desk.theme.plain
		if why := b.why(); why != "" {
			text, paint = text+" ("+why+")", p.desk.theme.quiet
		}
		sign := "  "
		if i == p.rows.cursor {
			sign = p.desk.theme.cursor.of("▸") + " "
		}
		line := sign + paint.of(show.Clause(fmt.Sprintf("%3d  %s", i+1, text), p.desk.width-3))
		if i == p.rows.cursor {
			line = p.desk.barred(line)
		}
		pg.line(line)
	}
}
