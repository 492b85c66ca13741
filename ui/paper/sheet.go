// Package paper is what is printed or sent: sheets as plain text and as one HTML
// file that needs nothing beside itself, their charts, the shell's table, labels
// in mm, the sheet for a sitter and the ledger of a year. All HTML comes from one
// set of templates.
package paper

import (
	"strings"
	"tubside/ui/show"

	"github.com/charmbracelet/x/ansi"
)

// Sheet is one printed page, or a few.
type Sheet struct {
	Title    string
	Under    []string // lines under the title: for whom, from when to when
	Sections []Section
	Foot     string // the last line; may be empty
	OnePage  bool   // printed close together, lists side by side, so that it stays one page
}

// Section is a titled part of a sheet. The title may be empty.
type Section struct {
	Title   string
	Blocks  []Block
	NewPage bool // on a page of its own
	Small   bool // long lists: printed small, in two columns that run on into the next such section
}

// Add puts a section at the end of the sheet.
func (s *Sheet) Add(title string, blocks ...Block) {
	s.Sections = append(s.Sections, Section{Title: title, Blocks: blocks})
}

// Block is what a section is made of: [Words], [Points], [Ticks], [Blanks],
// [Cautions], [*Table] or [Drawing].
type Block interface {
	// lines is the block as plain text of at most width cells, where it can be
	// broken.
	lines(width int) []string
	// shape names the block's template.
	shape() string
}

// Words is a paragraph.
type Words string

// Points is a list.
type Points []string

// Ticks is a list of things to do, each with a box to tick.
type Ticks []string

// Blanks is a list of things to know, with a line to write on where nothing is
// known yet.
type Blanks []Blank

// Blank is one thing to know.
type Blank struct {
	What string // "the fan"
	Text string // "in the hall, left of the door"; empty leaves a line to write on
}

// Cautions is a list of things that can hurt someone.
type Cautions []Caution

// Caution is one warning.
type Caution struct {
	Text   string
	Source string // who says so, author or body and year; may be empty
}

// Drawing is a picture for the HTML file, and what stands for it in plain text.
type Drawing struct {
	SVG  string   // one <svg> element, trusted: it is not escaped. Text in it must be.
	Text []string // lines already drawn to fit the page

	narrow func(width int) []string // the same lines for less than the page; nil: there are none
}

func (Words) shape() string    { return "words" }
func (Points) shape() string   { return "points" }
func (Ticks) shape() string    { return "ticks" }
func (Blanks) shape() string   { return "blanks" }
func (Cautions) shape() string { return "cautions" }
func (Drawing) shape() string  { return "drawing" }
func (*Table) shape() string   { return "table" }

// textWidth is how wide a sheet is as plain text, in cells: what any printer
// takes on one line.
const textWidth = 80

// ruledLine is where something is to be written by hand.
var ruledLine = strings.Repeat("_", 40)

// Text is the sheet as plain text of 80 columns.
func (s *Sheet) Text() string { return s.Within(textWidth) }

// Within is the sheet as plain text of so many columns, and never more than 80.
func (s *Sheet) Within(width int) string {
	width = min(width, textWidth)
	lines := []string{show.Safe(s.Title), strings.Repeat("=", show.Width(show.Safe(s.Title)))}
	for _, under := range s.Under {
		lines = append(lines, wrapped(under, "", "", width)...)
	}
	for _, section := range s.Sections {
		if section.NewPage {
			lines = append(lines, "\f")
		} else {
			lines = append(lines, "")
		}
		if section.Title != "" {
			title := show.Safe(section.Title)
			lines = append(lines, title, strings.Repeat("-", show.Width(title)))
		}
		for i, block := range section.Blocks {
			if i > 0 {
				lines = append(lines, "")
			}
			if table, ok := block.(*Table); ok && section.Small {
				lines = append(lines, table.twice(width)...)
			} else {
				lines = append(lines, block.lines(width)...)
			}
		}
	}
	if s.Foot != "" {
		lines = append(append(lines, ""), wrapped(s.Foot, "", "", width)...)
	}
	return strings.Join(lines, "\n") + "\n"
}

// Line is one line of a section as plain text.
type Line struct {
	Text string
	Head bool // it names a table's columns
}

// Lines is the section without its title, as plain text of at most width cells,
// where it can be broken.
func (s Section) Lines(width int) []Line {
	var all []Line
	for i, block := range s.Blocks {
		if i > 0 {
			all = append(all, Line{})
		}
		_, table := block.(*Table)
		for n, text := range block.lines(width) {
			all = append(all, Line{text, table && n == 0})
		}
	}
	return all
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

func (d Drawing) lines(width int) []string {
	if d.narrow != nil && width < chartWidth {
		return d.narrow(width)
	}
	return d.Text
}

func (t *Table) lines(width int) []string {
	return strings.Split(strings.TrimRight(t.Text(width), "\n"), "\n")
}
