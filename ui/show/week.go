package show

import (
	"fmt"

	"tubside/model/day"
)

// Moved says what moving a shelf to another day does to the week.
func Moved(m day.Moved) []string {
	words := []string{m.Is.Shelf + ": " + turnDays(m.Is) + " instead of " + turnDays(m.Was)}
	for _, d := range m.Days {
		text := fmt.Sprintf("%s: %s instead of %s, of %s", Line(string(d.Is.Day)), Minutes(d.Is.Needs*60), Minutes(d.Was.Needs*60),
			Minutes(d.Is.Has*60))
		switch {
		case !d.Is.Fits && d.Was.Fits:
			text += "; it does not fit any more"
		case d.Is.Fits && !d.Was.Fits:
			text += "; now it fits"
		case !d.Is.Fits:
			text += "; it does not fit"
		}
		words = append(words, text)
	}
	return words
}

func turnDays(t day.ShelfTurn) string {
	if t.Second == "" {
		return Line(string(t.Day))
	}
	return Line(string(t.Day)) + " and " + Line(string(t.Second))
}

// WantsOften says how often a plant wants a soak that no rhythm of a week holds.
func WantsOften(s day.ShortOf) string { return fmt.Sprintf("wants a soak every %.1f days", s.Days) }
