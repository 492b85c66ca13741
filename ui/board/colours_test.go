package board

import (
	"slices"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/ui/ink"
)

// A terminal that says nothing of its background gets what reads on black and on white:
// reverse for the bar and no ground of the board's choice under text. An answer that comes
// late, the environment and the house rule know better.
func TestASilentTerminalGetsWhatReadsOnEither(t *testing.T) {
	g := newGrower(t).shelves()
	d, asked := g.board.desk, 0
	g.board.ask = func() { asked++ }
	d.dress([]string{"TERM=tmux-256color", "COLORTERM=truecolor", "TMUX=/tmp/tmux-0/default,1,0"})
	g.settle(g.board.askPaper())
	if asked != 1 || !answers("screen-256color", true) || answers("screen-256color", false) {
		t.Errorf("asked %d times", asked)
	}
	g.now = g.now.Add(answerWait / 2)
	if g.send(silentMsg{}); d.paper() != ink.Dark {
		t.Error("it is taken for one that says nothing before it could answer")
	}
	g.now = g.now.Add(time.Second)
	g.send(silentMsg{})
	if d.paper() != ink.Either || d.theme.bar.open != "\x1b[7m" {
		t.Fatalf("drawn for paper %v with the bar %q", d.paper(), d.theme.bar.open)
	}
	// Where a ground is set, so is the ink on it.
	for _, line := range strings.Split(g.board.View(), "\n") {
		for _, part := range strings.Split(line, "\x1b[48;")[1:] {
			if !strings.Contains(strings.SplitN(part, "m", 3)[1], "\x1b[38;") {
				t.Errorf("a ground without an ink: %q", line)
			}
		}
	}
	if g.send(paperMsg(ink.Light)); d.paper() != ink.Light {
		t.Error("a late answer is not taken")
	}
	g.enters(g.now, &model.RuleSet{Name: "paper", Value: float64(slices.Index(model.LimitTable[model.Paper].Choices, "dark"))})
	if g.send(tickMsg{}); d.colours.drawn != ink.Dark {
		t.Error("the house rule is not followed")
	}
	d.colours = colours{}
	d.dress([]string{"TERM=screen-256color", "TUBSIDE_PAPER=light"})
	if !d.colours.known || d.colours.paper != ink.Light {
		t.Error("the environment is not read")
	}
}

func TestATerminalWithoutAWindowIsDark(t *testing.T) {
	for term, want := range map[string]ink.Paper{"linux": ink.Dark, "vt220": ink.Dark, "screen-256color": ink.Either} {
		d := newGrower(t).board.desk
		d.dress([]string{"TERM=" + term})
		if d.nobodyAsks(term); d.paper() != want {
			t.Errorf("%s: drawn for %v, want %v", term, d.paper(), want)
		}
	}
}
