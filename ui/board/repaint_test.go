package board

import (
	"strings"
	"testing"

	"tubside/ui/ink"
)

// Whatever is on the screen, on another paper no colour of the old one is left: no page
// that is kept keeps its paint.
func TestEveryPageIsPaintedAnewForAnotherPaper(t *testing.T) {
	g := newGrower(t).shelves()
	d := g.board.desk
	d.colours.depth = ink.Truecolor
	d.theme = newTheme(ink.Dark, ink.Truecolor)
	d.version++
	letters := []string{"t", "s", "d", "p", "w", "r", "a", "v", "l", "h", "y", "g"}
	for _, size := range [][2]int{{80, 24}, {160, 50}} {
		g.size(size[0], size[1])
		for _, letter := range letters {
			for _, over := range [][]string{nil, {"?"}, {"enter"}, {"c"}, {"a"}} {
				g.send(paperMsg(ink.Dark))
				g.keys("T", letter).keys(over...)
				dark := g.board.View()
				g.send(paperMsg(ink.Light))
				light := g.board.View()
				for name, old := range map[string]ink.Ink{"dim": ink.Palettes[ink.Dark].Dim, "bar": ink.Palettes[ink.Dark].Bar} {
					if strings.Contains(light, old.Over(ink.Truecolor)) || strings.Contains(light, old.Under(ink.Truecolor)) {
						t.Errorf("%s, then %q, at %d columns: the old %s is left", letter, over, size[0], name)
					}
				}
				if dark == light && strings.Contains(dark, "\x1b[38") {
					t.Errorf("%s, then %q: nothing was painted anew", letter, over)
				}
				g.keys("esc")
			}
		}
	}
}
