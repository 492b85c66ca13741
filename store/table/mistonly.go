package table

import (
	"fmt"
	"regexp"
	"strings"

	"tubside/model"
)

// noSoak is how growers write into a note that a plant is never soaked. It only raises
// a question: what a note means is for its grower to say.
var noSoak = regexp.MustCompile(`(?i)\b(?:do\s*n[o'’]?t|never|no|not)\s+(?:to\s+be\s+)?(?:soak|dunk|submerge)` +
	`|\bmist(?:ing)?\s+only\b|\b(?:only|just)\s+mist`)

// mistNote is the line of a note that says not to soak the plant, "" where none does.
func mistNote(note string) string {
	for line := range strings.SplitSeq(note, "\n") {
		if noSoak.MatchString(line) {
			return strings.TrimSpace(line)
		}
	}
	return ""
}

// mistOnly is what a row says of whether a plant is ever soaked. A note that says so is
// asked about once: not where a column tells, and not again when it is as it was.
func (p *planner) mistOnly(plant *model.Plant, was model.Plant, r row) {
	switch r.mistOnly {
	case yes:
		plant.MistOnly = true
	case no:
		plant.MistOnly = false
	case unanswered:
		said := mistNote(plant.Note)
		if said == "" || plant.MistOnly || plant.Note == was.Note {
			return
		}
		p.sum.NoSoak.Add(Fault{Line: r.line, Text: plainText(plant.Title(), false) + " " + quote(said)})
		plant.MistOnly = p.sheet.byNote
	}
}

// mostNoted is how many plants whose note says not to soak them are named.
const mostNoted = 4

// NoSoakWords names the plants whose note says not to soak them, each with what it says;
// "" when there are none.
func (s Summary) NoSoakWords() string {
	var words []string
	for _, f := range s.NoSoak[:min(len(s.NoSoak), mostNoted)] {
		words = append(words, f.Text)
	}
	if more := s.NoSoak.Count() - len(words); more > 0 {
		words = append(words, fmt.Sprintf("and %d more", more))
	}
	return strings.Join(words, ", ")
}
