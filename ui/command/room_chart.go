package command

import (
	"fmt"
	"math"
	"strings"

	"tubside/model"
	"tubside/model/air"
	"tubside/model/estimate"
	"tubside/ui/show"
)

// Sizes of the room's charts, in cells.
const (
	roomRows   = 4
	roomScale  = 8  // for the scale at the left
	meterCells = 10 // of a bar in a table
)

// inUnit is a span of temperatures in the unit of the house rules.
func inUnit(celsius estimate.Span, rules model.Rules) (s estimate.Span) {
	s.Mean, _ = air.Degrees(celsius.Mean, rules.Fahrenheit())
	s.Min, _ = air.Degrees(celsius.Min, rules.Fahrenheit())
	s.Max, _ = air.Degrees(celsius.Max, rules.Fahrenheit())
	return s
}

// meter is a share of 0..1 as a bar.
func meter(share float64) string { return strings.Repeat("█", int(math.Round(share*meterCells))) }

// roomChart is one quantity by day.
type roomChart struct {
	title  string
	of     func(estimate.AirSpell) estimate.Span
	step   float64 // the ends of the scale are whole steps
	places int     // of the words; the scale has one fewer
}

func roomChartsIn(rules model.Rules) []roomChart {
	_, unit := air.Degrees(0, rules.Fahrenheit())
	temp := func(s estimate.AirSpell) estimate.Span { return inUnit(s.TempC, rules) }
	return []roomChart{
		{"temperature, " + unit, temp, 2, 1},
		{"humidity, %", func(s estimate.AirSpell) estimate.Span { return s.RH }, 10, 0},
		{"dry air, kPa", func(s estimate.AirSpell) estimate.Span { return s.Deficit }, 0.5, 2},
	}
}

// roomCharts draws temperature, humidity and deficit by day, where there are
// days.
func roomCharts(days []estimate.AirSpell, rules model.Rules, width int) string {
	all, ok := estimate.AirOver(days)
	if !ok {
		return ""
	}
	var b strings.Builder
	for _, chart := range roomChartsIn(rules) {
		ends := chart.of(all)
		fmt.Fprintf(&b, "\n%s: mean of the day; least %.*f, most %.*f\n", chart.title, chart.places, ends.Min,
			chart.places, ends.Max)
		b.WriteString(chart.draw(days, width))
	}
	fmt.Fprintf(&b, "%s%s to %s\n", strings.Repeat(" ", roomScale), all.First, all.Last)
	return b.String()
}

// draw is the columns with their scale.
func (c roomChart) draw(days []estimate.AirSpell, width int) string {
	means := daily(days, c.of, width-roomScale-1)
	low, high := scale(means, c.step)
	places := max(c.places-1, 0)
	var b strings.Builder
	for i, line := range show.Columns(means, low, high, roomRows) {
		mark := ""
		switch i {
		case 0:
			mark = fmt.Sprintf("%.*f ", places, high)
		case roomRows - 1:
			mark = fmt.Sprintf("%.*f ", places, low)
		}
		b.WriteString(strings.TrimRight(show.PadLeft(mark, roomScale)+line, " ") + "\n")
	}
	return b.String()
}

// daily is the mean of each day of the calendar, of so many days a cell that
// they fit the width, or two cells a day where there is room. Days without a
// reading are gaps.
func daily(days []estimate.AirSpell, of func(estimate.AirSpell) estimate.Span, width int) []float64 {
	first, last := days[0].First, days[len(days)-1].First
	length := int(last-first) + 1
	per := (length + width - 1) / max(width, 1)
	sums, counts := make([]float64, (length+per-1)/per), make([]float64, (length+per-1)/per)
	for _, day := range days {
		i := int(day.First-first) / per
		sums[i] += of(day).Mean
		counts[i]++
	}
	twice := 2*len(sums) <= width
	var means []float64
	for i := range sums {
		v := sums[i] / counts[i] // no reading: not a number
		if means = append(means, v); twice {
			means = append(means, v)
		}
	}
	return means
}

// scale is the ends of a scale around values, at whole steps.
func scale(values []float64, step float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, v := range values {
		if !math.IsNaN(v) {
			low, high = math.Min(low, v), math.Max(high, v)
		}
	}
	low, high = math.Floor(low/step)*step, math.Ceil(high/step)*step
	return low, math.Max(high, low+step)
}
