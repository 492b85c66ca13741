package care_test

import (
	"fmt"
	"testing"

	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/model/care"
)

// BenchmarkForecast forecasts twelve days for a shelf of greens and one of silver
// plants; BenchmarkHomecoming comes home to them.
func BenchmarkForecast(b *testing.B) {
	for _, n := range []int{640, 5000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			k := care.New(crowd(b, n).Book)
			for b.Loop() {
				k.Forecast(day(6, 9), day(7, 8), day(19, 8), care.AirGiven(21, 40))
			}
		})
	}
}

func BenchmarkHomecoming(b *testing.B) {
	for _, n := range []int{640, 5000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			h := crowd(b, n)
			h.say(day(6, 9), &model.Trip{From: day(7, 8), Until: day(19, 8)})
			k := care.New(h.Book)
			for b.Loop() {
				k.Homecoming(day(20, 9))
			}
		})
	}
}

// crowd is n plants of every form and leaf, soaked on different days.
func crowd(b *testing.B, n int) household {
	b.Helper()
	h := newHousehold(b)
	plants := make([]model.Plant, n)
	for i := range plants {
		plants[i] = model.Plant{
			ID: model.ID(i + 1), Count: 1, Form: model.Forms[i%len(model.Forms)], Leaf: model.Leaves[i%len(model.Leaves)],
			Size: float64(5 + i%40), SoakedOn: date.NewAt(day(1, 12)) - date.Date(i%20),
		}
	}
	h.say(day(1, 8), &model.Add{Plants: plants})
	return h
}
