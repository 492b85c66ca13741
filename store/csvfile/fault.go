// Package csvfile reads text files of rows and cells as spreadsheet programs and
// loggers write them: any of their encodings, line ends and separators, and the
// quotes people leave in. It knows nothing of what the cells say.
package csvfile

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Fault is one thing in a file that cannot be taken.
type Fault struct {
	Line  int    // in the file, from 1; 0 when it is about the whole file
	Field string // the column as the file calls it; empty when it is about the whole line
	Text  string // what is wrong
	Do    string // what the person can do
	More  int    // lines with more of them, not listed
}

// String is the fault on one line: `line 17, size: "big" is not a size; ...`.
func (f Fault) String() string {
	if f.More > 0 {
		return f.others()
	}
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

// others says how many faults are not listed.
func (f Fault) others() string {
	text := fmt.Sprintf("and %d more", f.More)
	if f.Field != "" {
		text += " in " + f.Field
	}
	return text
}

// mostFaults is how many faults are kept: more than any list that was
// kept by hand has, and few enough to hold.
const mostFaults = 10_000

// Add notes a fault: the first ten thousand as they are, of those after only how
// many there are in each column.
func (fs *Faults) Add(f Fault) {
	if !fs.Full() {
		*fs = append(*fs, f)
		return
	}
	for i := mostFaults; i < len(*fs); i++ {
		if (*fs)[i].Field == f.Field {
			(*fs)[i].More++
			return
		}
	}
	*fs = append(*fs, Fault{Line: math.MaxInt, Field: f.Field, More: 1})
}

// Full reports whether further faults are only counted.
func (fs Faults) Full() bool { return len(fs) >= mostFaults }

// Count is how many faults there are, those that are not listed among them.
func (fs Faults) Count() int {
	n := min(len(fs), mostFaults)
	for _, f := range fs[n:] {
		n += f.More
	}
	return n
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
