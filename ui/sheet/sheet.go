// Package sheet is what goes on paper: a titled page of sections, as plain text
// and as one HTML file that needs nothing beside itself. Its table is the one
// the shell prints.
package sheet

// Sheet is one printed page, or a few.
type Sheet struct {
	Title    string
	Under    []string // lines under the title: for whom, from when to when
	Sections []Section
	Foot     string // the last line; may be empty
}

// Section is a titled part of a sheet. The title may be empty.
type Section struct {
	Title  string
	Blocks []Block
}

// Add puts a section at the end of the sheet.
func (s *Sheet) Add(title string, blocks ...Block) {
	s.Sections = append(s.Sections, Section{title, blocks})
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
	Text []string // lines already drawn to fit
}

func (Words) shape() string    { return "words" }
func (Points) shape() string   { return "points" }
func (Ticks) shape() string    { return "ticks" }
func (Blanks) shape() string   { return "blanks" }
func (Cautions) shape() string { return "cautions" }
func (Drawing) shape() string  { return "drawing" }
func (*Table) shape() string   { return "table" }
