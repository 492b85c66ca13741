package plot

import (
	"fmt"
	"math"
	"strings"

	"tubside/ui/sheet"
	"tubside/ui/show"
)

// Curve is a share that falls in steps, with a band around it.
type Curve struct {
	About
	Steps []Step  // in order of X; before the first the share is 1
	End   float64 // how far the curve is drawn, above 0
	Ticks []Tick  // marks along the foot, in order
	Below string  // what the counts under the ticks are
}

// Step is where the curve goes to at X. It stays there until the next step.
type Step struct {
	X, Y, Low, High float64 // shares 0..1; Low = Y = High: no band
}

// Tick is a mark along the foot of the chart.
type Tick struct {
	X     float64
	Name  string // "90 d"
	Count string // "512"; may be empty
}

// Drawing is the chart as text and SVG.
func (c Curve) Drawing() sheet.Drawing { return sheet.Drawing{SVG: c.svg(), Text: c.text()} }

// at is the step that holds at x.
func (c Curve) at(x float64) Step {
	s := Step{Y: 1, Low: 1, High: 1}
	for _, next := range c.Steps {
		if next.X > x {
			break
		}
		s = next
	}
	return s
}

// foot is the share at the foot of the chart: the tenth below the band. A
// curve that hardly falls is drawn large, with its scale beside it.
func (c Curve) foot() float64 {
	low := 0.9
	for _, s := range c.Steps {
		low = min(low, math.Floor(s.Low*10)/10)
	}
	return max(low, 0)
}

// Sizes of the curve in text.
const (
	curveRows  = 10
	curveScale = 7 // cells left of the chart
	curveCells = textWidth - curveScale
)

func (c Curve) text() []string {
	foot := c.foot()
	height := (1 - foot) / curveRows
	var lines []string
	for row := range curveRows + 1 {
		scale := ""
		if row%2 == 0 {
			scale = show.Percent(1 - height*float64(row))
		}
		line := show.PadLeft(scale, curveScale-2) + " │" + c.textRow(row, height)
		lines = append(lines, strings.TrimRight(line, " "))
	}
	return append(lines, c.textFoot()...)
}

// textRow draws one row of so much height; the first lies around 100 %.
func (c Curve) textRow(row int, height float64) string {
	rowOf := func(share float64) int { return int(math.Round((1 - share) / height)) }
	var b strings.Builder
	for i := range curveCells {
		s := c.at((float64(i) + 0.5) / curveCells * c.End)
		switch {
		case rowOf(s.Y) == row:
			b.WriteRune('━')
		case rowOf(s.High) <= row && row <= rowOf(s.Low):
			b.WriteRune('░')
		default:
			b.WriteByte(' ')
		}
	}
	return b.String()
}

// textFoot is the axis with its ticks, and the counts under them.
func (c Curve) textFoot() []string {
	axis := []rune(strings.Repeat("─", curveCells))
	names, counts := strings.Builder{}, strings.Builder{}
	for _, t := range c.Ticks {
		cell := int(t.X / c.End * curveCells)
		if cell < curveCells {
			axis[cell] = '┴'
		}
		room := max(len(t.Name), len(t.Count))
		from := min(max(cell-room/2, 0), curveCells-room)
		if from < names.Len() || from < counts.Len() {
			continue // no room beside the one before
		}
		place(&names, from, t.Name)
		place(&counts, from, t.Count)
	}
	lead := strings.Repeat(" ", curveScale)
	lines := []string{lead[1:] + "└" + string(axis), strings.TrimRight(lead+names.String(), " ")}
	if strings.TrimSpace(counts.String()) != "" {
		lines = append(lines, strings.TrimRight(lead+counts.String(), " "), lead+"("+c.Below+")")
	}
	return lines
}

// place writes a word at a column, and one blank behind it.
func place(b *strings.Builder, column int, word string) {
	fmt.Fprintf(b, "%s%s ", strings.Repeat(" ", max(column-b.Len(), 0)), word)
}
