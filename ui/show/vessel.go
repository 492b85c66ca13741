package show

import (
	"fmt"
	"slices"
	"strings"

	"tubside/model"
)

// vesselSentence says what an entry tells of a vessel.
func vesselSentence(f *model.VesselSet, rules model.Rules) string {
	if f.Away {
		return Safe(f.Name) + " put away"
	}
	text := Safe(f.Name) + " holds " + Volume(f.Litres, rules)
	if f.Refill > 0 {
		text += fmt.Sprintf(", %g min to refill", f.Refill)
	}
	if f.Loads > 0 {
		text += fmt.Sprintf(", %s to a fill", Count(f.Loads, "load"))
	}
	if f.Hours > 0 {
		text += fmt.Sprintf(", for %g h", f.Hours)
	}
	if f.Fed {
		text += ", for fed water only"
	}
	return text
}

// benchSentence says what an entry tells of a drying place.
func benchSentence(f *model.BenchSet) string {
	if f.Away {
		return Safe(f.Name) + " put away"
	}
	text := fmt.Sprintf("%s has %g m² to dry on", Safe(f.Name), f.Room)
	switch {
	case f.Factor > 0:
		text += fmt.Sprintf(", drying takes %g times as long", f.Factor)
	case f.Fan != "":
		text += ", " + Fan(f.Fan)
	}
	return text
}

// shelfDaysSentence says on which days shelves are soaked.
func shelfDaysSentence(f *model.ShelfDays) string {
	var parts []string
	for shelf, day := range f.Days {
		if day == "" {
			day = "no day"
		}
		name := Safe(shelf)
		if name == "" {
			name = "no shelf"
		}
		parts = append(parts, name+" "+string(day))
	}
	slices.SortFunc(parts, model.NaturalCompare)
	return "soak days: " + strings.Join(parts, ", ")
}
