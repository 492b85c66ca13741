package show

import (
	"fmt"
	"math"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/air"
	"tubside/model/estimate"
)

// AirChart draws one quantity of the room's air over some days: a curve through
// the means, dots at the least and the most of each day, a scale, and dates.
type AirChart struct {
	Name   string // what it is
	Of     func(estimate.AirSpell) estimate.Span
	unit   string
	places int                  // of its numbers; the scale has one fewer
	step   float64              // the ends of the scale are whole steps
	zone   func(float64) string // plain words in place of numbers at the scale
}

// AirCharts are the quantities of the room's air in the units of the house rules,
// first the one that thirst hangs on.
func AirCharts(rules model.Rules) []AirChart {
	_, unit := air.Degrees(0, rules.Fahrenheit())
	temp := func(s estimate.AirSpell) (t estimate.Span) {
		t.Mean, _ = air.Degrees(s.TempC.Mean, rules.Fahrenheit())
		t.Min, _ = air.Degrees(s.TempC.Min, rules.Fahrenheit())
		t.Max, _ = air.Degrees(s.TempC.Max, rules.Fahrenheit())
		return t
	}
	return []AirChart{
		{"How dry the air is", func(s estimate.AirSpell) estimate.Span { return s.Deficit }, "kPa", 2, 0.2, AirZone},
		{"Humidity", func(s estimate.AirSpell) estimate.Span { return s.RH }, "%", 0, 5, nil},
		{"Temperature", temp, unit, 1, 1, nil},
	}
}

// LeastAirChart is the lines of the lowest chart: two of dots and one of dates.
const LeastAirChart = 3

// airScale is how many cells the scale at the left takes.
const airScale = 10

// Lines draws days of readings between two times, the dates below in zone, in so
// many lines of exactly width cells. Curve, range and words are painted each their
// own way.
func (c AirChart) Lines(days []estimate.AirSpell, from, until time.Time, zone *time.Location, width, lines int,
	curve, edge, words func(string) string) []string {
	cells, rows := max(width-airScale, 1), max(lines, LeastAirChart)-1
	mean, least, most := c.spread(days, 2*cells, from, until, zone)
	low, high := c.ends(least, most)
	chart := NewChart(cells, rows, low, high)
	chart.Edge(least)
	chart.Edge(most)
	chart.Curve(mean)
	var out []string
	last := ""
	for row := range rows {
		mark := ""
		v := high - (high-low)*float64(row)/float64(rows-1)
		switch {
		case c.zone != nil && c.zone(v) != last:
			mark, last = c.zone(v), c.zone(v)
		case c.zone == nil && (row == 0 || row == rows-1):
			mark = fmt.Sprintf("%.*f %s", max(c.places-1, 0), v, c.unit)
		}
		out = append(out, words(PadLeft(mark, airScale-1))+" "+chart.Row(row, curve, edge))
	}
	return append(out, strings.Repeat(" ", airScale)+words(DateAxis(from, until, cells, zone)))
}

// Range says the least and the most of some days in words: "20.8 to 21.0 °C".
func (c AirChart) Range(over estimate.AirSpell) string {
	ends := c.Of(over)
	return fmt.Sprintf("%.*f to %.*f %s", c.places, ends.Min, c.places, ends.Max, c.unit)
}

// ends are the lowest and the highest value drawn, at whole steps.
func (c AirChart) ends(least, most []float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for i := range least {
		if !math.IsNaN(least[i]) {
			low, high = min(low, least[i]), max(high, most[i])
		}
	}
	if low > high { // nothing is drawn
		return 0, c.step
	}
	low, high = math.Floor(low/c.step)*c.step, math.Ceil(high/c.step)*c.step
	return low, max(high, low+c.step)
}

// mostGap is how many days without a reading a line still bridges.
const mostGap = 3

// spread lays the days over n points, each mean at its noon and a straight line
// between; a longer gap has no numbers. The least and the most stand for the whole
// of their day.
func (c AirChart) spread(days []estimate.AirSpell, n int, from, until time.Time, zone *time.Location) (mean, least,
	most []float64) {
	mean, least, most = make([]float64, n), make([]float64, n), make([]float64, n)
	for i := range n {
		mean[i], least[i], most[i] = math.NaN(), math.NaN(), math.NaN()
	}
	perDay := float64(n) / (until.Sub(from).Hours() / 24)
	last, lastMean := 0, math.NaN()
	for _, d := range days {
		v, x := c.Of(d), int(model.NoonOf(d.First, zone).Sub(from).Hours()/24*perDay)
		x = min(max(x, 0), n-1)
		half := int(perDay / 2) // a day is wider than a dot
		for i := max(x-half, 0); i <= min(x+half, n-1); i++ {
			least[i], most[i] = v.Min, v.Max
		}
		mean[x] = v.Mean
		if gap := x - last; !math.IsNaN(lastMean) && float64(gap) <= mostGap*perDay {
			for i := 1; i < gap; i++ {
				mean[last+i] = lastMean + (v.Mean-lastMean)*float64(i)/float64(gap)
			}
		}
		last, lastMean = x, v.Mean
	}
	return mean, least, most
}
