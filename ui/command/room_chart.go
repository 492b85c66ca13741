package command

import (
	"fmt"
	"math"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/air"
	"tubside/model/estimate"
	"tubside/ui/show"
)

// roomRows is the height of one of the room's charts, its dates among them.
const roomRows = 6

// meterCells is the width of a bar in a table.
const meterCells = 10

// inUnit is a span of temperatures in the unit of the house rules.
func inUnit(celsius estimate.Span, rules model.Rules) (s estimate.Span) {
	s.Mean, _ = air.Degrees(celsius.Mean, rules.Fahrenheit())
	s.Min, _ = air.Degrees(celsius.Min, rules.Fahrenheit())
	s.Max, _ = air.Degrees(celsius.Max, rules.Fahrenheit())
	return s
}

// meter is a share of 0..1 as a bar.
func meter(share float64) string { return strings.Repeat("━", int(math.Round(share*meterCells))) }

// roomCharts draws the air by day as the board does, where there are readings.
func roomCharts(days []estimate.AirSpell, until time.Time, b *model.Book, width int) string {
	all, ok := estimate.AirOver(days)
	if !ok {
		return ""
	}
	from := model.NoonOf(all.First, b.Zone()).Add(-12 * time.Hour)
	as := func(s string) string { return s }
	var text strings.Builder
	for _, chart := range show.AirCharts(b.Rules()) {
		fmt.Fprintf(&text, "\n%s, %s\n", chart.Name, chart.Range(all))
		for _, line := range chart.Lines(days, from, until, b.Zone(), width, roomRows, as, as, as) {
			text.WriteString(strings.TrimRight(line, " ") + "\n")
		}
	}
	return text.String()
}
