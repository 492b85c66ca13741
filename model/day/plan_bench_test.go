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
	_, k := fullHouse(b)
	for b.Loop() {
		if p, err := day.NewPlan(context.Background(), k, may(8, 8), day.Ask{}); err != nil || p.Count() == 0 {
			b.Fatal(p, err)
		}
	}
}

// BenchmarkStep is the agreed plan of that day as it stands after a step. The budget is
// 20 ms.
func BenchmarkStep(b *testing.B) {
	h, k := fullHouse(b)
	p, err := day.NewPlan(context.Background(), k, may(8, 8), day.Ask{})
	if err != nil {
		b.Fatal(err)
	}
	h.Say(may(8, 8), p.Agree(h.Book, may(8, 8)))
	for b.Loop() {
		if p, err := day.Kept(context.Background(), k, may(8, 8).Add(time.Minute)); err != nil || p.Lost {
			b.Fatal(p, err)
		}
	}
}

// fullHouse is 640 plants of every form.
func fullHouse(b *testing.B) (household.Home, *estimate.Keeper) {
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
	return h, k
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
