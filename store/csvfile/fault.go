// Package csvfile reads text files of rows and cells as spreadsheet programs and
// loggers write them: any of their encodings, line ends and separators, and the
// quotes people leave in. It knows nothing of what the cells say.
package csvfile

import (
	"fmt"
	"slices"
	"strings"
)

// Fault is one thing in a file that cannot be taken.
type Fault struct {
	Line  int    // in the file, from 1; 0 when it is about the whole file
	Field string // the column as the file calls it; empty when it is about the whole line
	Text  string // what is wrong
	Do    string // what the person can do
}

// String is the fault on one line: `line 17, size: "big" is not a size; ...`.
func (f Fault) String() string {
	var where []string
	if f.Line > 0 {
		where = append(where, fmt.Sprintf("line %d", f.Line))
	}
	if f.Field != "" {
		where = append(where, f.Field)
	}
	text := f.Text
	if len(where) > 0 {
		text = strings.Join(where, ", ") + ": " + text
	}
	if f.Do != "" {
		text += "; " + f.Do
	}
	return text
}

// Faults is everything in a file that cannot be taken, in the order of the
// lines. While there is one, nothing of the file is taken.
type Faults []Fault

// Error lists every fault on a line of its own.
func (fs Faults) Error() string { return strings.Join(fs.Lines(), "\n") }

// Lines says every fault by itself.
func (fs Faults) Lines() []string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.String()
	}
	return lines
}

// OrNil is the faults as an error, sorted by line, or nil when there are none.
func (fs Faults) OrNil() error {
	if len(fs) == 0 {
		return nil
	}
	slices.SortStableFunc(fs, func(a, b Fault) int { return a.Line - b.Line })
	return fs
}

// WholeFile is a fault of the whole file.
func WholeFile(text, do string) error { return Faults{{Text: text, Do: do}} }
