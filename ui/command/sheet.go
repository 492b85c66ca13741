package command

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"tubside/ui/show"
)

// sheet is a table for people: a heading and rows of plain text.
type sheet struct {
	columns []column
	rows    [][]string
	wrap    bool // what does not fit goes on below instead of being cut
}

type column struct {
	head  string
	right bool // numbers
	least int  // how narrow it may get; 0 keeps its width
}

func (s *sheet) add(cells ...string) {
	for i, c := range cells {
		cells[i] = show.Safe(c)
	}
	s.rows = append(s.rows, cells)
}

// text is the table in at most width cells, as long as the columns that may
// shrink allow it.
func (s *sheet) text(width int) string {
	widths := s.fit(width)
	heads := make([]string, len(s.columns))
	for i, c := range s.columns {
		heads[i] = c.head
	}
	var b strings.Builder
	s.line(&b, heads, widths)
	for _, row := range s.rows {
		for rest := row; rest != nil; {
			row, rest = rest, nil
			if s.wrap {
				row, rest = split(row, widths)
			}
			s.line(&b, row, widths)
		}
	}
	return b.String()
}

// line writes one line of cells.
func (s *sheet) line(b *strings.Builder, cells []string, widths []int) {
	var line strings.Builder
	for i, cell := range cells {
		if i > 0 {
			line.WriteString("  ")
		}
		if s.columns[i].right {
			line.WriteString(show.PadLeft(cell, widths[i]))
		} else {
			line.WriteString(show.Pad(cell, widths[i]))
		}
	}
	b.WriteString(strings.TrimRight(line.String(), " ") + "\n")
}

// split takes off each cell what fits on a line; rest is nil when all did.
func split(row []string, widths []int) (first, rest []string) {
	more := false
	first, rest = make([]string, len(row)), make([]string, len(row))
	for i, cell := range row {
		first[i], rest[i], _ = strings.Cut(ansi.Wordwrap(cell, widths[i], ""), "\n")
		rest[i] = strings.ReplaceAll(rest[i], "\n", " ")
		more = more || rest[i] != ""
	}
	if !more {
		rest = nil
	}
	return first, rest
}

// fit finds the widths: each column's widest cell, then cells taken from the
// widest column that may shrink until the table fits.
func (s *sheet) fit(width int) []int {
	widths, total := make([]int, len(s.columns)), 2*(len(s.columns)-1)
	for i, c := range s.columns {
		widths[i] = show.Width(c.head)
		for _, row := range s.rows {
			widths[i] = max(widths[i], show.Width(row[i]))
		}
		total += widths[i]
	}
	for ; total > width; total-- {
		widest := -1
		for i, c := range s.columns {
			if c.least > 0 && widths[i] > c.least && (widest < 0 || widths[i] > widths[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			break
		}
		widths[widest]--
	}
	return widths
}
