package trade_test

import (
	"fmt"
	"testing"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
)

// BenchmarkRound makes up a walk of a whole collection.
func BenchmarkRound(b *testing.B) {
	for _, n := range []int{640, 5000} {
		c := newCollection(b)
		var plants []model.Plant
		for i := range n {
			plants = append(plants, model.Plant{
				ID: model.ID(i + 1), Count: 1, Size: 12, Form: model.Forms[i%len(model.Forms)],
				Leaf: model.Leaves[i%len(model.Leaves)], Home: model.Home{Shelf: string(rune('A' + i%20)), Spot: fmt.Sprint(i)},
			})
		}
		c.enter(today, &model.Add{Plants: plants})
		k := estimate.New(c.book)
		for _, job := range advice.RoundJobs {
			b.Run(fmt.Sprintf("%s/%d", job, n), func(b *testing.B) {
				for b.Loop() {
					advice.NewRound(k, job, may)
				}
			})
		}
	}
}
