package board

import (
	"testing"
	"time"

	"tubside/model"
)

// onRounds is a grower with the mist round in front of her: three plants in
// bloom are due.
func onRounds(t *testing.T) *grower {
	t.Helper()
	g := newGrower(t).shelves().enters(soakDay.Add(-time.Hour), &model.Bloom{}, 1, 5, 6)
	return g.keys("T", "r").sees("▸Rounds").sees("▸Mist 3 due")
}

func TestAMistRoundIsDoneByPlantAndByShelf(t *testing.T) {
	g := onRounds(t)
	first := g.board.front().list().current()
	g.keys("d")
	if r := g.row(first); !r.Misted.Equal(g.now) {
		t.Errorf("plant %d misted %v, want now", first, r.Misted)
	}
	if next := g.board.front().list().current(); next == first {
		t.Error("the plant is still due")
	}
	g.keys("D").sees("▸Mist 0 due")
	for _, id := range []model.ID{5, 6} {
		if !g.row(id).Misted.Equal(g.now) {
			t.Errorf("plant %d on the shelf was not misted", id)
		}
	}
	g.keys("u").sees("▸Mist 2 due")
}

func TestPlantsLeftOutSayWhy(t *testing.T) {
	g := onRounds(t)
	g.doesNotSee("bulbosa").keys("z").sees("Left out").sees("bulbosa")
}

// A bottle with fed water must not become a mist round by mistake.
func TestAFedBottleIsAskedAboutAndNeverMistedAsPlain(t *testing.T) {
	g := onRounds(t)
	g.keys("W", "tab").types("50").keys("tab").types("bloom powder 20").keys("ctrl+s")
	if b := g.board.desk.book.Bottle(); b.Fed == nil || b.Fed.PPM != 50 || b.Fed.N != 20 || b.Fed.Powder != "bloom powder" {
		t.Fatalf("the bottle holds %+v", b.Fed)
	}
	g.sees("holds fed water")
	first := g.board.front().list().current()
	g.keys("d").sees("has held fed water")
	if !g.row(first).Misted.IsZero() {
		t.Error("misted with fed water as if it were plain")
	}
}

func TestNobodyIsFedTwice(t *testing.T) {
	g := onRounds(t)
	g.enters(g.now, &model.Bottle{Fed: &model.Mix{PPM: 50}})
	g.enters(g.now.AddDate(0, 0, -3), &model.Feed{How: model.ByMist, Mix: model.Mix{PPM: 50}}, 1)
	g.keys(".").sees("▸Feed").keys("z", "/").types("stricta").keys("enter", "d")
	if fed := g.row(1).Fed; fed.Equal(g.now) {
		t.Error("plant 1 was fed again after three days")
	}
	if !g.board.desk.trouble {
		t.Errorf("no complaint: %q", g.board.desk.said)
	}
}

func TestTheMinuteTestEndsInAnEntry(t *testing.T) {
	g := newGrower(t).shelves()
	g.keys("t").sees("Is the base soft?").keys("n").sees("centre leaf").keys("backspace").sees("Is the base soft?")
	g.keys("y").sees("Rot").keys("enter")
	if g.row(1).Rot.IsZero() {
		t.Error("no suspected rot was entered")
	}
	g.keys("j", "t", "n", "n", "n", "n", "n").sees("lens").keys("s").sees("Scale").sees("labelled for indoor use").keys("enter")
	if r := g.row(2); len(r.Troubles) != 1 || r.Troubles[0].What != model.Scale {
		t.Errorf("troubles %v, want scale", r.Troubles)
	}
}

func TestBloomGoesFromBudToSpent(t *testing.T) {
	g := newGrower(t).shelves()
	for _, step := range []struct {
		key  string
		want model.Stage
	}{{"B", model.Bud}, {"b", model.Open}, {"b", model.Spent}} {
		g.keys(step.key)
		if stage := g.row(1).Stage; stage != step.want {
			t.Errorf("after %s: %q, want %q", step.key, stage, step.want)
		}
	}
}

// The tub must not be left standing when the session is over.
func TestStandingWaterIsAskedAboutUntilItIsEmptied(t *testing.T) {
	g := pulled(t)
	g.keys("W").types("rain").keys("ctrl+s").sees("Tub filled with rain").keys("A", "s")
	load := g.board.desk.book.OpenLoads()[0]
	g.after(load.Due.Sub(g.now)).keys("o", "tab")
	g.after(20*time.Minute).keys("A", "d", "A", "r")
	g.keys("shift+tab", "j").keys("p") // the one that still waits goes back
	g.sees("Water still stands in tub").keys("e").doesNotSee("still stands")
}

func TestAWeighedPlant(t *testing.T) {
	g := newGrower(t).shelves()
	g.keys("W").types("38.5 g").keys("ctrl+s")
	if w := g.row(1).Weight; w.Grams != 38.5 {
		t.Errorf("weight %v, want 38.5 g", w.Grams)
	}
	g.keys("W").types("385").keys("ctrl+s").sees("It weighed 38.5 g last time").keys("ctrl+s")
	if w := g.row(1).Weight; w.Grams != 385 {
		t.Errorf("weight %v, want what was said twice", w.Grams)
	}
	g.keys("W").types("heavy").keys("ctrl+s").sees("is not a number in g")
}
