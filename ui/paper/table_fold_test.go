package paper_test

import (
	"strings"
	"testing"

	"tubside/ui/paper"
	"tubside/ui/show"
)

// A table of numbers that is too wide is drawn in two, and none of it is cut.
func TestAWideTableOfNumbersIsDrawnInTwo(t *testing.T) {
	table := &paper.Table{Columns: []paper.Column{{Head: "shelf"}, {Head: "start", Right: true}, {Head: "listed", Right: true},
		{Head: "lost", Right: true}, {Head: "end", Right: true}}}
	table.Add("Arch", "10", "100", "-4", "106")
	text := table.Text(20)
	for _, word := range []string{"start", "listed", "lost", "end", "106"} {
		if !strings.Contains(text, word) {
			t.Errorf("no %s in\n%s", word, text)
		}
	}
	if strings.Count(text, "Arch") != 2 {
		t.Errorf("the first column does not stand before both:\n%s", text)
	}
	for line := range strings.Lines(text) {
		if show.Width(strings.TrimRight(line, "\n")) > 20 {
			t.Errorf("%q is too wide", line)
		}
	}
	if wide := table.Text(80); strings.Count(wide, "Arch") != 1 {
		t.Errorf("cut though there is room:\n%s", wide)
	}
}
