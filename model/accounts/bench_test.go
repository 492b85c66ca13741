package accounts_test

import (
	"testing"

	"tubside/model"
	"tubside/model/accounts"
)

// A year of weekly soaks of 640 plants in loads of 40.
func BenchmarkYear(b *testing.B) {
	h := newHome(b)
	var rows []model.Plant
	for id := model.ID(1); id <= 640; id++ {
		rows = append(rows, plant(id, model.Forms[int(id)%len(model.Forms)], "A"))
	}
	h.tell(&model.Add{Plants: rows})
	for range 52 {
		for first := model.ID(1); first <= 640; first += 40 {
			var ids model.IDs
			for id := first; id < first+40; id++ {
				ids = append(ids, id)
			}
			h.bathe(30, 3, ids...)
		}
		h.wait(4 * day)
	}
	for b.Loop() {
		if _, err := accounts.Of(h.b, newYear, nextNew); err != nil {
			b.Fatal(err)
		}
	}
}
