package model

import (
	"fmt"
	"math"
)

// Minutes says a length of time, given in minutes, to the minute: "45 min",
// "2 h 10 min", and from two days on to the hour, "3 d 4 h". Nothing lasts less
// than no time: where a clock was set back it is "0 min". Every sentence says
// lengths in this way.
func Minutes(minutes float64) string {
	m := int(math.Round(max(0, minutes)))
	switch h := m / 60; {
	case h >= 48:
		return withRest(h/24, "d", h%24, "h")
	case h > 0:
		return withRest(h, "h", m%60, "min")
	}
	return fmt.Sprintf("%d min", m)
}

func withRest(n int, unit string, rest int, restUnit string) string {
	if rest == 0 {
		return fmt.Sprintf("%d %s", n, unit)
	}
	return fmt.Sprintf("%d %s %d %s", n, unit, rest, restUnit)
}
