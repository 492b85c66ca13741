package show

import (
	"fmt"
	"math"

	"tubside/model/estimate"
)

// AirSource says where an expected air comes from.
func AirSource(a estimate.ExpectedAir) string {
	switch a.Source {
	case estimate.FromLastYear:
		return "as at this season last year"
	case estimate.FromLately:
		return "as it has been lately"
	case estimate.FromGrower:
		return "as you expect it"
	}
	return "assumed: the book has no readings"
}

// AirCompared says how the air is beside an earlier month: "your air is 1.6
// times as thirsty as in October".
func AirCompared(c estimate.AirCompared) string {
	month := c.Then.First.Month().String()
	if c.Then.First.Year() != c.Now.Last.Year() && c.Then.First.Month() == c.Now.Last.Month() {
		month += " a year ago"
	}
	if math.Abs(math.Log(c.Ratio)) < math.Log(1.05) {
		return "your air is about as thirsty as in " + month
	}
	return fmt.Sprintf("your air is %.1f times as thirsty as in %s", c.Ratio, month)
}

// AirInterval says what that does to a week between soaks, as a hint.
func AirInterval(c estimate.AirCompared) string {
	return fmt.Sprintf("what lasted 7 days then lasts about %.0f days now", 7/c.Ratio)
}
