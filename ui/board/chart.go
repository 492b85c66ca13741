package board

import (
	"fmt"
	"math"
	"strings"

	"tubside/model/estimate"
	"tubside/ui/show"
)

// Size of the chart of a plant's thirst. Sixty days hold eight weekly soaks.
const (
	chartDays  = 60
	chartRows  = 7
	chartScale = 8 // columns for the scale at the left
	chartMost  = 0.5
)

// chart draws the plant's thirst over the last sixty days: a line for what was
// believed, dots at the ends of its range, the soaks below it, and dates.
func (c *card) chart() {
	width := max(10, min(c.desk.width-chartScale-3, 2*chartDays))
	from := c.desk.now.AddDate(0, 0, -chartDays)
	points := c.desk.keeper.Trace(c.id, from, c.desk.now, 2*width)
	if len(points) < 2 {
		return
	}
	thirst, low, high := make([]float64, 2*width), make([]float64, 2*width), make([]float64, 2*width)
	most, lead := chartMost, 2*width-len(points)
	for i := range 2 * width {
		if thirst[i], low[i], high[i] = math.NaN(), math.NaN(), math.NaN(); i >= lead {
			p := points[i-lead]
			thirst[i], low[i], high[i] = 1-p.RWC, 1-p.High, 1-p.Low
			most = max(most, high[i])
		}
	}
	chart := show.NewChart(width, chartRows, 0, most)
	chart.Edge(low)
	chart.Edge(high)
	chart.Curve(thirst)
	c.lines = append(c.lines, "", c.desk.heading("Thirst", fmt.Sprintf("the last %d days ", chartDays)))
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
