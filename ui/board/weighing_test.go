package board

import (
	"slices"
	"testing"
	"time"

	"tubside/model"
)

// onScale is a grower on the round to the scale: a shelf of plants that were soaked a week ago, and nobody weighed yet.
func onScale(t *testing.T) *grower {
	t.Helper()
	g := newGrower(t)
	for i := range 12 {
		id := model.ID(i + 1)
		p := model.Plant{ID: id, Name: "stricta", Form: model.Rosette, Leaf: model.Mesic, Size: 18, Count: 1,
			Home: model.Home{Shelf: "A", Spot: id.String()}}
		g.enters(soakDay.AddDate(0, 0, -9), &model.Add{Plants: []model.Plant{p}}, id)
	}
	all := g.board.desk.book.IDs()
	week := soakDay.AddDate(0, 0, -7)
	g.enters(week, &model.Soak{Load: 1, Vessel: "tub", Due: week.Add(time.Hour)}, all...)
	g.enters(week.Add(time.Hour), &model.Out{Shaken: true}, all...)
	g.enters(week.Add(5*time.Hour), &model.FoundDry{}, all...)
	g.enters(week.Add(5*time.Hour), &model.Hung{}, all...)
	return g.keys("T", "r", ",").sees("▸Weigh").sees("Ten that tell most")
}

// Ten are proposed, one is swapped, and they are weighed: the grams and enter, plant by plant, from the soak to the
// next.
func TestTheTenAreWeighedByTheirGramsAndEnter(t *testing.T) {
	g := onScale(t)
	first := g.board.front().list().current()
	g.sees("for 12 like it").keys("x").keys("d")
	ten := g.board.desk.book.Ten(g.now)
	if ten == nil || len(ten.Plants) != 10 || ten.Plants.Has(first) {
		t.Fatalf("weighed: %+v, without %d", ten, first)
	}
	g.sees("before its soak, with its signs").sees("weigh 10 before they go in").sees("electrical code")
	for range ten.Plants {
		g.keys("1", "8", ".", "4", " ", "1", "enter")
	}
	for _, id := range ten.Plants {
		if w := g.row(id).Weight; w.Grams != 18.4 {
			t.Errorf("plant %d weighs %v g", id, w.Grams)
		}
		if s := g.row(id).Signs; s.Curl != 1 || s.Tips != model.NotSeen {
			t.Errorf("plant %d shows %+v", id, s)
		}
	}
	g.sees("▸Weigh 0 due").sees("weighed, 18.4 g").doesNotSee("before they go in")

	g.enters(g.now, &model.Soak{Load: 2, Vessel: "tub", Due: g.now.Add(time.Hour)}, ten.Plants...)
	g.after(time.Hour).enters(g.now, &model.Out{Shaken: true}, ten.Plants...)
	g.after(5*time.Hour).enters(g.now, &model.FoundDry{}, ten.Plants...)
	g.keys("esc", "T", "t").sees("weigh 10 full, before they hang").keys("T", "r")
	id := g.board.front().list().current()
	g.keys("2", "0", "enter")
	if w := g.row(id).WetWeight; w.Grams != 20 {
		t.Errorf("plant %d weighs %v g full", id, w.Grams)
	}
	g.enters(g.now, &model.Hung{}, ten.Plants...).after(4*24*time.Hour).keys("T", "t", "T", "r")
	g.sees("half way to its soak")
	g.keys("O").doesNotSee("half way").sees("Ten that tell most")
}

// A weight that looks wrong is asked about, and written when it is said again.
func TestAWeightThatLooksWrongIsAskedAbout(t *testing.T) {
	g := onScale(t).keys("d")
	id := g.board.front().list().current()
	g.enters(soakDay.AddDate(0, 0, -7).Add(5*time.Hour), &model.Weigh{Grams: 17}, id)
	g.keys("1", "8", "0", "enter").sees("it weighed 17 g last time")
	if g.row(id).Weight.Grams != 17 {
		t.Fatal("written without a word")
	}
	g.keys("esc").sees("Nothing written")
	g.keys("1", "8", "0", "enter", "enter")
	if g.row(id).Weight.Grams != 180 {
		t.Error("what was said twice was not written")
	}
	g.keys("d").types("heavy").keys("enter").sees("not a number in g")
}

func TestWhatTheScaleHasShown(t *testing.T) {
	g := onScale(t).keys("s").sees("What the scale has shown").sees("Nothing yet").keys("s", "d")
	ten := slices.Clone(g.board.desk.book.Ten(g.now).Plants)
	for i, id := range ten {
		g.enters(g.now.Add(time.Duration(i)*time.Second), &model.Weigh{Grams: 18}, id)
	}
	at := g.now.Add(time.Hour)
	g.enters(at, &model.Soak{Load: 2, Vessel: "tub", Due: at.Add(3 * time.Hour)}, ten...)
	g.enters(at.Add(3*time.Hour), &model.Out{Shaken: true}, ten...)
	g.enters(at.Add(8*time.Hour), &model.FoundDry{}, ten...)
	for _, id := range ten {
		g.enters(at.Add(8*time.Hour), &model.Weigh{Grams: 20, Wet: true}, id)
	}
	g.enters(at.Add(9*time.Hour), &model.Hung{}, ten...)
	for _, id := range ten {
		g.enters(at.AddDate(0, 0, 6), &model.Weigh{Grams: 18}, id)
	}
	g.after(7 * 24 * time.Hour).keys("s").sees("10 plants, 10 weights").sees("at first").keys("G")
	g.sees("The rest of the house")
	g.size(60, 24)
	g.sees("1.9 % (1.3–2.5)").keys("l", "l").sees("21 % (12–37)  21 % (12–37)").keys("G").sees("were not weighed")
	g.keys("esc").sees("▸Weigh")
}
