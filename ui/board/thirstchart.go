package board

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tubside/model/estimate"
	"tubside/ui/show"
)

// Size of the chart of a plant's thirst. Sixty days hold eight weekly soaks.
const (
	chartDays  = 60
	chartRows  = 7
	chartScale = 8 // columns for the scale at the left
)

// chartScales are how much thirst a chart holds from top to bottom: the least that
// does, so that a weekly rise and fall is seen.
var chartScales = []float64{0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1}

// chart draws the plant's thirst over the last sixty days: a line for what was
// believed, dots at the ends of its range, the soaks below it, and dates.
func (c *card) chart() {
	if points := c.trace(); len(points) > 1 {
		c.lines = append(c.lines, "", c.desk.heading("Thirst", fmt.Sprintf("the last %d days ", chartDays)))
		c.plot(points)
	}
}

// chartWidth is how many cells wide the chart is, with two points in each.
func (c *card) chartWidth() int { return max(10, min(c.desk.width-chartScale-1, 2*chartDays)) }

// trace is the plant's water over the last sixty days, which takes long to work out.
func (c *card) trace() []estimate.Point {
	return c.desk.keeper.Trace(c.id, c.desk.now.AddDate(0, 0, -chartDays), c.desk.now, 2*c.chartWidth())
}

// plot draws what was traced.
func (c *card) plot(points []estimate.Point) {
	width, from := c.chartWidth(), c.desk.now.AddDate(0, 0, -chartDays)
	thirst, low, high := make([]float64, 2*width), make([]float64, 2*width), make([]float64, 2*width)
	most, lead := 0.0, 2*width-len(points)
	for i := range 2 * width {
		if thirst[i], low[i], high[i] = math.NaN(), math.NaN(), math.NaN(); i >= lead {
			p := points[i-lead]
			thirst[i], low[i], high[i] = 1-p.RWC, 1-p.High, 1-p.Low
			most = max(most, high[i])
		}
	}
	i := slices.IndexFunc(chartScales, func(scale float64) bool { return most <= scale })
	most = chartScales[max(i, 0)]
	chart := show.NewChart(width, chartRows, 0, most)
	chart.Edge(low)
	chart.Edge(high)
	chart.Curve(thirst)
	for row := range chartRows {
		scale := ""
		if row%3 == 0 {
			scale = fmt.Sprintf("%.0f %%", 100*most*float64(chartRows-1-row)/(chartRows-1))
		}
		c.lines = append(c.lines, c.desk.theme.quiet.of(show.PadLeft(scale, chartScale-2))+"  "+chart.Row(row,
			c.desk.theme.accent.of, c.desk.theme.quiet.of))
	}
	lines := []string{strings.Repeat(" ", chartScale) + show.DateAxis(from, c.desk.now, width, c.desk.book.Zone())}
	if marks := soakMarks(points, lead); marks != "" {
		lines = append([]string{"  soaks " + marks}, lines...)
	}
	for _, line := range lines {
		c.lines = append(c.lines, c.desk.theme.quiet.of(line))
	}
}

// soakMarks puts a mark under each time in the water; two points make a column.
func soakMarks(points []estimate.Point, lead int) string {
	marks := []rune(strings.Repeat(" ", (lead+len(points))/2))
	soaked := false
	for i, p := range points {
		// A soak is often shorter than a column is wide: look for the fall.
		if p.InWater || i > 0 && points[i-1].RWC < p.RWC-0.02 {
			marks[min((lead+i)/2, len(marks)-1)] = '↑'
			soaked = true
		}
	}
	if !soaked {
		return ""
	}
	return strings.TrimRight(string(marks), " ")
}

// smallChart is the chart of the card beside the list; until it is worked out, its
// place. A plant with no past has none to draw.
func (c *card) smallChart() {
	c.lines = append(c.lines, "", c.desk.heading("Thirst", fmt.Sprintf("the last %d days ", chartDays)))
	if c.points != nil && len(c.points) < 2 {
		c.add(c.desk.theme.quiet, "Nothing to draw yet: it goes by the soaks that are written")
		return
	}
	until := len(c.lines) + chartRows + 2
	if len(c.points) > 1 {
		c.plot(c.points)
	}
	for len(c.lines) < until {
		c.lines = append(c.lines, "")
	}
}
