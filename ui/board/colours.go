package board

import (
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/ui/ink"
)

// colours is what is known of the terminal's colours.
type colours struct {
	depth ink.Depth
	paper ink.Paper // as the terminal said, dark until it says something
	known bool      // it said so
	mute  bool      // it has been asked and says nothing, or nobody asks
	asked time.Time // when it was asked
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
// environment or the terminal said; where neither says anything, either may be.
func (d *desk) paper() ink.Paper {
	switch d.book.Rules().Word(model.Paper) {
	case "dark":
		return ink.Dark
	case "light":
		return ink.Light
	}
	if d.colours.mute && !d.colours.known {
		return ink.Either
	}
	return d.colours.paper
}

// nobodyAsks is what is known of a terminal that is not asked: one without a window is
// dark.
func (d *desk) nobodyAsks(term string) {
	for _, name := range alwaysDark {
		if strings.HasPrefix(term, name) {
			return
		}
	}
	d.colours.mute = true
	d.redress()
}

// learn takes the terminal's answer.
func (d *desk) learn(answer paperMsg) {
	d.colours.paper, d.colours.known = ink.Paper(answer), true
}

// redress makes the theme anew where the background is another than it was drawn
// for, and reports whether it was.
func (d *desk) redress() bool {
	paper := d.paper()
	if paper == d.colours.drawn {
		return false
	}
	d.colours.drawn = paper
	d.theme = newTheme(paper, d.colours.depth)
	d.version++ // what was drawn and kept is drawn again
	return true
}

// laidFor is what lines are laid out and painted for: another width or another paper, and
// they are laid out anew.
type laidFor struct {
	width int
	paper ink.Paper
}

func (d *desk) laid() laidFor { return laidFor{d.width, d.colours.drawn} }

// askPaper asks the terminal for its background, once the first frame is on its
// way; the answer comes whenever it comes.
func (m *board) askPaper() tea.Cmd {
	if m.ask == nil || m.desk.colours.known || m.desk.colours.depth < ink.Sixteen {
		return nil
	}
	m.desk.colours.asked = m.desk.now
	return tea.Batch(func() tea.Msg { m.ask(); return nil }, m.waitForPaper())
}

// answerWait is how long a terminal has to answer before it is taken for one that does
// not. Over a slow line an answer takes a few tenths of a second; a choice.
const answerWait = time.Second

// silentMsg asks whether the terminal has answered.
type silentMsg struct{}

func (m *board) waitForPaper() tea.Cmd {
	return m.every(answerWait, func(time.Time) tea.Msg { return silentMsg{} })
}

// silent takes a terminal that has not answered for one that does not: an answer that
// comes even so is taken.
func (m *board) silent() tea.Cmd {
	waited := m.desk.now.Sub(m.desk.colours.asked)
	if waited >= 0 && waited < answerWait && !m.desk.colours.known { // the beats go by the clock's seconds
		return m.waitForPaper()
	}
	m.desk.colours.mute = true
	return nil
}

// alwaysDark are the terminals without a window, which are dark.
var alwaysDark = []string{"linux", "cons", "vt", "sun"}

// answers reports whether terminals of a kind are known to answer colour queries,
// or at least to draw nothing when they do not. tmux is one under any name: it answers
// for the terminal around it, or swallows the question.
func answers(term string, inTmux bool) bool {
	if inTmux {
		return true
	}
	for _, mute := range []string{"dumb", "linux", "screen", "vt", "ansi", "cons", "sun"} {
		if strings.HasPrefix(term, mute) {
			return false
		}
	}
	return term != ""
}
