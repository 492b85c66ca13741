package paper

import (
	"fmt"
	"html"
	"strconv"
	"strings"
	"tubside/ui/show"
)

// Charts are drawn twice: as lines of text for a terminal, and as SVG for a page.
// Both say the same and need no colour; the SVG takes the ink of the page, so it
// reads on light and dark and in print.

// About names a chart for those who cannot see it. Name is a word of its own on
// the page, of letters only.
type About struct{ Name, Title, What string }

// The widths of a chart: in cells, and in the units of the SVG, of which the
// page shows about one to the pixel.
const (
	chartWidth = 78
	svgWidth   = 720.0
	fontSize   = 12.0
)

// canvas is an SVG being drawn.
type canvas struct{ strings.Builder }

// begin opens the picture with its title and description.
func begin(a About, height float64) *canvas {
	c := &canvas{}
	fmt.Fprintf(c, `<svg viewBox="0 0 %s %s" width="%s" role="img" aria-labelledby="%[4]s-title %[4]s-what" font-family="sans-serif" font-size="%s" fill="currentColor">`,
		num(svgWidth), num(height), num(svgWidth), a.Name, num(fontSize))
	fmt.Fprintf(c, `<title id="%s-title">%s</title><desc id="%s-what">%s</desc>`, a.Name, escape(a.Title), a.Name,
		escape(a.What))
	return c
}

// end closes the picture.
func (c *canvas) end() string {
	c.WriteString("</svg>")
	return c.String()
}

// num writes a length to a hundredth of a unit.
func num(v float64) string {
	s := strings.TrimRight(strconv.FormatFloat(v, 'f', 2, 64), "0")
	return strings.TrimSuffix(s, ".")
}

func escape(s string) string { return html.EscapeString(show.Safe(s)) }

// The ways to anchor a text.
const (
	atStart  = "start"
	atMiddle = "middle"
	atEnd    = "end"
)

func (c *canvas) text(x, y float64, anchor, s string) {
	fmt.Fprintf(c, `<text x="%s" y="%s" text-anchor="%s">%s</text>`, num(x), num(y), anchor, escape(s))
}

// line is a thin line of the frame.
func (c *canvas) line(x1, y1, x2, y2 float64) {
	fmt.Fprintf(c, `<line x1="%s" y1="%s" x2="%s" y2="%s" stroke="currentColor" stroke-opacity="0.3"/>`, num(x1),
		num(y1), num(x2), num(y2))
}

// full and hollow tell two kinds of bar apart without colour.
const (
	full   = `fill-opacity="0.8"`
	hollow = `fill="none" stroke="currentColor" stroke-width="1.2"`
)

func (c *canvas) rect(x, y, width, height float64, look string) {
	if width > 0 && height > 0 {
		fmt.Fprintf(c, `<rect x="%s" y="%s" width="%s" height="%s" %s/>`, num(x), num(y), num(width), num(height), look)
	}
}

// path draws through points given as x, y pairs.
func (c *canvas) path(look string, points []float64, closed bool) {
	c.WriteString(`<path ` + look + ` d="`)
	for i := 0; i+1 < len(points); i += 2 {
		c.WriteString(map[bool]string{true: "M", false: "L"}[i == 0] + num(points[i]) + " " + num(points[i+1]))
	}
	if closed {
		c.WriteByte('Z')
	}
	c.WriteString(`"/>`)
}

// BarSigns are what a bar of text is drawn with.
const BarSigns = "━╸╺"

// bar is a bar of text of a share of the width in cells, to half a cell. What
// is more than nothing is never drawn as nothing.
func bar(share float64, width int) string {
	whole, half := barCells(share, width)
	return strings.Repeat("━", whole) + strings.Repeat("╸", half)
}

// barLeft is the same bar growing to the left.
func barLeft(share float64, width int) string {
	whole, half := barCells(share, width)
	return show.PadLeft(strings.Repeat("╺", half)+strings.Repeat("━", whole), width)
}

func barCells(share float64, width int) (whole, half int) {
	halves := int(share*float64(2*width) + 0.5)
	if share > 0 {
		halves = max(halves, 1)
	}
	return halves / 2, halves % 2
}

// BarChart compares amounts, a line each.
type BarChart struct {
	About
	Lines []Bar
}

// Bar is one amount, 0 or more, with the words that stand before and behind it.
type Bar struct {
	Name   string
	Amount float64
	Says   string // "12", "3 of 40"
}

// Drawing is the chart as text and SVG.
func (b BarChart) Drawing() Drawing {
	return Drawing{SVG: b.svg(), Text: b.text(chartWidth), narrow: b.text}
}

func (b BarChart) most() float64 {
	most := 0.0
	for _, l := range b.Lines {
		most = max(most, l.Amount)
	}
	if most == 0 {
		return 1
	}
	return most
}

