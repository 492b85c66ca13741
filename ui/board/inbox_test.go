package board

import (
	"testing"
	"time"

	"tubside/model"
	"tubside/store"
)

// leaves leaves entries for the board, as a command does that finds the book in use.
func (g *grower) leaves(from string, lines []int, facts ...model.Fact) {
	g.t.Helper()
	l := store.Left{From: from, Lines: lines, First: g.board.desk.book.NextSeq()}
	for _, f := range facts {
		e := model.NewEntry(g.now, f)
		if _, ok := f.(*model.Mist); ok {
			e.Plants = model.IDs{1}
		}
		l.Entries = append(l.Entries, e)
	}
	if err := store.Leave(g.path, l); err != nil {
		g.t.Fatal(err)
	}
}

// What was entered at the shell while the board has the book comes in and shows,
// and what cannot be taken is said.
func TestWhatWasLeftInTheInboxComesIn(t *testing.T) {
	g := newGrower(t)
	g.adds(1, func() {
		g.leaves("", nil, &model.Reading{TempC: 23, RH: 61})
		g.leaves("", nil, &model.Out{})
		g.send(inboxMsg{})
		g.sees("could not be taken")
	})
	g.leaves("", nil, &model.Reading{TempC: 24, RH: 62})
	g.send(inboxMsg{})
	g.sees("Came in: 24.0 °C")
	g.restart(time.Minute)
	g.sees("1 entry left for the book could not be taken: tubside book inbox")
}

// A batch comes in whole, and its plants are on the screen; one of which a line
// cannot be taken is left out whole, and the line is said.
func TestABatchComesInWholeOrNotAtAll(t *testing.T) {
	g := newGrower(t)
	plant := model.Plant{ID: g.board.desk.book.NextID(), Label: "late comer", Form: model.Rosette, Leaf: model.Mesic, Count: 1,
		Home: model.Home{Shelf: "Zenith"}}
	g.enters(g.now, &model.Add{Plants: []model.Plant{{ID: plant.ID, Label: "in between", Form: model.Rosette, Count: 1}}}, plant.ID)
	g.adds(3, func() {
		g.leaves("saturday.txt", []int{1, 3, 4}, &model.Mist{}, &model.Add{Plants: []model.Plant{plant}},
			&model.Reading{TempC: 25, RH: 50})
		g.send(inboxMsg{})
		g.sees("Came in: 3 entries from saturday.txt").keys("/").types("late comer").keys("enter").sees("late comer")
	})
	if n := g.board.desk.need(plant.ID + 1); n == nil {
		t.Error("nobody knows what the new plant needs")
	}
	g.adds(0, func() {
		g.leaves("sunday.txt", []int{2, 7}, &model.Mist{}, &model.Out{})
		g.send(inboxMsg{})
		g.sees("could not be taken: sunday.txt, line 7:")
	})
	g.adds(1, func() {
		list := &store.Sheet{File: "new.csv", At: g.now, Text: []byte("label,species,shelf\nFrom the list,ionantha,Zenith\n")}
		if err := store.Leave(g.path, store.Left{Sheet: list}); err != nil {
			t.Fatal(err)
		}
		g.send(inboxMsg{})
		g.sees("Came in: Imported new.csv: 1 plant")
	})
}

// Undo asks before it takes back what was not entered on this board since it was opened,
// and says what that is; what was, goes at once.
func TestUndoAsksAboutWhatWasEnteredElsewhere(t *testing.T) {
	g := newGrower(t).shelves()
	g.leaves("", nil, &model.RuleSet{Name: "soak-sun", Value: 3})
	g.send(inboxMsg{})
	sunday := func() float64 { return g.board.desk.book.Rules()[model.SoakSun] }
	g.keys("u").sees("From earlier or from elsewhere, 09:00: house rule").sees("u again undoes it")
	if sunday() != 3 {
		t.Fatal("it was undone without a word")
	}
	g.keys("u").sees("Undone: house rule").keys("U").sees("Redone: house rule")
	if sunday() != 3 {
		t.Fatal("it was not redone")
	}
	g.keys("u").sees("Undone: house rule").keys("2", "1", "0", "u").sees("Undone: stricta by the door")
	g.restart(time.Minute)
	g.keys("f")
	g.restart(time.Minute)
	g.keys("u").sees("From earlier or from elsewhere").keys("j").keys("u").sees("Undone: ")
}
