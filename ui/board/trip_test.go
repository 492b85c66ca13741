package board

import (
	"strings"
	"testing"

	"tubside/model"
	"tubside/ui/show"
)

// A trip is three numbers and a list under headings, and at any width the hour by
// which a plant must be in the water can be read.
func TestATripIsThreeNumbersAndAList(t *testing.T) {
	g := newGrower(t).shelves()
	g.size(100, 30)
	g.keys("T", "v", "H").types("2026-01-18").keys("enter").types("2026-02-07").keys("enter")
	for _, words := range []string{"will want a soak", "will be down to half", "may come to harm", "thirst by then", "in by"} {
		g.sees(words)
	}
	s := g.board.front().(*tripScreen)
	for _, width := range []int{60, 80, 100, 160} {
		g.size(width, 24)
		g.sees("in by")
		for _, id := range s.rows.chosen() {
			l := s.left[id]
			if l.Last == nil {
				t.Fatalf("plant %d gets no last soak", id)
			}
			by := show.Clock(l.Last.InBy, g.now, g.board.desk.book.Zone())
			if row := s.row(id, s.rows.cursor); !strings.Contains(row, by) {
				t.Errorf("at %d the row does not say %s: %q", width, by, row)
			}
		}
	}
	newGrower(t).keys("T", "v").sees("No plants yet").doesNotSee("in by")
}

// What is to be moved says so where there is no room for the reason.
func TestAPlantToBeMovedSaysSo(t *testing.T) {
	g := newGrower(t).shelves().enters(soakDay, &model.ShelfSet{Name: "Loft", Factor: 2})
	g.size(60, 30)
	g.keys("T", "v", "H").types("2026-01-18").keys("enter").types("2026-02-14").keys("enter").sees("move it")
}
