package board

import (
	"testing"

	"tubside/model"
	"tubside/store"
)

// What was entered at the shell while the board has the book comes in and shows,
// and what cannot be taken is said.
func TestWhatWasLeftInTheInboxComesIn(t *testing.T) {
	g := newGrower(t)
	before := len(g.board.desk.book.Entries())
	for _, f := range []model.Fact{&model.Reading{TempC: 23, RH: 61}, &model.Out{}} {
		if err := store.Leave(g.path, model.NewEntry(g.now, f)); err != nil {
			t.Fatal(err)
		}
	}
	g.send(inboxMsg{})
	g.sees("could not be taken")
	if n := len(g.board.desk.book.Entries()); n != before+1 {
		t.Errorf("%d entries came in, want the reading alone", n-before)
	}
	if err := store.Leave(g.path, model.NewEntry(g.now, &model.Reading{TempC: 24, RH: 62})); err != nil {
		t.Fatal(err)
	}
	g.send(inboxMsg{})
	g.sees("Came in: 24.0 °C")
}
