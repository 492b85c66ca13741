package board

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/exp/golden"
	"pgregory.net/rapid"

	"tubside/model"
	"tubside/ui/ink"
)

// Every screen as it looks, at the sizes it is made for.
func TestScreensLookAsTheyShould(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {100, 30}, {160, 50}} {
		for name, reach := range map[string][]string{
			"triage": {"2", "1", "0", "f", "j", "3"},
			"bands":  {"o", "o"},
			"card":   {"3", "2", "1", "k", "enter"},
			"soak":   {"A", "p", "l", "A", "p", "tab", "s"},
			"empty":  {"tab"},
			"help":   {"?"},
			"add":    {"+"},
		} {
			t.Run(fmt.Sprintf("%s %dx%d", name, size[0], size[1]), func(t *testing.T) {
				g := newGrower(t).shelves()
				g.size(size[0], size[1])
				g.keys(reach...)
				golden.RequireEqual(t, []byte(g.screen()))
			})
		}
	}
}

func TestDryingLooksAsItShould(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {160, 50}} {
		t.Run(fmt.Sprintf("%dx%d", size[0], size[1]), func(t *testing.T) {
			g := newGrower(t).shelves()
			g.size(size[0], size[1])
			g.enters(soakDay.Add(-10*time.Hour), &model.Soak{Load: 1, Vessel: "tub", Due: soakDay.Add(-8 * time.Hour)},
				1, 2, 3)
			g.enters(soakDay.Add(-5*time.Hour), &model.Out{Shaken: true, Inverted: true}, 1, 2)
			g.enters(soakDay.Add(-time.Hour), &model.Out{}, 3)
			g.enters(soakDay.Add(-30*time.Minute), &model.FoundDry{}, 1)
			g.keys("tab", "tab")
			golden.RequireEqual(t, []byte(g.screen()))
		})
	}
}

// Whatever is pressed at whatever size, a frame has exactly its lines and no
// line is wider than the window. There is one cursor, no danger and no time in the
// water is cut, and no terminal gets signs or colours that it has not.
func TestFramesFitTheirWindow(t *testing.T) {
	keys := []string{"j", "k", "l", "h", "G", "g", "A", "space", "v", "p", "s", "o", "O", "d", "w", "r", "f", "2", "-",
		"tab", "enter", "esc", "?", "c", "F", "/", "+", "e", "M", "x", "u", "U", "b", "!", "a", ".", "V", "y"}
	rapid.Check(t, func(rt *rapid.T) {
		g := newGrower(t).shelves()
		g.enters(soakDay, &model.Rot{}, 2)
		d := g.board.desk
		d.ascii = rapid.Bool().Draw(rt, "ascii")
		d.colours.depth = rapid.SampledFrom([]ink.Depth{ink.Truecolor, ink.Sixteen, ink.Mono}).Draw(rt, "depth")
		d.theme = newTheme(d.colours.drawn, d.colours.depth)
		for range rapid.IntRange(1, 25).Draw(rt, "presses") {
			if rapid.IntRange(0, 5).Draw(rt, "resize") == 0 {
				g.size(rapid.IntRange(1, 200).Draw(rt, "width"), rapid.IntRange(1, 60).Draw(rt, "height"))
			}
			name := rapid.SampledFrom(keys).Draw(rt, "key")
			g.keys(name)
			frameFits(rt, g.board)
		}
	})
}

func frameFits(t *rapid.T, m *board) {
	frame := m.View()
	lines := strings.Split(frame, "\n")
	if len(lines) != m.desk.height {
		t.Fatalf("%d lines in a window of %d:\n%s", len(lines), m.desk.height, frame)
	}
	for i, line := range lines {
		if w := ansi.StringWidth(line); w > m.desk.width {
			t.Fatalf("line %d is %d wide in a window of %d: %q", i, w, m.desk.width, line)
		}
	}
	cursors := 0
	for _, line := range lines[min(1, len(lines)):] { // not the head, which marks the screen
		text := ansi.Strip(line)
		if strings.HasPrefix(text, "▸") || m.desk.ascii && strings.HasPrefix(text, ">") {
			cursors++
		}
		if cutDanger.MatchString(text) {
			t.Fatalf("what matters most is cut: %q", text)
		}
	}
	if cursors > 1 {
		t.Fatalf("%d cursors:\n%s", cursors, ansi.Strip(frame))
	}
	if m.desk.ascii && strings.ContainsFunc(frame, func(r rune) bool { return r > '~' }) {
		t.Fatalf("in ASCII: %q", frame)
	}
	if m.desk.colours.depth == ink.Mono && strings.Contains(boldAndReverse.Replace(frame), "\x1b") {
		t.Fatalf("without colours: %q", frame)
	}
}

// cutDanger is a danger or a time in the water with its end missing.
var cutDanger = regexp.MustCompile(`(ROT|BADLY|OUT)[^·]{0,12}…|\d (h|m|mi|to)…`)

// boldAndReverse are all that a terminal without colours is sent.
var boldAndReverse = strings.NewReplacer("\x1b[1m", "", "\x1b[22m", "", "\x1b[7m", "", "\x1b[27m", "")

func TestTheNarrowestWindowShowsEveryCount(t *testing.T) {
	g := newGrower(t).shelves().keys("A", "p", "p")
	g.size(60, 20)
	g.sees("4 = 4 wait + 0 soak + 0 drying + 0 dry + 0 hung")
}

func TestACardClosesWhenItsPlantIsTakenBack(t *testing.T) {
	g := newGrower(t)
	for id := model.ID(1); id <= 2; id++ {
		g.enters(soakDay, &model.Add{Plants: []model.Plant{{ID: id, Name: "ionantha", Count: 1,
			Home: model.Home{Shelf: "A", Spot: id.String()}}}})
	}
	g.keys("G", "enter").sees("#2  ").keys("u", "u").doesNotSee("#2  ").sees("▸Triage").keys("enter").sees("#1  ")
}

func TestTooSmallAWindowActsOnNothing(t *testing.T) {
	g := newGrower(t).shelves()
	entries := len(g.board.desk.book.Entries())
	g.size(59, 24)
	g.sees("too small").keys("f", "2", "1", "0", "p")
	if n := len(g.board.desk.book.Entries()); n != entries {
		t.Errorf("%d entries were written unseen", n-entries)
	}
	if _, cmd := g.board.Update(keyNamed("q")); cmd == nil || cmd() != tea.Quit() {
		t.Error("q does not leave")
	}
}

// Names from a file cannot steer the terminal or break the columns.
func TestHostileNamesAreHarmless(t *testing.T) {
	g := newGrower(t)
	g.enters(soakDay, &model.Add{Plants: []model.Plant{{ID: 1, Label: "evil\x1b]0;owned\a\x1b[2Jname\r\n\u202exyz",
		Count: 1, Home: model.Home{Shelf: "\x1b[31mA"}}}})
	for _, keys := range [][]string{nil, {"enter"}, {"esc", "e"}, {"esc", "p", "tab"}} {
		g.keys(keys...)
		if frame := g.board.View(); strings.ContainsAny(frame, "\x1b\a\r\u202e") {
			t.Errorf("after %v the frame holds control characters: %q", keys, frame)
		}
	}
}
