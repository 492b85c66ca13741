package board

import (
	"fmt"
	"strings"

	"tubside/model/estimate"
	"tubside/ui/show"
)

// Size of the chart of a plant's thirst. Sixty days hold eight weekly soaks.
const (
	chartDays  = 60
	chartRows  = 6
	chartScale = 10 // columns for the scale at the left
	chartTail  = 8  // columns for the word after the soaks
	chartMost  = 0.6
)

// eighths draw the top of a column to an eighth of a line.
var eighths = []rune(" ▁▂▃▄▅▆▇█")

// chart draws the plant's thirst over the last sixty days: solid to what was
// believed, a dot at the upper end of its range, and a line of soaks below.
func (c *card) chart() {
	columns := max(10, min(c.width-chartScale-chartTail, 2*chartDays))
	points := c.keeper.Trace(c.id, c.now.AddDate(0, 0, -chartDays), c.now, columns)
	if len(points) < 2 {
		return
	}
	c.lines = append(c.lines, "", c.heading("Thirst", fmt.Sprintf("the last %d days ", chartDays)))
	most := chartMost
	for _, p := range points {
		most = max(most, 1-p.RWC)
	}
	lead := strings.Repeat(" ", columns-len(points))
	for row := chartRows - 1; row >= 0; row-- {
		c.lines = append(c.lines, c.chartScaleAt(row, most)+lead+chartRow(points, row, most))
	}
	c.lines = append(c.lines, strings.Repeat(" ", chartScale)+lead+c.theme.quiet.of(soakMarks(points)))
}

// chartScaleAt is the percentage at the foot of a row, on every other one.
func (c *card) chartScaleAt(row int, most float64) string {
	if row%2 == 1 {
		return strings.Repeat(" ", chartScale)
	}
	share := most * float64(row) / chartRows
	return show.PadLeft(fmt.Sprintf("%.0f %% ", 100*share), chartScale)
}

func chartRow(points []estimate.Point, row int, most float64) string {
	var b strings.Builder
	for _, p := range points {
		height := (1 - p.RWC) / most * chartRows * 8
		fill := min(max(int(height+0.5)-8*row, 0), 8)
		upper := (1 - p.Low) / most * chartRows
		if fill == 0 && int(upper) == row && upper > 0.5 {
			b.WriteRune('·')
			continue
		}
		b.WriteRune(eighths[fill])
	}
	return b.String()
}

// soakMarks puts a mark under each time in the water.
func soakMarks(points []estimate.Point) string {
	marks := make([]rune, len(points))
	any := false
	for i, p := range points {
		marks[i] = ' '
		// A soak is often shorter than a column is wide: look for the fall.
		if p.InWater || i > 0 && points[i-1].RWC < p.RWC-0.02 {
			marks[i] = '↑'
			any = true
		}
	}
	if !any {
		return ""
	}
	return strings.TrimRight(string(marks), " ") + " soaked"
}
