package show

import (
	"fmt"
	"time"

	"tubside/model"
)

// readingsSentence says how much of the room's past a logger told.
func readingsSentence(f *model.Readings, b *model.Book) string {
	text := Count(f.Len(), "reading")
	if f.Len() > 0 {
		text += fmt.Sprintf(" from %s to %s", Date(f.At(0).At, b.Zone()), Date(f.At(f.Len()-1).At, b.Zone()))
	}
	if f.File == "" {
		return text
	}
	return Safe(f.File) + ": " + text
}

// stamp is a moment with its date, in the grower's zone.
func stamp(t time.Time, b *model.Book) string { return t.In(b.Zone()).Format(model.MomentLayout) }
