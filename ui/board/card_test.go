package board

import "testing"

// A card lies over one screen: going to another takes it away, and no key reaches
// a plant that is not seen.
func TestGoingToAnotherScreenClosesTheCard(t *testing.T) {
	g := newGrower(t).shelves().keys("enter").sees("#1  ")
	g.keys("shift+tab").sees("▸Guide").doesNotSee("#1  ").keys("shift+tab", "x", "l", "h")
	g.keys("T", "t", "enter", "T", "a").sees("▸Room").doesNotSee("#1  ").keys("right", "left", "esc")
}

// Undo on the big clock can take away the plant whose card lies below it.
func TestACardClosesUnderTheClock(t *testing.T) {
	g := newGrower(t).shelves().keys("enter", "c", "u", "u", "u", "u", "esc")
	if g.board.desk.book.Row(1) != nil {
		t.Fatal("the plants are still in the book")
	}
	g.doesNotSee("#1  ").keys("j", "enter")
}
