package show

import (
	"fmt"
	"strings"

	"tubside/model"
)

// Up to so many plants are named in a sentence while their names take no more than
// so many cells, and more are counted. A choice.
const (
	mostNamed  = 3
	namesWidth = 24
)

// listWidth is how many cells a list of numbers may take in a sentence before
// it is counted instead. A choice.
const listWidth = 24

// Plants names plants in a sentence: "17 (Fuego)" for one, "3 (Spike), 17 (Fuego)"
// while they are few, else "140 plants". No plants are "".
func Plants(ids model.IDs, b *model.Book) string {
	if len(ids) == 0 {
		return ""
	}
	var names []string
	for _, id := range ids[:min(len(ids), mostNamed)] {
		if r := b.Row(id); r != nil {
			names = append(names, rowName(r.Plant))
		} else {
			names = append(names, id.String())
		}
	}
	text := strings.Join(names, ", ")
	if len(ids) == 1 || len(ids) <= mostNamed && Width(text) <= namesWidth {
		return text
	}
	return Count(len(ids), "plant")
}

// rowName is a plant's number with what stands on its tag.
func rowName(p model.Plant) string {
	if p.Label == "" && p.Name == "" {
		return p.ID.String()
	}
	return fmt.Sprintf("%d (%s)", p.ID, Title(p))
}

// Title is what to call the plant, safe to draw.
func Title(p model.Plant) string { return Safe(p.Title()) }

// manyPlants is how many plants are only counted, not named by their numbers: a
// whole collection read in says no more by its range.
const manyPlants = 1000

// rows names the rows of an entry that carries them.
func rows(plants []model.Plant) string {
	switch {
	case len(plants) == 1:
		return rowName(plants[0])
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
