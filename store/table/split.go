package table

import "strings"

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

// splitter cuts text into records as RFC 4180 has it, and takes one thing more: a
// quote inside a cell that is not quoted is part of the text, as growers write
// T. ionantha "Fuego". The standard library gives such a row up, and with it the
// line breaks in the quoted cells behind. Lines are counted as an editor counts
// them, quoted line breaks included.
type splitter struct {
	text  string
	comma byte
	at    int // in text
	line  int // of at, from 1
}

func newSplitter(text string, comma byte) *splitter {
	s := &splitter{text: text, comma: comma, line: 1}
	if first, _, _ := strings.Cut(text, "\n"); declares(first) != 0 {
		s.endLine()
	}
	return s
}

// declares is the separator that a first line "sep=;" names, or 0. Some
// spreadsheet programs write that.
func declares(first string) byte {
	if rest, ok := strings.CutPrefix(strings.ToLower(strings.TrimRight(first, " ")), "sep="); ok && len(rest) == 1 {
		return rest[0]
	}
	return 0
}

// next is the next record, or false at the end. Empty lines are no records.
func (s *splitter) next() (record, bool) {
	for s.peek() == '\n' {
		s.endLine()
	}
	if s.at == len(s.text) {
		return record{}, false
	}
	r := record{line: s.line}
	for {
		cell, fault := s.cell()
		if fault != nil {
			r.fault = fault
			s.endLine()
			return r, true
		}
		r.cells = append(r.cells, cell)
		if s.peek() != s.comma {
			s.endLine()
			return r, true
		}
		s.at++
	}
}

// peek is the next byte, or 0 at the end: a file with a 0 in it is no text.
func (s *splitter) peek() byte {
	if s.at == len(s.text) {
		return 0
	}
	return s.text[s.at]
}

// endLine goes on to the next line.
func (s *splitter) endLine() {
	i := strings.IndexByte(s.text[s.at:], '\n')
	if i < 0 {
		s.at = len(s.text)
		return
	}
	s.at += i + 1
	s.line++
}

// cell reads one cell, up to its separator or line end.
func (s *splitter) cell() (string, *Fault) {
	if s.peek() == '"' {
		return s.quoted()
	}
	return s.plain(), nil
}

func (s *splitter) plain() string {
	from := s.at
	for s.at < len(s.text) && s.text[s.at] != s.comma && s.text[s.at] != '\n' {
		s.at++
	}
	return s.text[from:s.at]
}

func (s *splitter) quoted() (string, *Fault) {
	open := s.line
	var b strings.Builder
	for {
		s.at++ // over the quote
		i := strings.IndexByte(s.text[s.at:], '"')
		if i < 0 {
			s.at = len(s.text)
			return "", &Fault{Line: open, Text: "a quote that is opened here and never closed", Do: doubleIt}
		}
		part := s.text[s.at : s.at+i]
		b.WriteString(part)
		s.line += strings.Count(part, "\n")
		s.at += i + 1
		if s.peek() != '"' {
			break
		}
		b.WriteByte('"')
	}
	if after := s.plain(); strings.TrimSpace(after) != "" {
		return "", &Fault{Line: s.line, Text: "text behind a closing quote: " + quote(after), Do: doubleIt}
	}
	return b.String(), nil
}

const doubleIt = `inside a quoted cell write "" for "`

// headReach is how many rows at the top are looked at for the header. Our own:
// sheets often start with a title and an empty line.
const headReach = 10

// sniff finds the separator and the header row: the one of the first rows that
// we know most columns of. It returns the splitter standing after that row.
func sniff(text string) (*splitter, *header, error) {
	commas := []byte{',', ';', '\t'}
	first, _, _ := strings.Cut(text, "\n")
	if c := declares(first); c == ',' || c == ';' || c == '\t' {
		commas = []byte{c}
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
	comma  byte
	row    int
	known  int // columns that we know
	header *header
}

func (g guess) betterThan(o guess) bool {
	return g.header != nil && (o.header == nil || g.known > o.known)
}

func guessHeader(text string, comma byte) guess {
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
