// Package table brings a collection in from a CSV file as growers keep them,
// and writes one that reads back as it was.
package table

import (
	"fmt"
	"io"
	"strings"

	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/store/csvfile"
)

// ReadOptions say how to read a file.
type ReadOptions struct {
	// Dates says which of day and month comes first in dates like 3/4/2026. When
	// it says nothing, each column is asked: 28/2/2026 in one cell tells it for
	// all. ISO dates, and months by name, are always read.
	Dates model.DayOrder

	// Today is the day of the reading: a day without its year is the latest such day
	// not after it. When it says nothing, such days cannot be read.
	Today date.Date

	// Yearless takes a day without its year and without the month's name, 21/11, for the
	// latest such day, where the column tells which of the two is the day. When a plant was
	// bought is not read so.
	Yearless bool

	// LeaveEmpty takes cells that cannot be read for empty, and lists them in
	// [Sheet.Left]; what they say is kept in the note. A cell that is
	// one answer away from being read ([Answerable]) is not among them. A line that cannot be
	// split, has no name, or has another's number is still refused.
	LeaveEmpty bool

	// LeaveOut takes no plant from a line that says neither label nor name, nor from one
	// that looks like a sum, and lists such lines in [Sheet.Out].
	LeaveOut bool

	// MistOnly takes plants for mist only whose note says not to soak them, where no
	// column says whether they are. With and without it they are named in [Summary.NoSoak].
	MistOnly bool

	// Progress, if set, is called now and then with how much is done of how
	// much, in lines of the file.
	Progress func(done, total int)
}

// Sheet is a file read and understood, not yet compared with a book.
type Sheet struct {
	rows     []row
	has      [fieldCount_]bool // the columns there are
	Ignored  []string          // headers of columns that mean nothing to us
	Unused   []string          // the same, each with the header that would do, if one is near
	Warnings []string          // what was read but looks odd
	Left     Faults            // cells taken for empty, for they could not be read
	Out      Faults            // lines of which no plant is taken
	Sums     Faults            // lines of which a plant is taken that look like a sum
	byNote   bool              // a note that says not to soak makes a plant mist only
}

// Len is the number of plants (rows) in the file.
func (s Sheet) Len() int { return len(s.rows) }

// row is one line of the file. What a cell does not say is the zero value, but
// for bloom and health, which know none from not said.
type row struct {
	model.Plant
	line     int
	numbered bool // the file gives the number
	bloom    bloom
	health   health
	mistOnly answer
	gone     bool     // an export of everything also lists the plants that left
	unread   []string // cells taken for empty, each with its column
}

// Read reads a whole file: separated by comma, semicolon or tab, in UTF-8,
// UTF-16 or Windows-1252, with a header line whose columns may come in any order
// and under many names. What cannot be taken comes back all at once as [Faults].
func Read(r io.Reader, opt ReadOptions) (Sheet, error) {
	text, err := csvfile.Text(r)
	if err != nil {
		return Sheet{}, err
	}
	split, head, err := sniff(text)
	if err != nil {
		return Sheet{}, err
	}
	rd := &reader{header: head, opt: opt, unit: headerUnit(head.title(fieldSize)), ids: map[model.ID]int{}}
	rd.sheet.Ignored, rd.sheet.Unused, rd.sheet.byNote = head.ignored, head.unused, opt.MistOnly
	for f := range head.at {
		rd.sheet.has[f] = head.has(field(f))
	}
	rd.readRows(split, strings.Count(text, "\n")+1)
	rd.noteLost(text)
	rd.sheet.Warnings = append(rd.sheet.Warnings, rd.supposed.Grouped()...)
	return rd.sheet, rd.faults.OrNil()
}

// reader reads the rows under one header.
type reader struct {
	*header
	opt    ReadOptions
	unit   string // of sizes without one
	sheet  Sheet
	faults Faults
	ids    map[model.ID]int // numbers seen, and the line
	orders [fieldCount_]model.DayOrder

	supposed Faults // days read without their year
}

// progressEvery is how many rows pass between two reports.
const progressEvery = 256

func (rd *reader) readRows(split *csvfile.Splitter, total int) {
	var recs []csvfile.Record // a column's days are read by the whole column
	for {
		rec, more := split.Next()
		if !more {
			break
		}
		recs = append(recs, rec)
	}
	rd.learnDays(recs)
	for n, rec := range recs {
		if n%progressEvery == 0 {
			rd.report(rec.Line, total)
		}
		switch {
		case rec.Fault != nil:
			rd.faults.Add(*rec.Fault)
		case !rec.Blank() && !rd.isHeader(rec) && !rd.sum(rec):
			rd.readRow(rec)
		}
	}
	rd.report(total, total)
}

func (rd *reader) report(done, total int) {
	if rd.opt.Progress != nil {
		rd.opt.Progress(done, total)
	}
}

// isHeader reports a header line repeated further down, as between the pages
// of a printed list.
func (rd *reader) isHeader(rec csvfile.Record) bool {
	if len(rec.Cells) != len(rd.cells) {
		return false
	}
	for i, c := range rec.Cells {
		if headerKey(c) != headerKey(rd.cells[i]) {
			return false
		}
	}
	return true
}

