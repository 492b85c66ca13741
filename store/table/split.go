package table

import (
	"encoding/csv"
	"errors"
	"io"
	"strings"
)

// record is one row of a file, not yet understood.
type record struct {
	line  int // where it starts
	cells []string
	fault *Fault // the row could not even be split
}

func (r record) blank() bool {
	for _, c := range r.cells {
		if strings.TrimSpace(c) != "" {
			return false
		}
	}
	return r.fault == nil
}

// splitter cuts text into records. Lines are counted as an editor counts them,
// quoted line breaks included.
type splitter struct {
	csv   *csv.Reader
	lines []string // for a second look at a line
	skip  int      // lines taken off the top
	comma rune
}

func newSplitter(text string, comma rune) *splitter {
	s := &splitter{comma: comma}
	if first, rest, ok := strings.Cut(text, "\n"); ok && declares(first) != 0 {
		text, s.skip = rest, 1
	}
	s.csv = csv.NewReader(strings.NewReader(text))
	s.csv.Comma, s.csv.FieldsPerRecord = comma, -1
	s.lines = strings.Split(text, "\n")
	return s
}

// declares is the separator that a first line "sep=;" names, or 0. Some
// spreadsheet programs write that.
func declares(first string) rune {
	if rest, ok := strings.CutPrefix(strings.ToLower(strings.TrimRight(first, " ")), "sep="); ok && len(rest) == 1 {
		return rune(rest[0])
	}
	return 0
}

// next is the next record, or false at the end.
func (s *splitter) next() (record, bool) {
	cells, err := s.csv.Read()
	if err == io.EOF {
		return record{}, false
	}
	parse, bad := errors.AsType[*csv.ParseError](err)
	if !bad {
		line, _ := s.csv.FieldPos(0)
		return record{line: line + s.skip, cells: cells}, true
	}
	if errors.Is(err, csv.ErrBareQuote) {
		if cells, ok := s.lenient(parse); ok {
			return record{line: parse.StartLine + s.skip, cells: cells}, true
		}
	}
	return record{line: parse.StartLine + s.skip, fault: quoteFault(parse.StartLine+s.skip, parse.Line+s.skip)}, true
}

// lenient reads a row in which a cell that is not quoted holds a quote, as in
// T. ionantha "Fuego": the quote is part of the text.
func (s *splitter) lenient(parse *csv.ParseError) ([]string, bool) {
	row := strings.Join(s.lines[parse.StartLine-1:parse.Line], "\n")
	r := csv.NewReader(strings.NewReader(row))
	r.Comma, r.FieldsPerRecord, r.LazyQuotes = s.comma, -1, true
	cells, err := r.Read()
	_, more := r.Read()
	return cells, err == nil && more == io.EOF
}

func quoteFault(from, to int) *Fault {
	f := &Fault{Line: from, Text: "a quote that does not fit", Do: `inside a quoted cell write "" for "`}
	if to > from {
		f.Text = "a quote that is opened here and never closed"
	}
	return f
}

// headReach is how many rows at the top are looked at for the header. Our own:
// sheets often start with a title and an empty line.
const headReach = 10

// sniff finds the separator and the header row: the one of the first rows that
// we know most columns of. It returns the splitter standing after that row.
func sniff(text string) (*splitter, *header, error) {
	commas := []rune{',', ';', '\t'}
	first, _, _ := strings.Cut(text, "\n")
	if c := declares(first); c == ',' || c == ';' || c == '\t' {
		commas = []rune{c}
	}
	var best guess
	for _, comma := range commas {
		if g := guessHeader(text, comma); g.betterThan(best) {
			best = g
		}
	}
	if best.header == nil {
		return nil, nil, wholeFile("there is no header line that names the columns", "see one with: tubside import --template")
	}
	s := newSplitter(text, best.comma)
	for range best.row + 1 {
		s.next()
	}
	return s, best.header, best.header.faults.orNil()
}

// guess is a row that may be the header, split by one separator.
type guess struct {
	comma  rune
	row    int
	known  int // columns that we know
	header *header
}

func (g guess) betterThan(o guess) bool {
	return g.header != nil && (o.header == nil || g.known > o.known)
}

func guessHeader(text string, comma rune) guess {
	s := newSplitter(text, comma)
	var best guess
	for row := range headReach {
		r, ok := s.next()
		if !ok {
			break
		}
		if h, known := matchHeader(r.cells, r.line); known > 0 && known > best.known {
			best = guess{comma, row, known, h}
		}
	}
	return best
}
