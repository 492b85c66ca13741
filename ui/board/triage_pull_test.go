package board

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"tubside/model"
	"tubside/model/soak"
)

// The plant in the hand is the one just looked at, though the cursor has walked on: p
// pulls it. Once the cursor is moved p pulls what it is on.
func TestPAfterALookPullsThePlantInTheHand(t *testing.T) {
	g := newGrower(t).shelves()
	first := g.board.front().list().current()
	g.keys("2", "1", "0", "p").sees("which you have just looked at")
	if !g.board.desk.book.Waiting().Has(first) || len(g.board.desk.book.Waiting()) != 1 {
		t.Fatalf("pulled %v, want %d", g.board.desk.book.Waiting(), first)
	}
	second := g.board.front().list().current()
	g.keys("f", "j", "k", "p")
	if w := g.board.desk.book.Waiting(); w.Has(second) || len(w) != 2 {
		t.Errorf("pulled %v: the cursor was moved, and not onto %d", w, second)
	}
	third := g.board.front().list().current()
	g.keys("2", "p")
	if r := g.row(third); r.Signs.Curl != 2 || !g.board.desk.book.Waiting().Has(third) {
		t.Errorf("half a look and p: signs %v, pulled %v", r.Signs, g.board.desk.book.Waiting())
	}
}

// Set after the walk, the rule pulls what was looked at before, and says how many before
// it does; set again at once, it pulls by what it says then. One key undoes the pull.
func TestThePullingRulePullsWhatWasLookedAtBefore(t *testing.T) {
	g := newGrower(t).shelves().keys("2", "1", "0", "0", "0", "0", "2", "1", "0", "P")
	if w := g.board.desk.book.Waiting(); len(w) > 0 {
		t.Fatalf("%v are pulled before it is said from where on", w)
	}
	g.sees("Pull from which soak on today?").sees("d Dip 3").keys("d").sees("Pulled 3 plants; today the next from Dip on, as you look")
	if dip := g.board.desk.book.Waiting(); !dip.Has(1) {
		t.Fatalf("pulled %v, want 1 among them", dip)
	}
	g.keys("P", "l").sees("pulls from long today")
	for _, id := range g.board.desk.book.Waiting() {
		if g.board.desk.need(id).Band < soak.Long {
			t.Errorf("%d needs %s, and stays pulled from Long on", id, g.board.desk.need(id).Band)
		}
	}
	g.keys("P", "x").doesNotSee("Pull from which").sees("pulls from long today")
	g = newGrower(t).shelves().keys("2", "1", "0", "P", "d", "u")
	if w := g.board.desk.book.Waiting(); len(w) > 0 {
		t.Errorf("undone, and %v still pulled", w)
	}
}

// What P says holds for the day, also over a restart, and not for the week after; the house
// rule holds every day, and what is said for a day comes before it.
func TestWhatPSaysIsForToday(t *testing.T) {
	g := newGrower(t).shelves().keys("P", "l").sees("(every day:").sees("pulls from long today")
	g.restart(2 * time.Hour)
	g.keys("T", "t").sees("pulls from long today")
	if rule := g.board.desk.book.Rules().Word(model.PullItself); rule != "off" {
		t.Errorf("the house rule became %q", rule)
	}
	g.after(7*24*time.Hour).doesNotSee("pulls from").keys("2", "1", "0").doesNotSee("; pulled")
	g.enters(g.now, &model.RuleSet{Name: "pull-itself", Value: 3})
	g.after(time.Minute).sees("pulls from long every day").keys("P", "o").doesNotSee("pulls from")
	g.after(24 * time.Hour).sees("pulls from long every day")
}

// By their curl, plants that need no soak are not pulled either.
func TestThePullingRuleLeavesWhatIsStillWet(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now.Add(-5*time.Hour), &model.Soak{Load: 1, Vessel: "tub", Due: g.now.Add(-4 * time.Hour)}, 1)
	g.enters(g.now.Add(-4*time.Hour), &model.Out{Shaken: true}, 1)
	g.enters(g.now, &model.FoundDry{}, 1)
	g.enters(g.now, &model.Hung{}, 1)
	g.keys("T", "t", "home", "1", "0", "0").sees("Still wet").keys("P", "1")
	if w := g.board.desk.book.Waiting(); w.Has(1) {
		t.Error("a plant that is still wet is pulled for its curl")
	}
}

// A plant that needs no soak goes into the tub only when it is asked for: a range
// leaves it, p again takes it, and its row says that it is pulled. In the list by
// thirst it comes after all that need one.
func TestARangeLeavesThoseThatNeedNoSoak(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now.Add(-4*time.Hour), &model.Soak{Load: 1, Vessel: "tub", Due: g.now.Add(-3 * time.Hour)}, 2)
	g.enters(g.now.Add(-3*time.Hour), &model.Out{Shaken: true}, 2)
	g.enters(g.now, &model.FoundDry{}, 2)
	g.enters(g.now, &model.Hung{}, 2)
	g.keys("o").sees("Need no soak now").keys("o", "o", "home", "A", "p").sees("2 need no soak: p again takes them too; pulled 2")
	if w := g.board.desk.book.Waiting(); w.Has(2) || !w.Has(1) {
		t.Fatalf("pulled %v, want 1 and not 2", w)
	}
	g.keys("p")
	if w := g.board.desk.book.Waiting(); !w.Has(2) {
		t.Errorf("pulled %v, want 2 as well", w)
	}
}

// Putting back walks on as pulling does, so that a slip is mended in the same rhythm.
func TestPuttingBackStepsOn(t *testing.T) {
	g := newGrower(t).shelves().keys("p", "k", "p")
	if w, at := g.board.desk.book.Waiting(), g.board.plant(); len(w) > 0 || at != 2 {
		t.Errorf("waiting %v, cursor on %d; want none, and on 2", w, at)
	}
}

// One key less a plant: what the grower has set is pulled as it is looked at.
func TestAPlantIsPulledAsItIsLookedAt(t *testing.T) {
	g := newGrower(t).shelves().keys("P").sees("d Dip 0   s Short 0   l Long 0   e Deep 0   1 2 3 curl   o off").keys("l")
	g.sees("None looked at so far; today the next from Long on, as you look").sees("pulls from long today")
	g.keys("2", "1", "0", "0", "0", "0").doesNotSee("; pulled").keys("u")
	if diff := cmp.Diff(model.IDs{1}, g.board.desk.book.Waiting()); diff != "" {
		t.Errorf("waiting (-want +got):\n%s", diff)
	}
	g.keys("u", "u")
	wantSigns(t, g.row(1), "---")
	if len(g.board.desk.book.Waiting()) > 0 {
		t.Error("undone, and still pulled")
	}
}

func TestPullLeavesBloomAndRotBehind(t *testing.T) {
	g := newGrower(t).shelves()
	g.size(120, 30)
	g.keys("b", "j", "!", "k", "A", "p").sees("1 needs no soak: p again takes it too")
	g.sees("1 in bloom, to be misted").sees("1 with suspected rot, not soaked").keys("p")
	if diff := cmp.Diff(model.IDs{4, 3}, g.board.desk.book.Waiting()); diff != "" {
		t.Errorf("waiting (-want +got):\n%s", diff)
	}
	g.sees("pulled 2 = waiting 2")
}
