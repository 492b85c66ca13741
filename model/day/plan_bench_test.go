package day_test

import (
	"context"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/tests/household"
)

// BenchmarkPlan is a soak day of 640 plants of every form, the session built and
// planned. The budget is 300 ms.
func BenchmarkPlan(b *testing.B) {
	h := household.New(b)
	var plants []model.Plant
	for id := model.ID(1); id <= 640; id++ {
		plants = append(plants, model.Plant{
			ID: id, Count: 1, Form: model.Forms[int(id)%len(model.Forms)], Leaf: model.Leaves[int(id)%len(model.Leaves)],
			Size: 8 + float64(id%11), Home: model.Home{Shelf: string(rune('A' + id%16))},
		})
	}
	h.Say(may(1, 8), &model.Add{Plants: plants})
	k := estimate.New(h.Book)
	advice.Look(k, may(8, 8))
	for b.Loop() {
		if p, err := day.NewPlan(context.Background(), k, may(8, 8), day.Ask{}); err != nil || p.Count() == 0 {
			b.Fatal(p, err)
		}
	}
}

// BenchmarkWeek spreads the same number over the week.
func BenchmarkWeek(b *testing.B) {
	h := shelves(b, model.Intermediate, 40, 40, 40, 40, 40, 40, 40, 40, 40, 40, 40, 40, 40, 40, 40, 40)
	k := estimate.New(h.Book)
	for b.Loop() {
		if w := day.NewWeek(k, may(8, 8).Add(time.Minute)); len(w.Days) != 7 {
			b.Fatal("no week")
		}
	}
}
