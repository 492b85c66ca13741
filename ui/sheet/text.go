package sheet

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"tubside/ui/show"
)

// textWidth is how wide a sheet is as plain text, in cells: what any printer
// takes on one line.
const textWidth = 80

// ruledLine is where something is to be written by hand.
var ruledLine = strings.Repeat("_", 40)

// Text is the sheet as plain text of 80 columns.
func (s *Sheet) Text() string {
	lines := []string{show.Safe(s.Title), strings.Repeat("=", show.Width(show.Safe(s.Title)))}
	for _, under := range s.Under {
		lines = append(lines, wrapped(under, "", "", textWidth)...)
	}
	for _, section := range s.Sections {
		lines = append(lines, "")
		if section.Title != "" {
			title := show.Safe(section.Title)
			lines = append(lines, title, strings.Repeat("-", show.Width(title)))
		}
		for i, block := range section.Blocks {
			if i > 0 {
				lines = append(lines, "")
			}
			lines = append(lines, block.lines(textWidth)...)
		}
	}
	if s.Foot != "" {
		lines = append(append(lines, ""), wrapped(s.Foot, "", "", textWidth)...)
	}
	return strings.Join(lines, "\n") + "\n"
}

// wrapped breaks text into lines; the first begins with one lead, the rest with
// another of the same width.
func wrapped(text, first, rest string, width int) []string {
	broken := strings.Split(ansi.Wrap(show.Safe(text), max(width-show.Width(first), 1), ""), "\n")
	for i, line := range broken {
		lead := rest
		if i == 0 {
			lead = first
		}
		broken[i] = strings.TrimRight(lead+line, " ")
	}
	return broken
}

func (w Words) lines(width int) []string { return wrapped(string(w), "", "", width) }

func (p Points) lines(width int) []string { return listed(p, "- ", "  ", width) }

func (t Ticks) lines(width int) []string { return listed(t, "[ ] ", "    ", width) }

func listed(items []string, first, rest string, width int) (lines []string) {
	for _, item := range items {
		lines = append(lines, wrapped(item, first, rest, width)...)
	}
	return lines
}

func (b Blanks) lines(width int) (lines []string) {
	for _, blank := range b {
		text := blank.Text
		if text == "" {
			text = ruledLine
		}
		lines = append(lines, wrapped(blank.What+": "+text, "", "  ", width-2)...)
	}
	return lines
}

func (c Cautions) lines(width int) (lines []string) {
	for _, caution := range c {
		text := caution.Text
		if caution.Source != "" {
			text += " (" + caution.Source + ")"
		}
		lines = append(lines, wrapped(text, "! ", "  ", width)...)
	}
	return lines
}

func (d Drawing) lines(int) []string { return d.Text }

func (t *Table) lines(width int) []string {
	return strings.Split(strings.TrimRight(t.Text(width), "\n"), "\n")
}
