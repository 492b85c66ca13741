package csvfile

import (
	"fmt"
	"regexp"
	"strings"
)

const (
	// few is how many faults of one kind are said one by one.
	few = 3

	// mostRuns is how many runs of lines are named before the rest is counted.
	mostRuns = 12
)

// Grouped says every fault, those of one kind in one line with the lines they
// stand in: a column of days that cannot be read is one fault, not seventy.
func (fs Faults) Grouped() []string {
	groups := map[string]Faults{}
	for _, f := range fs {
		groups[f.kind()] = append(groups[f.kind()], f)
	}
	var words []string
	for _, f := range fs {
		switch group := groups[f.kind()]; {
		case len(group) <= few:
			words = append(words, f.String())
		case group[0] == f:
			words = append(words, group.together())
		}
	}
	return words
}

// kind is what is alike in faults of one kind: all but the line, and of the cell its
// looks: "21/11" and "3/4" are alike, "last Sat" is not.
func (f Fault) kind() string {
	text := f.Text
	if first, last := strings.IndexByte(text, '"'), strings.LastIndexByte(text, '"'); first >= 0 && last > first {
		text = text[:first] + looksOf(text[first:last+1]) + text[last+1:]
	}
	return f.Field + "\x00" + text + "\x00" + f.Do
}

var (
	digitRuns  = regexp.MustCompile(`[0-9]+`)
	letterRuns = regexp.MustCompile(`\pL+`)
)

// looksOf is a cell with every number and every word alike.
func looksOf(cell string) string {
	return digitRuns.ReplaceAllString(letterRuns.ReplaceAllString(cell, "a"), "0")
}

// together is a group in one line.
func (fs Faults) together() string {
	f := fs[0]
	text := fmt.Sprintf("%d lines like this: %s", len(fs), f.Text)
	if f.Field != "" {
		text = fmt.Sprintf("%s: %d cells like this: %s", f.Field, len(fs), f.Text)
	}
	if f.Do != "" {
		text += "; " + f.Do
	}
	return text + " (" + fs.lines() + ")"
}

// lines names the lines, runs of them as "2-40".
func (fs Faults) lines() string {
	var runs []string
	for i := 0; i < len(fs); {
		j := i
		for j+1 < len(fs) && fs[j+1].Line <= fs[j].Line+1 {
			j++
		}
		if len(runs) == mostRuns {
			return fmt.Sprintf("lines %s and %d more", strings.Join(runs, ", "), len(fs)-i)
		}
		if run := fmt.Sprint(fs[i].Line); fs[j].Line > fs[i].Line {
			runs = append(runs, fmt.Sprintf("%s-%d", run, fs[j].Line))
		} else {
			runs = append(runs, run)
		}
		i = j + 1
	}
	return "lines " + strings.Join(runs, ", ")
}
