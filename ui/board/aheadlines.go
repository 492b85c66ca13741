package board

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/ui/show"
)

// roomy is the height from which the drying screen has room for what lies
// ahead.
const roomy = 28

// aheadLines are the hours to come on the bench: how damp the room gets, how
// many more plants may come out, and what a window would change. A small screen
// has one line of it.
func (s *dryScreen) aheadLines() []string {
	if s.ahead == nil {
		return nil
	}
	words := show.Fit(" "+s.aheadWords(), s.desk.width)
	if s.desk.height < roomy {
		return []string{words}
	}
	when := chartWhen{s.desk.version, s.desk.width, s.looked, s.desk.now.Truncate(time.Minute)}
	if when != s.charted || s.chart == nil {
		s.chart, s.charted = s.humidityChart(), when
	}
	return append(slices.Clip(s.chart), words)
}

// chartWhen is all that the chart of the room's humidity depends on: it is not drawn anew at
// every key.
type chartWhen struct {
	version, width int
	looked, now    time.Time
}

// aheadWords say it in one line, as fully as fits.
func (s *dryScreen) aheadWords() string {
	zone := s.desk.book.Zone()
	by := show.Clock(s.desk.book.Rules().DryBy(s.desk.now.In(zone)), s.desk.now, zone)
	full, brief := fmt.Sprintf("Taken out now, %d more would likely be dry by %s", s.ahead.MayCome, by),
		fmt.Sprintf("%d more can come out now", s.ahead.MayCome)
	switch s.ahead.MayCome {
	case 0:
		full, brief = "Plants taken out now would not be dry by "+by, "Too late for more today"
	case estimate.MostMayCome:
		full, brief = "However many come out now, they are likely dry by "+by, "Any number can come out now"
	}
	a := s.ahead
	if a.Opened.IsZero() || a.AllDry.Sub(a.Opened) < 10*time.Minute {
		return full
	}
	short := " · window open: all dry " + show.Clock(a.Opened, s.desk.now, zone)
	for _, words := range []string{full + short + " instead of " + show.Clock(a.AllDry, s.desk.now, zone), full + short} {
		if show.Width(words) < s.desk.width {
			return words
		}
	}
	return brief + short
}

// aheadScale is how many columns the scale of the chart takes.
const aheadScale = 11

// humidityChart draws the room's humidity over the next hours.
func (s *dryScreen) humidityChart() []string {
	const rows = 3
	moments := s.ahead.Humidity
	if len(moments) < 2 {
		return nil
	}
	from, until := moments[0].At, moments[len(moments)-1].At
	if limit := s.desk.now.Add(18 * time.Hour); until.After(limit) {
		until = limit
	}
	width := max(10, s.desk.width-aheadScale-1)
	past, ahead := make([]float64, 2*width), make([]float64, 2*width)
	low, high := math.Inf(1), math.Inf(-1)
	for i := range ahead {
		at := from.Add(time.Duration(float64(until.Sub(from)) * float64(i) / float64(2*width)))
		v := humidityAt(moments, at)
		low, high = min(low, v), max(high, v)
		if past[i], ahead[i] = math.NaN(), v; at.Before(s.desk.now) {
			past[i], ahead[i] = v, math.NaN()
		}
	}
	low, high = math.Floor(low/5)*5, math.Ceil(high/5)*5
	chart := show.NewChart(width, rows, low, high)
	chart.Edge(past) // what is over is dotted, what comes is a line
	chart.Curve(ahead)
	lines := []string{s.desk.heading("The room's humidity",
		fmt.Sprintf("%s, peak %.0f %% ", show.Line(windowWords(s.desk.book.Window(s.desk.now).Window)), s.ahead.PeakRH))}
	for row := range rows {
		label := ""
		switch row {
		case 0:
			label = show.Humidity(high)
		case rows - 1:
			label = show.Humidity(low)
		}
		lines = append(lines, s.desk.theme.quiet.of(show.PadLeft(label, aheadScale-1))+" "+chart.Row(row, s.desk.theme.accent.of,
			s.desk.theme.quiet.of))
	}
	hours := timescale{from, until, width}.hours(s.desk.book.Zone(), s.desk.now)
	return append(lines, strings.Repeat(" ", aheadScale)+s.desk.theme.quiet.of(hours))
}

// humidityAt reads the forecast at a time.
func humidityAt(moments []estimate.AirMoment, at time.Time) float64 {
	for i := 1; i < len(moments); i++ {
		a, b := moments[i-1], moments[i]
		if at.Before(b.At) {
			share := at.Sub(a.At).Seconds() / max(1, b.At.Sub(a.At).Seconds())
			return a.RH + share*(b.RH-a.RH)
		}
	}
	return moments[len(moments)-1].RH
}

func windowWords(w model.Window) string { return show.WindowWords[w] }

// nextWindow airs the room otherwise.
func (d *desk) nextWindow() {
	now := d.book.Window(d.now).Window
	for i, w := range model.AllWindows {
		if w == now {
			d.enter(&model.WindowSet{Window: model.AllWindows[(i+1)%len(model.AllWindows)]})
			return
		}
	}
}
