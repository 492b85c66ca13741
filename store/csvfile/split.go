package csvfile

import "strings"

// Record is one row of a file, not yet understood.
type Record struct {
	Line  int // where it starts, from 1
	Cells []string
	Fault *Fault // the row could not even be split
}

// Blank reports whether nothing stands in the row.
func (r Record) Blank() bool {
	for _, c := range r.Cells {
		if strings.TrimSpace(c) != "" {
			return false
		}
	}
	return r.Fault == nil
}

// Splitter cuts text into records as RFC 4180 has it, and takes one thing more: a
// quote inside a cell that is not quoted is part of the text, as growers write
// T. ionantha "Fuego". The standard library gives such a row up, and with it the
// line breaks in the quoted cells behind. Lines are counted as an editor counts
// them, quoted line breaks included.
type Splitter struct {
	text  string
	comma byte
	at    int // in text
	line  int // of at, from 1
}

// Split begins to cut a text whose cells are separated by comma. A first line that
// declares the separator is passed over.
func Split(text string, comma byte) *Splitter {
	s := &Splitter{text: text, comma: comma, line: 1}
	if Declared(text) != 0 {
		s.endLine()
	}
	return s
}

// Declared is the separator that a text's first line names, as "sep=;", or 0.
// Some spreadsheet programs write that.
func Declared(text string) byte {
	first, _, _ := strings.Cut(text, "\n")
	if rest, ok := strings.CutPrefix(strings.ToLower(strings.TrimRight(first, " ")), "sep="); ok && len(rest) == 1 {
		return rest[0]
	}
	return 0
}

// Next is the next record, or false at the end. Empty lines are no records.
func (s *Splitter) Next() (Record, bool) {
	for s.peek() == '\n' {
		s.endLine()
	}
	if s.at == len(s.text) {
		return Record{}, false
	}
	r := Record{Line: s.line}
	for {
		cell, fault := s.cell()
		if fault != nil {
			r.Fault = fault
			s.endLine()
			return r, true
		}
		r.Cells = append(r.Cells, cell)
		if s.peek() != s.comma {
			s.endLine()
			return r, true
		}
		s.at++
	}
}

// peek is the next byte, or 0 at the end: a file with a 0 in it is no text.
func (s *Splitter) peek() byte {
	if s.at == len(s.text) {
		return 0
	}
	return s.text[s.at]
}

// endLine goes on to the next line.
func (s *Splitter) endLine() {
	i := strings.IndexByte(s.text[s.at:], '\n')
	if i < 0 {
		s.at = len(s.text)
		return
	}
	s.at += i + 1
	s.line++
}

// cell reads one cell, up to its separator or line end.
func (s *Splitter) cell() (string, *Fault) {
	if s.peek() == '"' {
		return s.quoted()
	}
	return s.plain(), nil
}

func (s *Splitter) plain() string {
	from := s.at
	for s.at < len(s.text) && s.text[s.at] != s.comma && s.text[s.at] != '\n' {
		s.at++
	}
	return s.text[from:s.at]
}

func (s *Splitter) quoted() (string, *Fault) {
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
		return "", &Fault{Line: s.line, Text: "text behind a closing quote: " + Quote(after), Do: doubleIt}
	}
	return b.String(), nil
}

const doubleIt = `inside a quoted cell write "" for "`

// quotedRunes is how much of a cell is repeated in a message.
const quotedRunes = 40

// Quote repeats a cell in a message, on one line and cut short.
func Quote(cell string) string {
	r := []rune(strings.Join(strings.Fields(cell), " "))
	if len(r) > quotedRunes {
		r = append(r[:quotedRunes], '…')
	}
	return `"` + string(r) + `"`
}
