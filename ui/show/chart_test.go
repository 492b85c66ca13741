package show

import (
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func as(string) func(string) string { return func(s string) string { return s } }

func drawn(c *Chart) string {
	var lines []string
	for i := range c.rows {
		lines = append(lines, c.Row(i, as(""), as("")))
	}
	return strings.Join(lines, "\n")
}

func TestACurveIsDrawnInDots(t *testing.T) {
	c := NewChart(4, 1, 0, 3)
	c.Curve([]float64{0, 0, 1, 1, 2, 2, 3, 3})
	if got := drawn(c); got != "⣀⠤⠒⠉" {
		t.Errorf("steps up: %q", got)
	}
	c = NewChart(2, 2, 0, 7)
	c.Curve([]float64{0, 7, 7, 0})
	if got := drawn(c); got != "⢸⡇\n⣸⣇" {
	}
}

func TestAGapStaysAGap(t *testing.T) {
	c := NewChart(3, 1, 0, 3)
	c.Curve([]float64{3, 3, math.NaN(), math.NaN(), 3, 3})
	if got := drawn(c); got != "⠉ ⠉" {
		t.Errorf("%q", got)
	}
}

// Whatever is drawn, each row has exactly the chart's width, and the top and the
// foot of the scale are inside.
func TestAChartFillsItsCells(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width, rows := rapid.IntRange(1, 90).Draw(t, "width"), rapid.IntRange(1, 9).Draw(t, "rows")
		values := rapid.SliceOf(rapid.Float64Range(-5, 5)).Draw(t, "values")
		c := NewChart(width, rows, -1, 1)
		c.Curve(values)
		c.Edge(values)
		for _, line := range strings.Split(drawn(c), "\n") {
			if Width(line) != width {
				t.Fatalf("%q is %d wide, want %d", line, Width(line), width)
			}
		}
		if len(values) > 0 && strings.TrimSpace(drawn(c)) == "" {
			t.Fatal("nothing is drawn")
		}
	})
}

// An axis of any length of time names dates in it, each where its day begins.
func TestAnAxisHasDates(t *testing.T) {
	until := time.Date(2026, time.January, 17, 15, 0, 0, 0, time.UTC)
	for days, want := range map[int]string{2: "╵16 Jan", 7: "╵12 Jan", 30: "╵5 Jan", 60: "╵29 Dec", 90: "╵29 Dec",
		365: "╵Jul 2025", 1200: "╵Jan 2024"} {
		got := DateAxis(until.AddDate(0, 0, -days), until, 69, time.UTC)
		if !strings.Contains(got, want) || Width(got) != 69 {
			t.Errorf("%d days: %q has no %q", days, got, want)
		}
	}
	if got := DateAxis(until.AddDate(0, 0, -10), until, 100, time.UTC); strings.Index(got, "╵8 Jan") != 3 {
		t.Errorf("the day begins elsewhere: %q", got)
	}
}
