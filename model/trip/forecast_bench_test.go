package trip_test

import (
	"fmt"
	"testing"

	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/trip"
	"tubside/tests/household"
)

// BenchmarkForecast forecasts twelve days for a shelf of greens and one of silver
// plants; BenchmarkHomecoming comes home to them.
func BenchmarkForecast(b *testing.B) {
	for _, n := range []int{640, 5000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			k := estimate.New(crowd(b, n).Book)
			for b.Loop() {
				trip.NewForecast(k, may(6, 9), may(7, 8), may(19, 8), estimate.AirGiven(21, 40))
			}
		})
	}
}

func BenchmarkHomecoming(b *testing.B) {
	for _, n := range []int{640, 5000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			h := crowd(b, n)
			h.Say(may(6, 9), &model.Trip{From: may(7, 8), Until: may(19, 8)})
			k := estimate.New(h.Book)
			for b.Loop() {
				trip.NewHomecoming(k, may(20, 9))
			}
		})
	}
}

// crowd is n plants of every form and leaf, soaked on different days.
func crowd(b *testing.B, n int) household.Home {
	b.Helper()
	h := household.New(b)
	plants := make([]model.Plant, n)
	for i := range plants {
		plants[i] = model.Plant{
			ID: model.ID(i + 1), Count: 1, Form: model.Forms[i%len(model.Forms)],
			Leaf: model.Leaves[i%len(model.Leaves)], Size: float64(5 + i%40),
			SoakedOn: date.NewAt(may(1, 12)) - date.Date(i%20),
		}
	}
	h.Say(may(1, 8), &model.Add{Plants: plants})
	return h
}