func (b BarChart) text(width int) []string {
	names, says := 0, 0
	for _, l := range b.Lines {
		names, says = max(names, show.Width(show.Safe(l.Name))), max(says, show.Width(show.Safe(l.Says)))
	}
	names = min(names, width/3)
	room := max(width-names-says-4, 10)
	lines := []string{}
	for _, l := range b.Lines {
		line := show.Pad(show.Safe(l.Name), names) + "  " + show.PadLeft(show.Safe(l.Says), says) + "  " +
			bar(l.Amount/b.most(), room)
		lines = append(lines, strings.TrimRight(line, " "))
	}
	return lines
}

// Sizes of the bars, in units of the SVG.
const (
	barStep  = 22.0
	barThick = 14.0
	barNames = 160.0
	barSays  = 110.0
)

// nameCells is how much of a name fits before the bars.
const nameCells = 22

func (b BarChart) svg() string {
	c := begin(b.About, barStep*float64(len(b.Lines))+4)
	for i, l := range b.Lines {
		y := 2 + barStep*float64(i)
		base := y + barStep/2 + fontSize/3
		c.text(barNames-8, base, atEnd, show.Fit(l.Name, nameCells))
		width := (svgWidth - barNames - barSays) * l.Amount / b.most()
		c.rect(barNames, y+(barStep-barThick)/2, width, barThick, full)
		c.text(barNames+width+6, base, atStart, l.Says)
	}
	c.line(barNames, 0, barNames, barStep*float64(len(b.Lines))+4)
	return c.end()
}

// ColumnChart sets two amounts side by side at each of several times: what came and
// what went, month by month.
type ColumnChart struct {
	About
	First, Second string // what the two amounts are
	Pairs         []Pair
}

// Pair is the two amounts of one time, each 0 or more.
type Pair struct {
	Name          string
	First, Second int
}

// Drawing is the chart as text and SVG.
func (c ColumnChart) Drawing() Drawing {
	return Drawing{SVG: c.svg(), Text: c.text(chartWidth), narrow: c.text}
}

func (c ColumnChart) most() float64 {
	most := 1
	for _, p := range c.Pairs {
		most = max(most, p.First, p.Second)
	}
	return float64(most)
}

// text draws the first amounts to the left of the names and the second to the
// right.
func (c ColumnChart) text(width int) []string {
	names, digits := 0, len(fmt.Sprint(int(c.most())))
	for _, p := range c.Pairs {
		names = max(names, show.Width(p.Name))
	}
	side := (width - names - 2*digits - 8) / 2
	blank := strings.Repeat(" ", digits)
	lines := []string{show.PadLeft(c.First, side+digits+2) + "  " + show.Pad("", names) + "  " + c.Second}
	for _, p := range c.Pairs {
		first, second := blank, blank
		if p.First > 0 {
			first = show.PadLeft(fmt.Sprint(p.First), digits)
		}
		if p.Second > 0 {
			second = show.PadLeft(fmt.Sprint(p.Second), digits)
		}
		line := barLeft(float64(p.First)/c.most(), side) + "  " + first + "  " +
			show.Pad(p.Name, names) + "  " + second + "  " +
			bar(float64(p.Second)/c.most(), side)
		lines = append(lines, strings.TrimRight(line, " "))
	}
	return lines
}

// Sizes of the columns, in units of the SVG.
const (
	columnsHeight = 170.0
	columnsTop    = 22.0
	columnsLeft   = 44.0
	nameRoom      = 52.0 // a name under the columns takes this much
)

func (c ColumnChart) svg() string {
	d := begin(c.About, columnsTop+columnsHeight+22)
	foot := columnsTop + columnsHeight
	d.rect(columnsLeft, 4, 10, 10, full)
	d.text(columnsLeft+16, 13, atStart, c.First)
	d.rect(columnsLeft+120, 4, 10, 10, hollow)
	d.text(columnsLeft+136, 13, atStart, c.Second)
	for _, part := range []float64{0, 0.5, 1} {
		y := foot - columnsHeight*part
		d.line(columnsLeft, y, svgWidth, y)
		d.text(columnsLeft-6, y+4, atEnd, num(c.most()*part))
	}
	step := (svgWidth - columnsLeft) / float64(max(len(c.Pairs), 1))
	every := int(nameRoom/step) + 1
	for i, p := range c.Pairs {
		x, wide := columnsLeft+step*float64(i), min(step*0.36, 18)
		middle := x + step/2
		first, second := columnsHeight*float64(p.First)/c.most(), columnsHeight*float64(p.Second)/c.most()
		d.rect(middle-wide-1, foot-first, wide, first, full)
		d.rect(middle+1, foot-second, wide, second, hollow)
		if i%every == 0 {
			d.text(middle, foot+16, atMiddle, p.Name)
		}
	}
	return d.end()
}
