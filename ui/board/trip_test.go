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

// At 80 columns a trip is three numbers, no more than a line for each thing to do, and a
// list.
func TestATripIsNumbersAndAList(t *testing.T) {
	g := newGrower(t).shelves().keys("T", "v")
	s := g.board.front().(*tripScreen)
	for _, size := range [][2]int{{60, 20}, {80, 24}, {100, 30}} {
		g.size(size[0], size[1])
		if want := len(show.TripInShort(g.board.desk.book, s.trip)); size[0] >= 80 && len(s.words()) != want {
			t.Errorf("%d lines of words at %d columns, want %d", len(s.words()), size[0], want)
		}
		if lines := s.rows.height; lines < leastListed {
			t.Errorf("%d lines of the list at %d columns", lines, size[0])
		}
		for _, line := range s.words() {
			if show.Width(line) > size[0]-2 || strings.Contains(line, "…") {
				t.Errorf("cut at %d columns: %q", size[0], line)
			}
		}
	}
}
