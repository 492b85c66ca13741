package ink

import (
	"fmt"
	"math"
	"testing"

	"github.com/lucasb-eyer/go-colorful"
)

// papers are the backgrounds people have: black or white, the two that the
// palettes were drawn for, and the grey of a common editor's terminal.
var papers = [...][]string{Dark: {"#000000", "#14161a", "#1e1e1e"}, Light: {"#ffffff", "#fbfaf7"},
	Either: {"#000000", "#ffffff"}}

// inks lists every colour that text is written in.
func (p Palette) inks() map[string]Ink {
	all := map[string]Ink{"danger": p.Danger, "care": p.Care, "done": p.Done, "dim": p.Dim, "accent": p.Accent}
	for i, ink := range p.Ramp {
		all[fmt.Sprint("band ", i+1)] = ink
	}
	return all
}

// shown is the colour that a terminal of a depth shows.
func shown(t *testing.T, i Ink, d Depth) colorful.Color {
	t.Helper()
	if d == Many {
		return xterm(i.Many)
	}
	c, err := colorful.Hex(i.Hex)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// xterm is a colour of the cube and the grey ramp of xterm's 256 (256colres.pl
// in its sources).
func xterm(n uint8) colorful.Color {
	if n >= 232 {
		v := float64(8+10*(int(n)-232)) / 255
		return colorful.Color{R: v, G: v, B: v}
	}
	level := func(i uint8) float64 {
		if i == 0 {
			return 0
		}
		return float64(55+40*int(i)) / 255
	}
	n -= 16
	return colorful.Color{R: level(n / 36), G: level(n / 6 % 6), B: level(n % 6)}
}

// contrast is WCAG 2.2's contrast ratio, 1 to 21.
func contrast(a, b colorful.Color) float64 {
	light := func(c colorful.Color) float64 {
		r, g, b := c.LinearRgb()
		return 0.2126*r + 0.7152*g + 0.0722*b
	}
	x, y := light(a), light(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// eyes are the matrices of Machado, Oliveira & Fernandes 2009 (IEEE
// Transactions on Visualization and Computer Graphics 15, supplement) at
// severity 1.0, on linear RGB; the first is an eye that sees all.
var eyes = map[string][3][3]float64{
	"none":   {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	"protan": {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
	"deutan": {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
	"tritan": {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}},
}

// apart is the distance of two colours in OKLab as an eye sees them.
func apart(a, b colorful.Color, eye [3][3]float64) float64 {
	see := func(c colorful.Color) (l, x, y float64) {
		r, g, b := c.LinearRgb()
		var v [3]float64
		for i, row := range eye {
			v[i] = min(max(row[0]*r+row[1]*g+row[2]*b, 0), 1)
		}
		return colorful.LinearRgb(v[0], v[1], v[2]).OkLab()
	}
	l1, a1, b1 := see(a)
	l2, a2, b2 := see(b)
	return math.Sqrt((l1-l2)*(l1-l2) + (a1-a2)*(a1-a2) + (b1-b2)*(b1-b2))
}

var paperNames = [...]string{Dark: "dark", Light: "light", Either: "either"}

func TestEveryInkReadsOnItsPaperAndOnTheBar(t *testing.T) {
	for paper, p := range Palettes {
		for _, depth := range []Depth{Truecolor, Many} {
			var grounds []colorful.Color
			if p.Bar != (Ink{}) {
				grounds = append(grounds, shown(t, p.Bar, depth))
			}
			enough := 4.5
			if Paper(paper) == Either && depth == Many {
				enough = 4 // the 256 hold only a few that have more on black and on white at once
			}
			for _, hex := range papers[paper] {
				grounds = append(grounds, shown(t, Ink{Hex: hex}, Truecolor))
			}
			least := 21.0
			for name, ink := range p.inks() {
				for _, ground := range grounds {
					ratio := contrast(shown(t, ink, depth), ground)
					least = min(least, ratio)
					if ratio < enough {
						t.Errorf("%s at depth %d: %s on %s has a contrast of %.2f", paperNames[paper], depth, name,
							ground.Hex(), ratio)
					}
				}
				if ratio := contrast(shown(t, ink, depth), shown(t, p.Letter, depth)); ratio < enough {
					t.Errorf("%s at depth %d: a letter on %s has a contrast of %.2f", paperNames[paper], depth, name,
						ratio)
				}
			}
			t.Logf("%s at depth %d: the least contrast is %.2f", paperNames[paper], depth, least)
		}
	}
}

// Neighbouring bands, and the colours that mean something, are told apart by
// every kind of eye.
func TestColoursAreToldApart(t *testing.T) {
	const least = 0.04
	for paper, p := range Palettes {
		for _, depth := range []Depth{Truecolor, Many} {
			for eye, matrix := range eyes {
				nearest := 1.0
				tell := func(what string, a, b Ink) {
					d := apart(shown(t, a, depth), shown(t, b, depth), matrix)
					nearest = min(nearest, d)
					if d < least {
						t.Errorf("%s at depth %d, %s: %s are %.3f apart", paperNames[paper], depth, eye, what, d)
					}
				}
				for i := range len(p.Ramp) - 1 {
					tell(fmt.Sprintf("bands %d and %d", i+1, i+2), p.Ramp[i], p.Ramp[i+1])
				}
				tell("danger and care", p.Danger, p.Care)
				tell("danger and done", p.Danger, p.Done)
				tell("care and done", p.Care, p.Done)
				t.Logf("%s at depth %d, %s: the nearest are %.3f apart", paperNames[paper], depth, eye, nearest)
			}
		}
	}
}

// On both papers a longer soak stands out more from the paper's end of the
// ramp: pale to deep. The 256 hold few dark colours of one hue, so there two
// neighbours may be equally deep, and differ all the more in hue.
func TestTheRampGoesFromPaleToDeep(t *testing.T) {
	for paper, p := range Palettes[:Either] {
		for _, depth := range []Depth{Truecolor, Many} {
			last := 2.0
			for i, ink := range p.Ramp {
				l, _, _ := shown(t, ink, depth).OkLab()
				if l >= last && depth == Truecolor || l > last {
					t.Errorf("%s at depth %d: band %d is no deeper than the one before", paperNames[paper], depth, i+1)
				}
				last = l
			}
		}
	}
}

// Of 256 colours neighbouring bands are chosen to differ more than the least for any
// eye. The bounds are what was reached: light paper leaves few dark colours.
func TestTheRampOf256IsFarApart(t *testing.T) {
	for paper, least := range [...]float64{Dark: 0.065, Light: 0.1} {
		ramp := Palettes[paper].Ramp
		for i := range len(ramp) - 1 {
			if d := apart(xterm(ramp[i].Many), xterm(ramp[i+1].Many), eyes["none"]); d < least {
				t.Errorf("%s: bands %d and %d are %.3f apart, want %.3f", paperNames[paper], i+1, i+2, d, least)
			}
		}
	}
}
