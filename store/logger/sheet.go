package logger

import (
	"fmt"
	"strings"

	"tubside/model"
	"tubside/store/csvfile"
)

// sheet is a file cut into cells: a heading and the rows under it.
type sheet struct {
	names []string
	rows  []csvfile.Record
}

// How far into a file its separator and its heading are looked for:
// loggers begin with up to some thirty lines about themselves.
const (
	headReach  = 60
	leastCells = 2
)

// cut splits a text by the separator that gives most rows with a time and
// numbers in the beginning, and finds the heading over them.
func cut(text string) (*sheet, error) {
	commas := []byte{',', ';', '\t'}
	if c := csvfile.Declared(text); c != 0 {
		commas = []byte{c}
	}
	best, most := byte(0), 0
	for _, c := range commas {
		if n := count(text, c); n > most {
			best, most = c, n
		}
	}
	if most == 0 {
		return nil, csvfile.WholeFile("no rows of times and numbers",
			"export the logger's readings as CSV, with date and time in each row")
	}
	s := &sheet{}
	var above csvfile.Record
	for split := csvfile.Split(text, best); ; {
		rec, ok := split.Next()
		switch {
		case !ok:
			s.name(above)
			return s, nil
		case rec.Fault != nil || rec.Blank():
		case len(s.rows) == 0 && !isData(rec.Cells):
			if len(rec.Cells) >= leastCells {
				above = rec
			}
		default:
			s.rows = append(s.rows, rec)
		}
	}
}

// count says how many of the first rows are data, split by a separator.
func count(text string, comma byte) (n int) {
	split := csvfile.Split(text, comma)
	for range headReach {
		rec, ok := split.Next()
		if !ok {
			break
		}
		if rec.Fault == nil && isData(rec.Cells) {
			n++
		}
	}
	return n
}

// isData reports whether a row has a time or a date, and a number beside it.
func isData(cells []string) bool {
	moments, numbers := 0, 0
	for _, c := range cells {
		if _, ok := number(c); ok {
			numbers++
		}
		if looksLikeMoment(c) {
			moments++
		}
	}
	return moments > 0 && numbers > 0 && len(cells) >= leastCells
}

// name takes the headings from the row above the data.
func (s *sheet) name(above csvfile.Record) {
	width := len(above.Cells)
	for _, rec := range s.rows {
		width = max(width, len(rec.Cells))
	}
	for i := range width {
		s.names = append(s.names, orElse(strings.TrimSpace(cell(above.Cells, i)), fmt.Sprintf("column %d", i+1)))
	}
}

// find is the column of a name or a number from 1.
func (s *sheet) find(word string) (int, error) {
	for i, name := range s.names {
		if strings.EqualFold(name, strings.TrimSpace(word)) || fmt.Sprint(i+1) == strings.TrimSpace(word) {
			return i, nil
		}
	}
	return 0, &model.Problem{
		What: fmt.Sprintf("there is no column %q", word),
		Do:   "the columns are " + strings.Join(s.names, ", "),
	}
}

// cell is a cell of a row that may be too short.
func cell(cells []string, i int) string {
	if i < 0 || i >= len(cells) {
		return ""
	}
	return cells[i]
}
