package paper

import (
	_ "embed" // the page
	"fmt"
	"html/template"
	"math"
	"slices"
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

// LabelOf is the label of a plant.
func LabelOf(p model.Plant) Label {
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

// The papers, and the size of a label when nobody says: eleven rows of
// three on A4, large enough for two names.
var (
	A4         = Size{210, 297}     // ISO 216
	Letter     = Size{215.9, 279.4} // 8.5 in x 11 in: ANSI/ASME Y14.1, size A
	UsualLabel = Size{60, 25}
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
		return Size{}, &model.Problem{
			What: fmt.Sprintf("%q is not the size of a label", s),
			Do:   "give width and height in mm, as 60x25, at least 20x8",
		}
	}
	return Size{w, h}, nil
}

// String is the size as it is typed.
func (s Size) String() string { return mm(s.Width) + "x" + mm(s.Height) }

// labelMargin is the edge of the paper left white, in mm: most printers cannot print
// nearer than 5 mm (from memory). 8 is a choice.
const labelMargin = 8

// labelGrid is how many labels stand beside and above each other on a paper.
func labelGrid(label, paper Size) (columns, rows int) {
	const hair = 1e-9
	fit := func(paper, label float64) int { return int(math.Floor((paper-2*labelMargin)/label + hair)) }
	return fit(paper.Width, label.Width), fit(paper.Height, label.Height)
}

// Sizes of the writing in mm: the white inside a label, the largest and the
// smallest letters. A choice; 1.6 mm is 4.5 points.
const (
	labelInside   = 1.5
	labelLargest  = 5.0
	labelSmallest = 1.6
)

// labelAdvance is how wide a letter is beside its height, on the average of a
// sans serif type, and labelWide where the type or the name is a wide one;
// labelSpacing is how far lines are apart, in heights of a letter. Guesses.
const (
	labelAdvance = 0.56
	labelWide    = 0.6
	labelSpacing = 1.2
)

// labelLine is one line of a label, in letters of a height in mm.
type labelLine struct {
	Text, Right string // Right stands at the right edge
	Height      string // mm
	Look        string // class
	cut         bool   // too long even in the smallest letters
}

// laidLabel is a label as it is printed.
type laidLabel struct {
	Lines []labelLine
	Code  template.HTML // an <svg>; empty where there is no room
}

// lay sets a label: the writing from the top down at the left, the code at the
// right.
func (l Label) lay(size Size) (laidLabel, error) {
	laid := laidLabel{}
	if hasCode(size) {
		code, err := codeSVG(l.ID)
		if err != nil {
			return laid, fmt.Errorf("make the code of plant %d: %w", l.ID, err)
		}
		laid.Code = template.HTML(code)
		size.Width -= codeBox
	}
	laid.Lines = l.lines(size)
	return laid, nil
}

// lines sets the writing. The number and the home come first; every line is as
// large as it fits.
func (l Label) lines(size Size) []labelLine {
	all := []labelLine{{Text: l.ID.String(), Right: l.Home, Look: "id"}}
	for _, more := range []labelLine{{Text: l.Tag, Look: "tag"}, {Text: l.Name, Look: "name"},
		{Text: nowWords(l.Now), Look: "now"}} {
		if more.Text != "" {
			all = append(all, more)
		}
	}
	high := min((size.Height-2*labelInside)/(float64(len(all))*labelSpacing), labelLargest)
	for i := range all {
		all[i].fit(size.Width-2*labelInside, high)
	}
	return all
}

func nowWords(name string) string {
	if name == "" {
		return ""
	}
	return "now " + name
}

func (n *labelLine) fit(width, high float64) {
	cells := show.Width(n.Text)
	if n.Right != "" {
		cells += 2 + show.Width(n.Right)
	}
	perLetter, least := width/float64(max(cells, 1)), min(labelSmallest, high)
	n.cut = perLetter/labelAdvance < least
	n.Height = mm(max(min(high, perLetter/labelWide), least))
}

// mm writes a length to a hundredth of a millimetre.
func mm(v float64) string { return strconv.FormatFloat(math.Floor(v*100+0.5)/100, 'f', -1, 64) }

// LabelPages is labels laid out.
type LabelPages struct {
	HTML   string
	Papers int  // sheets of paper
	Cut    int  // labels with a line that does not fit
	Codes  bool // they are large enough for a code to scan
}

// PrintLabels lays labels out on paper, in the order given. It refuses a label
// larger than the paper, with a [model.Problem].
func PrintLabels(labels []Label, size, paper Size) (LabelPages, error) {
	columns, rows := labelGrid(size, paper)
	if columns < 1 || rows < 1 {
		return LabelPages{}, &model.Problem{
			What: fmt.Sprintf("a label of %s mm does not fit on paper of %s mm", size, paper),
			Do:   "give a smaller --size",
		}
	}
	p := LabelPages{Codes: hasCode(size)}
	var sheets [][]laidLabel
	for some := range slices.Chunk(labels, columns*rows) {
		var sheet []laidLabel
		for _, l := range some {
			laid, err := l.lay(size)
			if err != nil {
				return LabelPages{}, err
			}
			if slices.ContainsFunc(laid.Lines, func(n labelLine) bool { return n.cut }) {
				p.Cut++
			}
			sheet = append(sheet, laid)
		}
		sheets = append(sheets, sheet)
	}
	p.Papers = len(sheets)
	var err error
	p.HTML, err = fill("labels", map[string]any{
		"Width": mm(size.Width), "Height": mm(size.Height),
		"PaperWidth": mm(paper.Width), "PaperHeight": mm(paper.Height),
		"Columns": columns, "Margin": labelMargin, "Inside": mm(labelInside), "Spacing": mm(labelSpacing),
		"CodeBox": mm(codeBox), "Sheets": sheets, "Count": len(labels),
	})
	return p, err
}
