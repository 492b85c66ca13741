package show

import (
	"fmt"
	"strings"

	"tubside/model"
)

// Up to so many plants are named in a sentence while their names take no more than
// so many cells; the first always is. A choice.
const (
	mostNamed  = 3
	namesWidth = 24
)

// listWidth is how many cells a list of numbers may take in a sentence before
// it is counted instead. A choice.
const listWidth = 24

// Plants names plants in a sentence: "Fuego", "Spike, Fuego and Kurt", "Spike, Fuego
// and 138 more". The number stands behind a name that several have. No plants are "".
func Plants(ids model.IDs, b *model.Book) string {
	if len(ids) == 0 {
		return ""
	}
	text, named := plantName(ids[0], b), 1
	for named < min(len(ids), mostNamed) {
		next := plantName(ids[named], b)
		if Width(text)+len(", ")+Width(next) > namesWidth {
			break
		}
		if named++; named == len(ids) {
			return text + " and " + next
		}
		text += ", " + next
	}
	if more := len(ids) - named; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return text
}

// Everyone names all plants, as a list: "Spike, Fuego, Kurt".
func Everyone(ids model.IDs, b *model.Book) string {
	names := make([]string, len(ids))
	for i, id := range ids {
		names[i] = plantName(id, b)
	}
	return strings.Join(names, ", ")
}

// plantName is what stands on the tag, with the number where that alone does not tell
// which plant it is.
func plantName(id model.ID, b *model.Book) string {
	switch r := b.Row(id); {
	case r == nil:
		return id.String()
	case b.SharesTitle(id), r.Label == "" && r.Name == "":
		return numbered(r.Plant)
	default:
		return Title(r.Plant)
	}
}

// numbered is what stands on a plant's tag, with its number.
func numbered(p model.Plant) string {
	if p.Label == "" && p.Name == "" {
		return p.ID.String()
	}
	return fmt.Sprintf("%s (%d)", Title(p), p.ID)
}

// Title is what to call the plant, safe to draw.
func Title(p model.Plant) string { return Safe(p.Title()) }

// Came is when a plant came, as exactly as it is known: "31 Jan 2026", "Mar 2024",
// "2021"; "" when it is not known.
func Came(p model.Plant) string {
	if p.Acquired != 0 && p.AcquiredTo == "" {
		return model.DayWords(p.Acquired)
	}
	return p.Came()
}

// PadName cuts or fills a plant's name, or where it hangs, to exactly width cells. What is
// cut is the words before: the number at its end tells one from the next, "brachycau… 30",
// "upper ra… A16".
func PadName(name string, width int) string {
	at := strings.LastIndexByte(name, ' ')
	if at < 0 || Width(name) <= width || !strings.ContainsAny(name[at:], "0123456789") ||
		Width(name[at:]) > numberWidth || width < Width(name[at:])+3 {
		return Pad(name, width)
	}
	return Fit(name[:at], width-Width(name[at:])) + name[at:]
}

// numberWidth is the most cells of a number with the blank before it: " #1204", " B112".
const numberWidth = 6

// manyPlants is how many plants are only counted, not named by their numbers: a
// whole collection read in says no more by its range.
const manyPlants = 1000

// rows names the rows of an entry that carries them.
func rows(plants []model.Plant) string {
	switch {
	case len(plants) == 1:
		return numbered(plants[0])
	case len(plants) > manyPlants:
		return Count(len(plants), "plant")
	}
	ids := make(model.IDs, len(plants))
	for i, p := range plants {
		ids[i] = p.ID
	}
	if numbers := ids.String(); len(numbers) <= listWidth {
		return Count(len(plants), "plant") + ": " + numbers
	}
	return Count(len(plants), "plant")
}
