package board

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/ui/ink"
)

// colours is what is known of the terminal's colours.
type colours struct {
	depth ink.Depth
	paper ink.Paper // as the terminal said, dark until it says something
	known bool      // it said so
	drawn ink.Paper // what the theme was made for
}

// paperMsg is the terminal's answer to the question for its background.
type paperMsg ink.Paper

// dress makes the theme for a terminal, as its environment tells.
func (d *desk) dress(environ []string) {
	d.colours.depth = ink.DepthFrom(environ)
	d.colours.paper, d.colours.known = ink.PaperFrom(environ)
	d.colours.drawn = d.paper()
	d.theme = newTheme(d.colours.drawn, d.colours.depth)
}

// paper is the background to draw for: what the house rule says, else what the
// terminal said.
func (d *desk) paper() ink.Paper {
	switch d.book.Rules().Word(model.Paper) {
	case "dark":
		return ink.Dark
	case "light":
		return ink.Light
	}
	return d.colours.paper
}

// learn takes the terminal's answer.
func (d *desk) learn(answer paperMsg) {
	d.colours.paper, d.colours.known = ink.Paper(answer), true
	d.redress()
}

// redress makes the theme anew where the background is another than it was drawn
// for.
func (d *desk) redress() {
	if paper := d.paper(); paper != d.colours.drawn {
		d.colours.drawn = paper
		d.theme = newTheme(paper, d.colours.depth)
		d.version++ // what was drawn and kept is drawn again
	}
}

// askPaper asks the terminal for its background, once the first frame is on its
// way; the answer comes whenever it comes.
func (m *board) askPaper() tea.Cmd {
	if m.ask == nil || m.desk.colours.known || m.desk.colours.depth < ink.Sixteen {
		return nil
	}
	return func() tea.Msg { m.ask(); return nil }
}

// answers reports whether terminals of a kind are known to answer colour queries,
// or at least to draw nothing when they do not.
func answers(term string) bool {
	for _, mute := range []string{"dumb", "linux", "screen", "vt", "ansi", "cons", "sun"} {
		if strings.HasPrefix(term, mute) {
			return false
		}
	}
	return term != ""
}
