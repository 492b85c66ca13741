package show

import (
	"math"
	"strings"
)

// eighths draw the top of a column to an eighth of a line.
var eighths = []rune(" ▁▂▃▄▅▆▇█")

// Columns draws values as columns side by side, each a cell wide, in rows lines
// from the top: low is at the foot, high at the top, and what lies outside is
// cut. A value that is not a number is a gap; one at the foot shows as the
// thinnest line, to be told from a gap.
func Columns(values []float64, low, high float64, rows int) []string {
	lines := make([]string, rows)
	for i := range lines {
		foot := 8 * (rows - 1 - i) // eighths below this line
		var b strings.Builder
		for _, v := range values {
			fill := 0
			if !math.IsNaN(v) {
				fill = max(int(math.Round((v-low)/(high-low)*float64(8*rows))), 1) - foot
			}
			b.WriteRune(eighths[min(max(fill, 0), 8)])
		}
		lines[i] = strings.TrimRight(b.String(), " ")
	}
	return lines
}
