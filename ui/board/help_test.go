package board

import (
	"strings"
	"testing"
)

// Help names every key that works on a screen, whole, at every width: what it does
// is broken into lines and never cut.
func TestHelpIsNeverCut(t *testing.T) {
	g := newGrower(t).shelves()
	for _, size := range [][2]int{{60, 20}, {80, 24}, {160, 50}} {
		g.size(size[0], size[1])
		for _, s := range g.board.screens {
			g.keys("T", s.letter())
			for range 2 { // without the number pad, and with it
				g.keys("?")
				h := g.board.desk.over[0].(*help)
				g.screen()
				text := strings.Join(h.text.text, "\n")
				if strings.Contains(text, "…") {
					t.Errorf("%s at %d is cut:\n%s", s.name(), size[0], text)
				}
				words := strings.Join(strings.Fields(text), " ")
				for _, gr := range h.what {
					for _, b := range gr.keys {
						if !strings.Contains(words, h.keysOf(b)) || !strings.Contains(words, strings.Fields(b.help)[0]) {
							t.Errorf("%s at %d does not name %s %s", s.name(), size[0], b.keys, b.help)
						}
					}
				}
				for _, line := range h.text.text {
					if n := len([]rune(line)); n > size[0] {
						t.Errorf("%s at %d: a line of %d", s.name(), size[0], n)
					}
				}
				g.keys("esc", "#")
			}
		}
	}
}

// A wide window has the help in two columns, each group whole in one of them.
func TestAWideWindowHasHelpInTwoColumns(t *testing.T) {
	g := newGrower(t).shelves()
	g.size(160, 50)
	g.keys("?")
	if h := g.board.desk.over[0].(*help); h.text.below() {
		t.Errorf("not all of it is seen:\n%s", g.screen())
	}
}

// Words that are not everyday ones are said in plain English in the help of the screens
// that use them, and a plant's card says what a kPa is.
func TestHelpSaysWhatWordsMean(t *testing.T) {
	g := newGrower(t).shelves()
	for letter, words := range map[string][]string{"t": {"band  ", "kPa  ", "shift  0 ", "thirst how much"}, "s": {"band  ", "load  ", "EC  "},
		"d": {"kPa  "}, "r": {"EC  "}, "h": {"EC  ", "kPa  ", "band  "}} {
		g.size(100, 200)
		g.keys("T", letter, "?")
		for _, word := range words {
			g.sees(word)
		}
		g.keys("esc")
	}
	g.keys("T", "t", "enter").sees("kPa: how hard the air pulls at a plant's water: up to 0.75 damp air, from 1.5 thirsty")
}
