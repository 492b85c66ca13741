// Package model is the book's truth: plants, homes, entries, and the state
// they add up to. It does no arithmetic of water, no input or output, and reads
// no clock: every time comes in with an entry.
package model

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/rickb777/date/v2"
)

// Form is the growth form of a plant, in growers' words. The empty form means
// nobody has said; care then treats the plant as a rosette and says so.
type Form string

// The growth forms. Growers' words, not botany: they group plants by how they
// hold water and how they dry.
const (
	Rosette Form = "rosette"
	Bulbous Form = "bulbous"
	Wispy   Form = "wispy"   // thin-leaved
	Stemmed Form = "stemmed" // caulescent
	Fuzzy   Form = "fuzzy"
	Tank    Form = "tank"
	Pendent Form = "pendent"
)

// Forms lists every form, in the order a form field offers them.
var Forms = []Form{Rosette, Bulbous, Wispy, Stemmed, Fuzzy, Tank, Pendent}

// Leaf is the growers' scale of how dry a habitat the leaf is made for.
type Leaf string

// The leaf types, from thin and green to thick and silver.
const (
	Mesic        Leaf = "mesic"
	Intermediate Leaf = "intermediate"
	Xeric        Leaf = "xeric"
)

// Leaves lists every leaf type, in the order a form field offers them.
var Leaves = []Leaf{Mesic, Intermediate, Xeric}

// ParseForm reads a form by its word, its first letters, or the botanical word
// growers also use. An unknown word is a [Problem] that lists the choices.
func ParseForm(s string) (Form, error) {
	s = strings.ToLower(strings.TrimSpace(s))
	switch s {
	case "":
		return "", nil
	case "caulescent", "stem":
		return Stemmed, nil
	case "thin", "thin-leaved", "grassy":
		return Wispy, nil
	case "pseudobulbous", "bulb":
		return Bulbous, nil
	case "hanging", "pendant":
		return Pendent, nil
	}
	return oneOf("form", s, Forms)
}

// ParseLeaf reads a leaf type by its word or its first letters.
func ParseLeaf(s string) (Leaf, error) {
	s = strings.ToLower(strings.TrimSpace(s))
	if s == "" {
		return "", nil
	}
	return oneOf("leaf", s, Leaves)
}

// oneOf finds the only choice that starts with s.
func oneOf[T ~string](what, s string, choices []T) (T, error) {
	var found []T
	for _, c := range choices {
		if strings.HasPrefix(string(c), s) {
			found = append(found, c)
		}
	}
	if len(found) == 1 {
		return found[0], nil
	}
	words := make([]string, len(choices))
	for i, c := range choices {
		words[i] = string(c)
	}
	return "", &Problem{
		What: fmt.Sprintf("%s %q is not one of the %s words", what, s, what),
		Do:   "use " + strings.Join(words, ", "),
	}
}

// Home is the place a plant goes back to.
type Home struct {
	Shelf string `json:"shelf,omitempty"`
	Spot  string `json:"spot,omitempty"`
}

// String is the home as it stands on a label: "A 12".
func (h Home) String() string {
	return strings.TrimSpace(h.Shelf + " " + h.Spot)
}

// Assumed says which facts of a plant the grower did not give and the species
// list filled in.
type Assumed struct {
	Form bool `json:"form,omitempty"`
	Leaf bool `json:"leaf,omitempty"`
	Size bool `json:"size,omitempty"`
}

// Any reports whether anything was assumed.
func (a Assumed) Any() bool { return a.Form || a.Leaf || a.Size }

