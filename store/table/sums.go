package table

import (
	"regexp"
	"strings"

	"tubside/store/csvfile"
)

var (
	// sumWords is what stands before the sum at the foot of a list, and what may stand
	// beside it.
	sumWords = regexp.MustCompile(`(?i)^(?:grand\s+|sub-?)?(?:totals?|sum|count|number of plants)\s*[:=]?\s*[0-9]*\s*(?:plants)?$`)
	numeric  = regexp.MustCompile(`^[0-9.,\s]*$`)
)

// sumOf is the words of a line that looks like a sum and not like a plant, "" for any
// other: such a word, and otherwise numbers alone.
func sumOf(rec csvfile.Record) string {
	found := ""
	for _, cell := range rec.Cells {
		switch cell = strings.TrimSpace(cell); {
		case numeric.MatchString(cell):
		case found == "" && sumWords.MatchString(cell):
			found = cell
		default:
			return ""
		}
	}
	return found
}

// sum deals with a line that looks like a sum, and reports whether it is left out.
func (rd *reader) sum(rec csvfile.Record) bool {
	words := sumOf(rec)
	if words == "" {
		return false
	}
	fault := Fault{Line: rec.Line, Text: quote(words) + " looks like a sum, not like a plant"}
	if rd.opt.LeaveOut {
		rd.sheet.Out.Add(fault)
		return true
	}
	rd.sheet.Sums.Add(fault)
	return false
}
