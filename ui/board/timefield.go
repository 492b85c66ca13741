package board

import (
	"fmt"
	"time"
)

// timeField is an hour of a day to be read from a form.
type timeField struct{ at *time.Time }

// read sets the hour on the day; an empty text leaves it to the house rules.
func (t timeField) read(text string, day time.Time) error {
	if text == "" {
		*t.at = time.Time{}
		return nil
	}
	for _, layout := range []string{"15:04", "15.04", "15"} {
		if hour, err := time.Parse(layout, text); err == nil {
			y, m, d := day.Date()
			*t.at = time.Date(y, m, d, hour.Hour(), hour.Minute(), 0, 0, day.Location())
			return nil
		}
	}
	return fmt.Errorf("%q is not an hour: write 09:00", text)
}
