// Package labels lays out plant labels on paper: a page in millimetres that
// prints at its true size and needs nothing beside itself.
package labels

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"tubside/model"
	"tubside/ui/show"
)

// Label is what stands on one label.
type Label struct {
	ID   model.ID
	Tag  string // what the grower calls it, where that is not the name
	Name string // as received
	Now  string // the name now, where that differs
	Home string // shelf and spot
}

// Of is the label of a plant.
func Of(p model.Plant) Label {
	l := Label{p.ID, show.Safe(p.Label), show.Safe(p.Name), show.Safe(p.Now), show.Safe(p.Home.String())}
	if l.Tag == l.Name {
		l.Tag = ""
	}
	if l.Now == l.Name {
		l.Now = ""
	}
	return l
}

// Size is a width and a height in mm.
type Size struct{ Width, Height float64 }

// The papers, and the size of a label when nobody says. Our own: eleven rows of
// three on A4, large enough for two names.
var (
	A4     = Size{210, 297}     // ISO 216
	Letter = Size{215.9, 279.4} // 8.5 in x 11 in: ANSI/ASME Y14.1, size A
	Usual  = Size{60, 25}
)

// ParsePaper reads a paper by its name.
func ParsePaper(s string) (Size, error) {
	switch strings.ToLower(strings.TrimSpace(s)) {
	case "a4":
		return A4, nil
	case "letter":
		return Letter, nil
	}
	return Size{}, &model.Problem{What: fmt.Sprintf("there is no paper %q", s), Do: "use a4 or letter"}
}

// ParseSize reads a width and a height in mm, "60x25". It must be at least
// 20x8: smaller cannot be read, a guess.
func ParseSize(s string) (Size, error) {
	text := strings.TrimSuffix(strings.ReplaceAll(strings.ToLower(strings.TrimSpace(s)), "×", "x"), "mm")
	width, height, two := strings.Cut(text, "x")
	w, errW := strconv.ParseFloat(strings.TrimSpace(width), 64)
	h, errH := strconv.ParseFloat(strings.TrimSpace(height), 64)
	if !two || errW != nil || errH != nil || !(w >= 20 && h >= 8 && w <= 500 && h <= 500) {
		return Size{}, &model.Problem{What: fmt.Sprintf("%q is not the size of a label", s), Do: "give width and height in mm, as 60x25, at least 20x8"}
	}
	return Size{w, h}, nil
}

// String is the size as it is typed.
func (s Size) String() string { return mm(s.Width) + "x" + mm(s.Height) }

// margin is the edge of the paper left white, in mm: most printers cannot print
// nearer than 5 mm. Our own.
const margin = 8

// grid is how many labels stand beside and above each other on a paper.
func grid(label, paper Size) (columns, rows int) {
	const hair = 1e-9
	return int(math.Floor((paper.Width-2*margin)/label.Width + hair)), int(math.Floor((paper.Height-2*margin)/label.Height + hair))
}

// Sizes of the writing in mm: the white inside a label, the largest and the
// smallest letters. Our own; 1.6 mm is 4.5 points.
const (
	inside   = 1.5
	largest  = 5.0
	smallest = 1.6
)

// advance is how wide a letter is beside its height, on the average of a sans
// serif type; and spacing how far lines are apart. Guesses, on the wide side.
const (
	advance = 0.56
	spacing = 1.2
)

// line is one line of a label, in letters of a height in mm.
type line struct {
	Text, Right string // Right stands at the right edge
	Height      string // mm
	Look        string // class
	cut         bool   // too long even in the smallest letters
}

// lines sets a label. The number and the home come first; every line is as
// large as it fits.
func (l Label) lines(size Size) []line {
	all := []line{{Text: l.ID.String(), Right: l.Home, Look: "id"}}
	for _, more := range []line{{Text: l.Tag, Look: "tag"}, {Text: l.Name, Look: "name"}, {Text: nowWords(l.Now), Look: "now"}} {
		if more.Text != "" {
			all = append(all, more)
		}
	}
	high := min((size.Height-2*inside)/(float64(len(all))*spacing), largest)
	for i := range all {
		all[i].fit(size.Width-2*inside, high)
	}
	return all
}

func nowWords(name string) string {
	if name == "" {
		return ""
	}
	return "now " + name
}

func (n *line) fit(width, high float64) {
	cells := show.Width(n.Text)
	if n.Right != "" {
		cells += 2 + show.Width(n.Right)
	}
	height := min(high, width/(advance*float64(max(cells, 1))))
	n.cut = height < min(smallest, high)
	n.Height = mm(max(height, min(smallest, high)))
}

// mm writes a length to a hundredth of a millimetre.
func mm(v float64) string { return strconv.FormatFloat(math.Floor(v*100+0.5)/100, 'f', -1, 64) }
