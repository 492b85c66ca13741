package board

import (
	"fmt"
	"testing"
	"time"

	"github.com/charmbracelet/bubbles/table"

	"tubside/model"
	"tubside/ui/show"
)

// A key to a finished frame: the budget is 0.15 ms, the same at 640, 5,000 and
// 50,000 plants, in the list and on the map.
func BenchmarkKeyToFrame(b *testing.B) {
	for _, n := range []int{640, 5000, 50000} {
		g := collection(b, n)
		for _, size := range [][2]int{{80, 24}, {160, 50}} {
			for _, shown := range []string{"list", "map"} {
				b.Run(fmt.Sprintf("%d plants %dx%d %s", n, size[0], size[1], shown), func(b *testing.B) {
					g.size(size[0], size[1])
					if shown == "map" {
						g.keys("g")
						defer g.keys("g")
					}
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
					b.StopTimer()
				})
			}
		}
	}
}

// The same where a wide window has something beside the list: what lies in the vessels,
// the card of what dries, the day of a shelf.
func BenchmarkKeyToFrameBeside(b *testing.B) {
	for _, n := range []int{640, 5000} {
		g := collection(b, n)
		ids := g.board.desk.book.IDs()
		g.enters(g.now, &model.Pull{}, ids...)
		g.enters(g.now, &model.Soak{Load: 1, Vessel: "tub", Due: g.now.Add(time.Hour)}, ids[:n/2]...)
		g.enters(g.now, &model.Out{Shaken: true}, ids[:n/4]...)
		for _, screen := range []string{"s", "d", "w"} {
			g.size(160, 50)
			g.keys("T", screen)
			b.Run(fmt.Sprintf("%d plants %s", n, g.board.front().name()), func(b *testing.B) {
				for i := range b.N {
					g.board.Update(keyNamed([]string{"j", "k"}[i/n%2]))
					_ = g.board.View()
				}
			})
		}
	}
}

// The same keys on the same rows in the table of bubbles, to hold the list against:
// it lays out every row in its window at every key, without headings, bars, card or
// head and foot.
func BenchmarkCommonTable(b *testing.B) {
	for _, n := range []int{640, 5000, 50000} {
		g := collection(b, n)
		for _, size := range [][2]int{{80, 24}, {160, 50}} {
			b.Run(fmt.Sprintf("%d plants %dx%d", n, size[0], size[1]), func(b *testing.B) {
				t := commonTable(g, size[0], size[1])
				down, up := keyNamed("j"), keyNamed("k")
				b.ResetTimer()
				for i := range b.N {
					msg := down
					if i/n%2 == 1 {
						msg = up
					}
					t, _ = t.Update(msg)
					_ = t.View()
				}
			})
		}
	}
}

// commonTable holds triage's rows, as many lines high as triage's list.
func commonTable(g *grower, width, height int) table.Model {
	tr := g.board.screens[0].(*triage)
	var rows []table.Row
	for _, r := range tr.rows.rows {
		if n := g.board.desk.need(r.id); n != nil {
			row := g.board.desk.book.Row(r.id)
			rows = append(rows, table.Row{row.Home.Spot, show.Title(row.Plant), daysShort(n.DaysSince),
				show.Signs(row.Signs), n.Band.String(), show.Soak(n.From, n.To)})
		}
	}
	rest := width - spotWidth - daysWidth - 2*bandWidth - timeWidth - 12
	return table.New(table.WithFocused(true), table.WithRows(rows), table.WithHeight(height-6), table.WithWidth(width),
		table.WithColumns([]table.Column{{Title: "hook", Width: spotWidth}, {Title: "plant", Width: rest},
			{Title: "days", Width: daysWidth}, {Title: "signs", Width: bandWidth}, {Title: "band", Width: bandWidth},
			{Title: "soak", Width: timeWidth}}))
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
