package paper

import (
	"fmt"
	"math"
	"strings"
	"tubside/ui/show"
)

// CurveChart is a share that falls in steps, with a band around it.
type CurveChart struct {
	About
	Steps []Step  // in order of X; before the first the share is 1
	End   float64 // how far the curve is drawn, above 0
	Marks []Mark  // marks along the foot, in order
	Below string  // what the counts under the ticks are
}

// Step is where the curve goes to at X. It stays there until the next step.
type Step struct {
	X, Y, Low, High float64 // shares 0..1; Low = Y = High: no band
}

// Mark is a mark along the foot of the chart.
type Mark struct {
	X     float64
	Name  string // "90 d"
	Count string // "512"; may be empty
}

// Drawing is the chart as text and SVG.
func (c CurveChart) Drawing() Drawing {
	return Drawing{SVG: c.svg(), Text: c.text(chartWidth), narrow: c.text}
}

// at is the step that holds at x.
func (c CurveChart) at(x float64) Step {
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
func (c CurveChart) foot() float64 {
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
)

func (c CurveChart) text(width int) []string {
	cells := max(width-curveScale, 1)
	foot := c.foot()
	height := (1 - foot) / curveRows
	var lines []string
	for row := range curveRows + 1 {
		scale := ""
		if row%2 == 0 {
			scale = show.Percent(1 - height*float64(row))
		}
		line := show.PadLeft(scale, curveScale-2) + " │" + c.textRow(row, cells, height)
		lines = append(lines, strings.TrimRight(line, " "))
	}
	return append(lines, c.textFoot(cells)...)
}

// textRow draws one row of so much height; the first lies around 100 %.
func (c CurveChart) textRow(row, cells int, height float64) string {
	rowOf := func(share float64) int { return int(math.Round((1 - share) / height)) }
	var b strings.Builder
	for i := range cells {
		s := c.at((float64(i) + 0.5) / float64(cells) * c.End)
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
func (c CurveChart) textFoot(cells int) []string {
	axis := []rune(strings.Repeat("─", cells))
	names, counts := strings.Builder{}, strings.Builder{}
	for _, t := range c.Marks {
		cell := int(t.X / c.End * float64(cells))
		if cell < cells {
			axis[cell] = '┴'
		}
		room := max(len(t.Name), len(t.Count))
		from := min(max(cell-room/2, 0), cells-room)
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

// Sizes of the curve, in units of the SVG.
const (
	curveHeight = 260.0
	curveTop    = 12.0
	curveLeft   = 56.0
	curveRight  = svgWidth - 16
)

// frame turns days and shares into units of the SVG.
type frame struct{ end, foot float64 }

func (f frame) x(v float64) float64 { return curveLeft + (curveRight-curveLeft)*v/f.end }
func (f frame) y(share float64) float64 {
	return curveTop + curveHeight*(1-share)/(1-f.foot)
}

func (c CurveChart) svg() string {
	f := frame{c.End, c.foot()}
	d := begin(c.About, curveTop+curveHeight+54)
	for i := range 6 {
		share := f.foot + (1-f.foot)*float64(i)/5
		d.line(curveLeft, f.y(share), curveRight, f.y(share))
		d.text(curveLeft-6, f.y(share)+4, atEnd, show.Percent(share))
	}
	upper, lower, middle := c.outline(f)
	d.path(`fill-opacity="0.18" stroke="none"`, append(upper, backwards(lower)...), true)
	d.path(`fill="none" stroke="currentColor" stroke-width="2"`, middle, false)
	foot := curveTop + curveHeight
	for _, t := range c.Marks {
		d.line(f.x(t.X), foot, f.x(t.X), foot+4)
		d.text(f.x(t.X), foot+17, atMiddle, t.Name)
		d.text(f.x(t.X), foot+33, atMiddle, t.Count)
	}
	d.text((curveLeft+curveRight)/2, foot+49, atMiddle, c.Below)
	return d.end()
}

// outline is the stairs of the band's ends and of the curve, as x, y pairs.
func (c CurveChart) outline(f frame) (upper, lower, middle []float64) {
	was := Step{Y: 1, Low: 1, High: 1}
	add := func(x float64, s Step) {
		upper = append(upper, f.x(x), f.y(s.High))
		lower = append(lower, f.x(x), f.y(s.Low))
		middle = append(middle, f.x(x), f.y(s.Y))
	}
	add(0, was)
	for _, s := range c.Steps {
		if s.X > c.End {
			break
		}
		add(s.X, was)
		add(s.X, s)
		was = s
	}
	add(c.End, was)
	return upper, lower, middle
}

// backwards turns a row of x, y pairs round.
func backwards(points []float64) []float64 {
	turned := make([]float64, 0, len(points))
	for i := len(points) - 2; i >= 0; i -= 2 {
		turned = append(turned, points[i], points[i+1])
	}
	return turned
}
