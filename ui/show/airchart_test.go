package show

import (
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/estimate"
)

// A month of air has its zones in words, dates below, and lines of one width.
func TestTheAirIsDrawnInPlainZones(t *testing.T) {
	until := time.Date(2026, time.January, 17, 15, 0, 0, 0, time.UTC)
	from := until.AddDate(0, 0, -30)
	var days []estimate.AirSpell
	for i := range 30 {
		day, err := model.ParseDay(from.AddDate(0, 0, i+1).Format(time.DateOnly), model.ISO)
		if err != nil {
			t.Fatal(err)
		}
		dry := 0.5 + float64(i)/20
		days = append(days, estimate.AirSpell{First: day, Last: day, Deficit: estimate.Span{Mean: dry, Min: dry, Max: dry + 0.2}})
	}
	chart := AirCharts(model.DefaultRules())[0]
	lines := chart.Lines(days, from, until, time.UTC, 70, 9, as(""), as(""), as(""))
	text := strings.Join(lines, "\n")
	for _, want := range []string{"thirsty", "mild", "damp", "╵5 Jan"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	for _, line := range lines {
		if Width(line) != 70 {
			t.Errorf("%q is %d wide", line, Width(line))
		}
	}
	if len(lines) != 9 {
		t.Errorf("%d lines, want 9", len(lines))
	}
	if none := chart.Lines(nil, from, until, time.UTC, 40, 2, as(""), as(""), as("")); len(none) != LeastAirChart {
		t.Errorf("of nothing: %q", none)
	}
}
