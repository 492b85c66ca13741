package board

import (
	"fmt"
	"testing"

	"tubside/model"
)

// A key to a finished frame: the budget is 0.3 ms, the same at 640 and 50,000
// plants.
func BenchmarkKeyToFrame(b *testing.B) {
	for _, n := range []int{640, 50000} {
		for _, size := range [][2]int{{80, 24}, {160, 50}} {
			b.Run(fmt.Sprintf("%d plants %dx%d", n, size[0], size[1]), func(b *testing.B) {
				g := collection(b, n)
				g.size(size[0], size[1])
				down, up := keyNamed("j"), keyNamed("k")
				b.ResetTimer()
				for i := range b.N {
					msg := down
					if i/n%2 == 1 {
						msg = up
					}
					g.board.Update(msg)
					_ = g.board.View()
				}
			})
		}
	}
}

// Three digits to a written entry and the next frame, the sync to disk
// included.
func BenchmarkSignsToFrame(b *testing.B) {
	for _, n := range []int{640, 5000} {
		b.Run(fmt.Sprintf("%d plants", n), func(b *testing.B) {
			g := collection(b, n)
			keys := keyNamed("210")
			b.ResetTimer()
			for range b.N {
				g.board.Update(keys)
				_ = g.board.View()
			}
		})
	}
}

// collection is a board on n plants, ten to a shelf.
func collection(b *testing.B, n int) *grower {
	g := newGrower(b)
	plants := make([]model.Plant, n)
	for i := range plants {
		plants[i] = model.Plant{
			ID: model.ID(i + 1), Label: fmt.Sprintf("plant %d", i), Count: 1, Size: 12,
			Form: model.Forms[i%len(model.Forms)], Leaf: model.Leaves[i%len(model.Leaves)],
			Home: model.Home{Shelf: fmt.Sprintf("S%d", i/40), Spot: fmt.Sprint(i % 40)},
		}
	}
	return g.enters(soakDay, &model.Add{Plants: plants})
}
