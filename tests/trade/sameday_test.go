package trade_test

import (
	"fmt"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/soak"
)

// Of a last soak told with the list the day alone is known, and a look may be known by its day alone as well. What is
// written after the list was brought in was seen after that soak, at whatever hour of that day, and counts. Common
// practice, no source.
func TestWhatIsSeenOnTheDayOfAToldSoakCounts(t *testing.T) {
	seen := model.Signs{Curl: 3, Tips: 2, Shift: model.NotSeen}
	for _, brought := range []float64{8, 18} { // hours of the day
		for _, looked := range []float64{6, 8.5, 12, 17.5} { // 12 is what a day without an hour is taken for
			for daysAgo := range 2 {
				c := &collection{t, model.NewBook(time.UTC)}
				c.importAt(model.AtHour(today, brought), fmt.Sprintf("name,last soak\n%q,%s\n", "T. stricta",
					today.AddDate(0, 0, -daysAgo).Format(time.DateOnly)))
				id := c.book.IDs()[0]
				c.enter(model.AtHour(today, looked), &model.Look{Signs: seen}, id)
				tagged := c.book.Row(id).Plant
				tagged.Label = "by the window" // which tells nothing new of the soak
				c.enter(model.AtHour(today, 19), &model.Edit{Plants: []model.Plant{tagged}})
				n, _ := advice.NeedOf(estimate.New(c.book), id, model.AtHour(today, 20))
				if n.Signs != seen || n.Band != soak.Overnight || n.DaysSince != daysAgo || !c.says(n, "rolled shut") {
					t.Errorf("brought in at %v h, seen at %v h, soaked %d days ago: %v, signs %v, %d days since: %v", brought, looked,
						daysAgo, n.Band, n.Signs, n.DaysSince, c.words(id, n.Reasons...))
				}
			}
		}
	}
}
