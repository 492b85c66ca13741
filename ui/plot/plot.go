// Package plot draws charts twice: as lines of text for a terminal, and as SVG
// for a page. Both say the same and need no colour; the SVG takes the ink of
// the page, so it reads on light and dark and in print.
package plot

import (
	"fmt"
	"html"
	"strconv"
	"strings"

	"tubside/ui/show"
)

// About names a chart for those who cannot see it. Name is a word of its own on
// the page, of letters only.
type About struct{ Name, Title, What string }

// The widths of a chart: in cells, and in the units of the SVG, of which the
// page shows about one to the pixel.
const (
	textWidth = 78
	svgWidth  = 720.0
	fontSize  = 12.0
)

// canvas is an SVG being drawn.
type canvas struct{ strings.Builder }

// begin opens the picture with its title and description.
func begin(a About, height float64) *canvas {
	c := &canvas{}
	fmt.Fprintf(c, `<svg viewBox="0 0 %s %s" width="%s" role="img" aria-labelledby="%[4]s-title %[4]s-what" font-family="sans-serif" font-size="%s" fill="currentColor">`,
		num(svgWidth), num(height), num(svgWidth), a.Name, num(fontSize))
	fmt.Fprintf(c, `<title id="%s-title">%s</title><desc id="%s-what">%s</desc>`, a.Name, escape(a.Title), a.Name, escape(a.What))
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
	fmt.Fprintf(c, `<line x1="%s" y1="%s" x2="%s" y2="%s" stroke="currentColor" stroke-opacity="0.3"/>`, num(x1), num(y1), num(x2), num(y2))
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

// bar is a bar of text of a share of the width in cells, to half a cell. What
// is more than nothing is never drawn as nothing.
func bar(share float64, width int) string {
	halves := int(share*float64(2*width) + 0.5)
	if share > 0 {
		halves = max(halves, 1)
	}
	return strings.Repeat("█", halves/2) + strings.Repeat("▌", halves%2)
}
