package plot

import (
	"fmt"
	"strings"

	"tubside/ui/sheet"
	"tubside/ui/show"
)

// Columns sets two amounts side by side at each of several times: what came and
// what went, month by month.
type Columns struct {
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
func (c Columns) Drawing() sheet.Drawing { return sheet.Drawing{SVG: c.svg(), Text: c.text()} }

func (c Columns) most() float64 {
	most := 1
	for _, p := range c.Pairs {
		most = max(most, p.First, p.Second)
	}
	return float64(most)
}

// text draws the first amounts to the left of the names and the second to the
// right.
func (c Columns) text() []string {
	names, digits := 0, len(fmt.Sprint(int(c.most())))
	for _, p := range c.Pairs {
		names = max(names, show.Width(p.Name))
	}
	side := (textWidth - names - 2*digits - 8) / 2
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
		line := show.PadLeft(bar(float64(p.First)/c.most(), side), side) + "  " + first + "  " + show.Pad(p.Name, names) + "  " + second + "  " +
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

func (c Columns) svg() string {
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
