package advice

import (
	"strconv"
	"time"

	"tubside/model"
)

// DaysWords rounds down as people do: yesterday evening is 0 days.
func DaysWords(days float64) string {
	switch d := int(days); d {
	case 0:
		return "less than a day"
	case 1:
		return "1 day"
	default:
		return strconv.Itoa(d) + " days"
	}
}

// AgoWords is a length of time as people say it: minutes and hours on the same
// day, else whole days.
func AgoWords(d time.Duration) string {
	if d < 24*time.Hour {
		return model.Minutes(d.Minutes())
	}
	return DaysWords(d.Hours() / 24)
}
