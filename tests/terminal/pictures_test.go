//go:build unix

package terminal_test

import (
	"flag"
	"fmt"
	"html"
	"image/color"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	uv "github.com/charmbracelet/ultraviolet"
	"github.com/charmbracelet/x/ansi"
)

var draw = flag.Bool("draw", false, "draw the pictures of the README anew")

// pictures are the README's: the running demo at a fixed time, on dark paper and
// on light.
var pictures = []struct {
	name       string
	cols, rows int
	scene      string
	keys       string
	shows      string // on the screen when it is to be drawn
}{
	{"triage", 100, 30, "homecoming", "Ttjjj", "Triage"},
	{"map", 100, 30, "homecoming", "Ttgjll", "the map by need"},
	{"clock", 100, 30, "soakday", "c", "out at"},
}

// demoTime is when the pictures are taken.
const demoTime = "2026-01-17T10:12:00Z"

// The pictures in the README show the program as it is. After a change that is
// meant, draw them anew: go test ./tests/terminal -run Pictures -draw
func TestThePicturesAreCurrent(t *testing.T) {
	for _, p := range pictures {
		for paper, env := range map[string][]string{"dark": {"COLORFGBG=15;0"}, "light": {"COLORFGBG=0;15"}} {
			t.Run(p.name+" "+paper, func(t *testing.T) {
				w := run(t, p.cols, p.rows, append(env, "COLORTERM=truecolor"), "demo", "--scene", p.scene, "--now",
					demoTime)
				w.sees("help").keys(p.keys).sees(p.shows)
				got := w.still().picture(papersOf[paper])
				w.keys("\x03")
				file := filepath.Join("..", "..", "demo", "pictures", p.name+"-"+paper+".svg")
				if *draw {
					if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
						t.Fatal(err)
					}
					return
				}
				want, err := os.ReadFile(file)
				if err != nil {
					t.Fatal(err)
				}
				if got != string(want) {
					t.Errorf("%s is not what the program shows now; draw it anew with -draw", file)
				}
			})
		}
	}
}

// still waits until the program has written nothing for a while.
func (w *terminal) still() *terminal {
	w.t.Helper()
	for {
		select {
		case <-w.changed:
		case <-time.After(300 * time.Millisecond):
			return w
		}
	}
}

// paperInk is the paper and the ink of a picture.
type paperInk struct{ paper, ink string }

var papersOf = map[string]paperInk{"dark": {"#14161a", "#d9dfe5"}, "light": {"#fbfaf7", "#1e2226"}}

// Size of a cell in a picture, and of the letters in it.
const (
	cellX, cellY = 9, 20
	letterSize   = 15
	margin       = 12
)

// picture draws the screen as SVG: a patch where the ground is not the paper's,
// and the letters of a style together, each run held to its cells.
func (w *terminal) picture(p paperInk) string {
	w.mu.Lock()
	defer w.mu.Unlock()
	cols, rows := w.screen.Width(), w.screen.Height()
	width, height := cols*cellX+2*margin, rows*cellY+2*margin
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" font-family="ui-monospace,'DejaVu Sans Mono',Menlo,Consolas,monospace" font-size="%d">`+"\n", width, height, letterSize)
	fmt.Fprintf(&b, `<rect width="%d" height="%d" rx="8" fill="%s"/>`+"\n", width, height, p.paper)
	for y := range rows {
		for x := 0; x < cols; {
			first := looks(w.screen.CellAt(x, y), p)
			var text strings.Builder
			end := x
			for end < cols && looks(w.screen.CellAt(end, y), p) == first {
				cell := w.screen.CellAt(end, y)
				if cell == nil || cell.Content == "" {
					text.WriteByte(' ')
				} else {
					text.WriteString(cell.Content)
				}
				end += max(1, widthOf(cell))
			}
			first.draw(&b, x, y, end-x, text.String(), p)
			x = end
		}
	}
	b.WriteString("</svg>\n")
	return b.String()
}

func widthOf(c *uv.Cell) int {
	if c == nil {
		return 1
	}
	return c.Width
}

// look is how a cell is drawn.
type look struct {
	ground, ink string
	bold        bool
}

func looks(c *uv.Cell, p paperInk) look {
	l := look{ground: p.paper, ink: p.ink}
	if c == nil {
		return l
	}
	if c.Style.Bg != nil {
		l.ground = hex(c.Style.Bg)
	}
	if c.Style.Fg != nil {
		l.ink = hex(c.Style.Fg)
	}
	if c.Style.Attrs&uv.AttrReverse != 0 {
		l.ground, l.ink = l.ink, l.ground
	}
	l.bold = c.Style.Attrs&uv.AttrBold != 0
	return l
}

func hex(c color.Color) string {
	r, g, b, _ := c.RGBA()
	return fmt.Sprintf("#%02x%02x%02x", r>>8, g>>8, b>>8)
}

func (l look) draw(b *strings.Builder, x, y, cells int, text string, p paperInk) {
	left, top := margin+x*cellX, margin+y*cellY
	if l.ground != p.paper {
		fmt.Fprintf(b, `<rect x="%d" y="%d" width="%d" height="%d" fill="%s"/>`+"\n", left, top, cells*cellX, cellY,
			l.ground)
	}
	for _, word := range words(text) {
		l.drawWord(b, left+word.at*cellX, top, word.text)
	}
}

// word is what stands between blanks, and how many cells from the left.
type word struct {
	at   int
	text string
}

// words takes a text apart at its blanks, and where letters end and blocks begin.
func words(text string) []word {
	var all []word
	at, kind := 0, blank
	for _, r := range text {
		is := kindOf(r)
		if is != kind && is != blank {
			all = append(all, word{at, ""})
		}
		if kind = is; is != blank {
			all[len(all)-1].text += string(r)
		}
		at += max(ansi.StringWidth(string(r)), 0)
	}
	return all
}

// blank, letters and blocks are drawn each in their own way.
const (
	blank = iota
	letters
	blocks
)

func kindOf(r rune) int {
	switch {
	case r == ' ':
		return blank
	case strings.ContainsRune("█▀▄", r):
		return blocks
	}
	return letters
}

// drawWord draws letters held to their cells, and blocks as what they are.
func (l look) drawWord(b *strings.Builder, left, top int, text string) {
	runes := []rune(text)
	if kindOf(runes[0]) == blocks {
		for i := 0; i < len(runes); {
			n := i
			for n < len(runes) && runes[n] == runes[i] {
				n++
			}
			y, height := top, cellY
			switch runes[i] {
			case '▀':
				height = cellY / 2
			case '▄':
				y, height = top+cellY/2, cellY/2
			}
			fmt.Fprintf(b, `<rect x="%d" y="%d" width="%d" height="%d" fill="%s"/>`+"\n", left+i*cellX, y, (n-i)*cellX,
				height, l.ink)
			i = n
		}
		return
	}
	weight := ""
	if l.bold {
		weight = ` font-weight="bold"`
	}
	fmt.Fprintf(b, `<text x="%d" y="%d" textLength="%d" lengthAdjust="spacingAndGlyphs" fill="%s"%s>%s</text>`+"\n",
		left, top+letterSize, ansi.StringWidth(text)*cellX, l.ink, weight, html.EscapeString(text))
}