// Plant is one row of the collection as the grower describes it: a single
// plant, a clump, or a tray of Count alike.
type Plant struct {
	ID    ID      `json:"id"`
	Label string  `json:"label,omitempty"`    // what is written on the tag
	Name  string  `json:"name,omitempty"`     // species or cultivar as received
	Now   string  `json:"name_now,omitempty"` // what the grower takes it to be now, where that differs
	Form  Form    `json:"form,omitempty"`
	Leaf  Leaf    `json:"leaf,omitempty"`
	Size  float64 `json:"size_cm,omitempty"` // span in cm; 0 unknown
	Count int     `json:"count"`             // plants in this row, at least 1
	Home  Home    `json:"home,omitzero"`
	// Acquired is the day the plant came; the zero Date means unknown.
	Acquired date.Date `json:"acquired,omitempty"`
	// AcquiredTo is how exactly Acquired is known.
	AcquiredTo Exact `json:"acquired_to,omitempty"`
	// SoakedOn is the last soak as told when the plant came into the book; the
	// zero Date means unknown. Later soaks are entries.
	SoakedOn date.Date `json:"soaked_on,omitempty"`
	// FedOn is the last feed as told when the plant came into the book; the zero
	// Date means unknown. Later feeds are entries.
	FedOn date.Date `json:"fed_on,omitempty"`
	// NewOn is the day its quarantine began, as told; the zero Date means none.
	NewOn  date.Date `json:"new_on,omitempty"`
	Mother ID        `json:"mother,omitempty"` // the plant it was taken off; 0 unknown
	// MistOnly marks a plant that the grower never soaks, as one in a pot: it is misted
	// on rounds, and a soak by hand is asked about.
	MistOnly bool    `json:"mist_only,omitempty"`
	Note     string  `json:"note,omitempty"`
	Assumed  Assumed `json:"assumed,omitzero"`
}

// Limits of what a row may hold. A choice: wide enough for any home, narrow
// enough to catch a slipped digit or two columns swapped.
const (
	MaxCount  = 10000
	MaxSizeCM = 300.0
	MaxText   = 2000 // characters in a note; labels and names are cut shorter on screen
)

// TooLong reports whether a text has more than [MaxText] characters, as a person
// counts them: 2000 letters of any script fit.
func TooLong(text string) bool { return utf8.RuneCountInString(text) > MaxText }

// Title is what to call the plant in a sentence or a list: its label, else its
// name, else its number.
func (p Plant) Title() string {
	switch {
	case p.Label != "":
		return p.Label
	case p.Name != "":
		return p.Name
	}
	return "#" + p.ID.String()
}

// check reports the first thing about the row that cannot be.
func (p Plant) check() error {
	switch {
	case p.ID == 0:
		return &Problem{What: "a plant without a number", Do: "number plants from 1"}
	case p.ID > MaxID:
		return &Problem{What: fmt.Sprintf("plant number %d", p.ID), Do: fmt.Sprintf("numbers go up to %d", MaxID)}
	case p.Count < 1 || p.Count > MaxCount:
		return &Problem{
			What: fmt.Sprintf("plant %d: count %d", p.ID, p.Count),
			Do:   fmt.Sprintf("count is 1 to %d", MaxCount),
		}
	case p.Size < 0 || p.Size > MaxSizeCM || p.Size != p.Size:
		return &Problem{
			What: fmt.Sprintf("plant %d: size %g cm", p.ID, p.Size),
			Do:   fmt.Sprintf("size is the span in cm, up to %g", MaxSizeCM),
		}
	case p.Form != "" && !slices.Contains(Forms, p.Form):
		return &Problem{What: fmt.Sprintf("plant %d: form %q", p.ID, p.Form), Do: "use one of the form words"}
	case p.Leaf != "" && !slices.Contains(Leaves, p.Leaf):
		return &Problem{What: fmt.Sprintf("plant %d: leaf %q", p.ID, p.Leaf), Do: "use mesic, intermediate or xeric"}
	case p.AcquiredTo != "" && (p.Acquired == 0 || p.AcquiredTo != ToMonth && p.AcquiredTo != ToYear):
		return &Problem{What: fmt.Sprintf("plant %d: acquired to the %q", p.ID, p.AcquiredTo), Do: "use month or year, with a day"}
	case p.Mother == p.ID || p.Mother > MaxID:
		return &Problem{
			What: fmt.Sprintf("plant %d: mother %d", p.ID, p.Mother),
			Do:   "give the number of the plant it was taken off",
		}
	case slices.ContainsFunc([]string{p.Note, p.Label, p.Name, p.Now}, TooLong):
		return &Problem{
			What: fmt.Sprintf("plant %d: a text of more than %d characters", p.ID, MaxText),
			Do:   "shorten it",
		}
	}
	return nil
}
