package paper

import (
	"cmp"
	"slices"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"tubside/ui/show"
)

// Table is a heading and rows of plain text. The shell prints it by itself.
type Table struct {
	Columns []Column
	Rows    [][]string
	Wrap    bool // what does not fit goes on below instead of being cut
	Tick    bool // a box to tick before each row
}

// Column is one column of a table.
type Column struct {
	Head  string
	Right bool // numbers
	Least int  // how narrow it may get, in cells; 0 keeps its width
	Box   bool // a box to tick or to write a digit into
}

// Class is the class of a column's cells, and of its head, on a page.
func (c Column) Class(part string) string {
	switch {
	case c.Box:
		return "box-" + part
	case c.Right:
		return "right"
	}
	return ""
}

// Add puts a row at the end, a cell a column, cleaned of what could steer a
// terminal.
func (t *Table) Add(cells ...string) {
	for i, c := range cells {
		if cells[i] = show.Safe(c); t.Columns[i].Box {
			cells[i] = textBox
		}
	}
	t.Rows = append(t.Rows, cells)
}

// textBox is a box in plain text.
const textBox = "[ ]"

// Text is the table in at most width cells, as long as the columns that may
// shrink allow it. A table of numbers that is too wide even so is drawn in two, the
// first column before both.
func (t *Table) Text(width int) string {
	if first, second := t.halves(width); second != nil {
		return first.Text(width) + "\n" + second.Text(width)
	}
	box, blank := "", ""
	if t.Tick {
		box, blank = "[ ] ", "    "
	}
	widths := t.fit(width - len(box))
	heads := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		heads[i] = c.Head
	}
	var b strings.Builder
	t.line(&b, blank, heads, widths)
	for _, row := range t.Rows {
		lead := box
		for rest := row; rest != nil; lead = blank {
			row, rest = rest, nil
			if t.Wrap {
				row, rest = split(row, widths)
			}
			t.line(&b, lead, row, widths)
		}
	}
	return b.String()
}

// columnRows is how many rows of a table stand side by side before the next: they are on
// one page.
const columnRows = 25

// twice is the table with its rows in two columns side by side, where two of it fit.
func (t *Table) twice(width int) (lines []string) {
	const between = "  "
	half, box := (width-len(between))/2, 0
	if t.Tick {
		box = len(textBox) + 1
	}
	if len(t.Rows) < 4 || box+total(t.meant(half-box)) > half {
		return t.lines(width)
	}
	for rows := range slices.Chunk(t.Rows, 2*columnRows) {
		left, right := *t, *t
		n := (len(rows) + 1) / 2
		left.Rows, right.Rows = rows[:n], rows[n:]
		one, other := left.lines(half), right.lines(half)
		for i := range max(len(one), len(other)) {
			line := ""
			if i < len(one) {
				line = one[i]
			}
			if i < len(other) {
				line = show.Pad(line, half) + between + other[i]
			}
			lines = append(lines, line)
		}
	}
	return lines
}

// line writes one line of cells.
func (t *Table) line(b *strings.Builder, lead string, cells []string, widths []int) {
	line := lead
	for i, cell := range cells {
		if i > 0 {
			line += "  "
		}
		if t.Columns[i].Right {
			line += show.PadLeft(cell, widths[i])
		} else {
			line += show.Pad(cell, widths[i])
		}
	}
	b.WriteString(strings.TrimRight(line, " ") + "\n")
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

// fit finds the widths: each column's widest cell, then cells taken from the widest
// column that may shrink until the table fits. On a narrow terminal those that may
// shrink become narrower still, and then the others but for numbers.
func (t *Table) fit(width int) []int {
	return t.shrunk(t.widest(), width, Column.least, Column.narrow, Column.narrowest)
}

// widest are the widths of the widest cells.
func (t *Table) widest() []int {
	widths := make([]int, len(t.Columns))
	for i, c := range t.Columns {
		widths[i] = show.Width(c.Head)
		for _, row := range t.Rows {
			widths[i] = max(widths[i], show.Width(row[i]))
		}
	}
	return widths
}

// meant are the widths in which no column is narrower than it was meant to get.
func (t *Table) meant(width int) []int { return t.shrunk(t.widest(), width, Column.least) }

// shrunk takes cells from the widest column that may still shrink, by one measure after the
// other, until the table fits.
func (t *Table) shrunk(widths []int, width int, measures ...func(Column) int) []int {
	over := total(widths) - width
	for _, least := range measures {
		for ; over > 0; over-- {
			widest := -1
			for i, c := range t.Columns {
				if widths[i] > least(c) && (widest < 0 || widths[i] > widths[widest]) {
					widest = i
				}
			}
			if widest < 0 {
				break
			}
			widths[widest]--
		}
	}
	return widths
}

// fixed is the width of a column that keeps its own.
const fixed = 1 << 30

// least is how narrow the column gets as it was meant.
func (c Column) least() int { return cmp.Or(c.Least, fixed) }

// narrow is how narrow it gets where there is no room as it was meant.
func (c Column) narrow() int {
	if c.Least == 0 {
		return fixed
	}
	return min(c.Least, 6)
}

// narrowest is how narrow it gets when nothing else helps.
func (c Column) narrowest() int {
	if c.Right || c.Box {
		return fixed
	}
	return min(c.narrow(), max(show.Width(c.Head), 4))
}

// halves cuts a table that is too wide, where all of its columns but the first are
// numbers; second is nil where it is not cut.
func (t *Table) halves(width int) (first, second *Table) {
	if t.Tick || t.Wrap || len(t.Columns) < 3 || total(t.fit(width)) <= width {
		return t, nil
	}
	for _, c := range t.Columns[1:] {
		if !c.Right {
			return t, nil
		}
	}
	half := (len(t.Columns) + 1) / 2
	first, second = &Table{Columns: t.Columns[:half]}, &Table{Columns: slices.Concat(t.Columns[:1], t.Columns[half:])}
	for _, row := range t.Rows {
		first.Rows = append(first.Rows, row[:half])
		second.Rows = append(second.Rows, slices.Concat(row[:1], row[half:]))
	}
	return first, second
}

// total is the width of a table whose columns have these.
func total(widths []int) int {
	sum := 2 * (len(widths) - 1)
	for _, w := range widths {
		sum += w
	}
	return sum
}
