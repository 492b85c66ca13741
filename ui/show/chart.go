package show

import (
	"math"
	"strings"
	"time"
)

// Chart is curves drawn in braille dots, two across and four down in a cell, so
// that a line is fine enough to be read. What lies under it, the range, is drawn
// in dots of its own.
type Chart struct {
	width, rows int
	low, high   float64
	curve, edge []byte // the dots of each cell, as braille counts them
}

// NewChart is an empty chart of so many cells for values from low to high.
func NewChart(width, rows int, low, high float64) *Chart {
	if high <= low {
		high = low + 1
	}
	return &Chart{width, rows, low, high, make([]byte, width*rows), make([]byte, width*rows)}
}

// brailleDots are the bits of a braille cell by row and column (Unicode Standard,
// 21.1).
var brailleDots = [4][2]byte{{0x01, 0x08}, {0x02, 0x10}, {0x04, 0x20}, {0x40, 0x80}}

// dot sets one dot; y counts from the bottom.
func (c *Chart) dot(cells []byte, x, y int) {
	if x >= 0 && x < 2*c.width && y >= 0 && y < 4*c.rows {
		y = 4*c.rows - 1 - y
		cells[y/4*c.width+x/2] |= brailleDots[y%4][x%2]
	}
}

// height is the dot a value falls on.
func (c *Chart) height(v float64) int {
	y := (v - c.low) / (c.high - c.low) * float64(4*c.rows-1)
	return min(max(int(math.Round(y)), 0), 4*c.rows-1)
}

// Curve draws values at even distances over the whole width, joined; one that is
// not a number leaves a gap.
func (c *Chart) Curve(values []float64) {
	last := math.NaN()
	for x := range 2 * c.width {
		v := at(values, x, 2*c.width)
		if math.IsNaN(v) {
			last = v
			continue
		}
		y, from := c.height(v), c.height(v)
		if !math.IsNaN(last) {
			from = c.height(last)
		}
		for d := min(y, from); d <= max(y, from); d++ {
			if d != from || from == y {
				c.dot(c.curve, x, d)
			}
		}
		last = v
	}
}

// Edge draws values as loose dots: an end of the range.
func (c *Chart) Edge(values []float64) {
	for x := 0; x < 2*c.width; x += 2 {
		if v := at(values, x, 2*c.width); !math.IsNaN(v) {
			c.dot(c.edge, x, c.height(v))
		}
	}
}

// at is the value over dot x of n.
func at(values []float64, x, n int) float64 {
	if len(values) == 0 {
		return math.NaN()
	}
	return values[min(x*len(values)/n, len(values)-1)]
}

// Row is one line of the chart, 0 at the top, with the curve and the range painted
// each its own way.
func (c *Chart) Row(i int, curve, edge func(string) string) string {
	var b, run strings.Builder
	kind := byte(' ')
	flush := func() {
		switch kind {
		case 'c':
			b.WriteString(curve(run.String()))
		case 'e':
			b.WriteString(edge(run.String()))
		default:
			b.WriteString(run.String())
		}
		run.Reset()
	}
	for x := range c.width {
		cell, is := c.curve[i*c.width+x], byte('c')
		switch under := c.edge[i*c.width+x]; {
		case cell == 0 && under != 0:
			cell, is = under, 'e'
		case cell == 0:
			is = ' '
		}
		if is != kind {
			flush()
			kind = is
		}
		if cell == 0 {
			run.WriteByte(' ')
		} else {
			run.WriteRune(rune(0x2800) + rune(cell))
		}
	}
	flush()
	return b.String()
}

// dateGap is the room a date takes on an axis.
const dateGap = 10

// DateAxis writes dates where they fall on a line that goes from one time to
// another: days, Mondays, or the first of months, as many as there is room for.
// Each begins where its day begins, behind a tick.
func DateAxis(from, until time.Time, width int, zone *time.Location) string {
	line := []rune(strings.Repeat(" ", max(width, 0)))
	span := until.Sub(from)
	if span <= 0 || width < dateGap {
		return string(line)
	}
	days := span.Hours() / 24
	step := days * dateGap / float64(width) // the least days between two dates
	day := time.Date(from.In(zone).Year(), from.In(zone).Month(), from.In(zone).Day(), 0, 0, 0, 0, zone)
	free := 0
	for ; day.Before(until); day = day.AddDate(0, 0, 1) {
		if day.Before(from) || !onAxis(day, step) {
			continue
		}
		label := []rune("╵" + day.Format("2 Jan"))
		if step > 40 || day.YearDay() == 1 && step > 14 {
			label = []rune("╵" + day.Format("Jan 2006"))
		}
		x := int(float64(day.Sub(from)) / float64(span) * float64(width))
		if x < free || x+len(label) > width {
			continue
		}
		copy(line[x:], label)
		free = x + len(label) + 1
	}
	return string(line)
}

// onAxis reports whether an axis with so many days between dates names a day.
func onAxis(day time.Time, step float64) bool {
	switch {
	case step <= 1:
		return true
	case step <= 7:
		return day.Weekday() == time.Monday
	case step <= 14:
		_, week := day.ISOWeek()
		return day.Weekday() == time.Monday && week%2 == 1
	case step <= 30:
		return day.Day() == 1
	case step <= 90:
		return day.Day() == 1 && (day.Month()-1)%3 == 0
	}
	return day.YearDay() == 1
}
