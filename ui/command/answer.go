package command

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"strings"
	"time"

	"github.com/charmbracelet/x/term"

	"tubside/ui/show"
)

// inJSON answers with a value, two spaces an indent, keys in the order of the
// struct.
func (r *run) inJSON(v any) error {
	enc := json.NewEncoder(r.env.Out)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	return enc.Encode(v)
}

// say answers with a line.
func (r *run) say(format string, args ...any) error {
	_, err := fmt.Fprintf(r.env.Out, format+"\n", args...)
	return err
}

// when is a time as JSON gives it: in the grower's zone, to the second; null
// when there is none.
func when(t time.Time) *time.Time {
	if t.IsZero() {
		return nil
	}
	local := t.Local().Truncate(time.Second)
	return &local
}

// round keeps the places that mean something.
func round(v float64, places int) float64 {
	scale := math.Pow10(places)
	return math.Round(v*scale)/scale + 0
}

// sheet is a table for people: a heading and rows of plain text.
type sheet struct {
	columns []column
	rows    [][]string
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

// print writes the table in at most width cells, as long as the columns that
// may shrink allow it.
func (s *sheet) print(w io.Writer, width int) error {
	widths := s.fit(width)
	heads := make([]string, len(s.columns))
	for i, c := range s.columns {
		heads[i] = c.head
	}
	var b strings.Builder
	for _, row := range append([][]string{heads}, s.rows...) {
		var line strings.Builder
		for i, cell := range row {
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
	_, err := io.WriteString(w, b.String())
	return err
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

// pipedWidth is what a table takes where there is no terminal to ask.
const pipedWidth = 80

// width is how wide a table may be.
func (r *run) width() int {
	if f, ok := r.env.Out.(*os.File); ok {
		if w, _, err := term.GetSize(f.Fd()); err == nil && w > 0 {
			return w
		}
	}
	return pipedWidth
}