func (rd *reader) readRow(rec csvfile.Record) {
	r := row{line: rec.Line}
	for i := len(rd.cells); i < len(rec.Cells); i++ {
		if strings.TrimSpace(rec.Cells[i]) != "" {
			rd.fault(rec.Line, "", fmt.Sprintf("%d cells under %d headers", len(rec.Cells), len(rd.cells)),
				"put a text with the separator in it in quotes")
			return
		}
	}
	before := rd.faults.Count()
	for f, column := range rd.at {
		if column >= 0 && column < len(rec.Cells) {
			if err := rd.readCell(&r, field(f), rec.Cells[column]); err != nil {
				rd.refuse(&r, field(f), rec.Cells[column], err)
			}
		}
	}
	if r.Mother != 0 && r.Mother == r.ID {
		rd.fault(rec.Line, rd.title(fieldMother), fmt.Sprintf("plant %d would be its own mother", r.ID),
			"give the number of the plant it was taken off, or leave the cell empty")
	}
	if r.ID == 0 && r.Label == "" && r.Name == "" && rd.faults.Count() == before {
		if rd.opt.LeaveOut {
			rd.sheet.Out.Add(Fault{Line: rec.Line, Text: noName})
			return
		}
		rd.fault(rec.Line, "", noName, "say what the plant is, or take the line out")
	}
	if !rd.faults.Full() { // of a file that is not taken
		rd.sheet.rows = append(rd.sheet.rows, r)
	}
}

// noName is what is wrong with a line that names no plant.
const noName = "neither a label nor a name"

// NoName counts the faults that are lines which name no plant.
func NoName(faults Faults) (n int) {
	for _, f := range faults {
		if f.Text == noName {
			n++
		}
	}
	return n
}

// readCell reads one cell into the row.
func (rd *reader) readCell(r *row, f field, cell string) (err error) {
	switch f {
	case fieldLabel, fieldName, fieldNow, fieldShelf, fieldSpot, fieldNote:
		return readTextCell(r, f, cell)
	case fieldGone:
		r.gone = said(cell)
		return nil
	}
	if !said(cell) {
		return nil
	}
	cell = plainText(cell, false)
	switch f {
	case fieldID:
		return rd.readID(r, cell)
	case fieldForm:
		r.Form, err = model.ParseForm(cell)
	case fieldLeaf:
		r.Leaf, err = model.ParseLeaf(cell)
	case fieldSize:
		r.Size, err = parseSize(cell, rd.unit)
	case fieldCount:
		r.Count, err = parseCount(cell)
	case fieldAcquired:
		if day, exact, ok := model.ParsePeriod(cell, rd.opt.Today); ok && rd.opt.Today != 0 {
			r.Acquired, r.AcquiredTo = day, exact
			return nil
		}
		r.Acquired, err = rd.day(r.line, f, cell)
	case fieldSoaked:
		r.SoakedOn, err = rd.day(r.line, f, cell)
	case fieldFed:
		r.FedOn, err = rd.day(r.line, f, cell)
	case fieldNew:
		r.NewOn, err = rd.newOn(r.line, cell)
	case fieldMother:
		r.Mother, err = parseNumber(cell)
	case fieldAssumed:
		r.Assumed, err = parseAssumed(cell)
	case fieldBloom:
		r.bloom, err = readBloom(cell)
	case fieldRot:
		r.health.rot, err = readAnswer(cell, "write yes while rot is suspected, else no")
	case fieldTroubles:
		r.health.troubles, err = readTroubles(cell)
	case fieldOffsets:
		r.health.offsets, err = readOffsets(cell)
	case fieldFading:
		r.health.fading, err = readAnswer(cell, "write yes while the mother is giving out, else no")
	case fieldMistOnly:
		r.mistOnly, err = readAnswer(cell, "write yes for a plant that is never soaked, else no")
	}
	return err
}

// textOf is where a row keeps a field of text.
func textOf(p *model.Plant, f field) *string {
	switch f {
	case fieldLabel:
		return &p.Label
	case fieldName:
		return &p.Name
	case fieldNow:
		return &p.Now
	case fieldShelf:
		return &p.Home.Shelf
	case fieldSpot:
		return &p.Home.Spot
	}
	return &p.Note
}

func readTextCell(r *row, f field, cell string) error {
	text := rearm(plainText(cell, f == fieldNote))
	if model.TooLong(text) {
		return &model.Problem{What: fmt.Sprintf("a text of more than %d characters", model.MaxText), Do: "shorten it"}
	}
	*textOf(&r.Plant, f) = text
	return nil
}

func (rd *reader) readID(r *row, cell string) error {
	id, err := parseNumber(cell)
	if err != nil {
		return err
	}
	if line := rd.ids[id]; line != 0 {
		return &model.Problem{
			What: fmt.Sprintf("plant %d stands in line %d already", id, line),
			Do:   "give each plant its own number, or leave the cell empty",
		}
	}
	rd.ids[id], r.ID, r.numbered = r.line, id, true
	return nil
}

// refuse notes a cell that cannot be taken.
func (rd *reader) refuse(r *row, f field, cell string, err error) {
	fault := Fault{Line: r.line, Field: rd.title(f), Text: err.Error()}
	if p, ok := model.AsProblem(err); ok {
		fault.Text, fault.Do = p.What, p.Do
	}
	if rd.opt.LeaveEmpty && f != fieldID && !Answerable(fault) {
		rd.sheet.Left.Add(fault)
		r.unread = append(r.unread, rd.title(f)+": "+plainText(cell, false))
		return
	}
	rd.faults.Add(fault)
}

func (rd *reader) fault(line int, name, text, do string) {
	rd.faults.Add(Fault{Line: line, Field: name, Text: text, Do: do})
}

// noteLost warns of characters that no encoding could make sense of.
func (rd *reader) noteLost(text string) {
	n := strings.Count(text, "\ufffd")
	if n == 0 {
		return
	}
	before, _, _ := strings.Cut(text, "\ufffd")
	rd.sheet.Warnings = append(rd.sheet.Warnings, fmt.Sprintf(
		"line %d: a character could not be read and stands as \ufffd (%d such in the file); save the file as UTF-8", strings.Count(before, "\n")+1, n))
}
