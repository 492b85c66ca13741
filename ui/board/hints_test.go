package board

import (
	"strings"
	"testing"
	"time"

	"tubside/model"
)

// Half a word in the footer tells nobody what a key does.
func TestFootersNameWholeKeys(t *testing.T) {
	g := newGrower(t).shelves()
	for _, width := range []int{60, 80, 100} {
		g.size(width, 24)
		for _, letter := range strings.Split("tsdpwravlhyg", "") {
			g.keys("T", letter)
			lines := strings.Split(g.screen(), "\n")
			if foot := lines[len(lines)-1]; strings.Contains(foot, "…") {
				t.Errorf("%s at %d: %q", letter, width, foot)
			}
		}
	}
}

func TestAnEmptyBenchNamesNoKeysThatDoNothing(t *testing.T) {
	newGrower(t).shelves().keys("T", "d").doesNotSee("w still damp").sees("f fan   i window")
}

func TestHelpNamesAKeyOnce(t *testing.T) {
	g := newGrower(t).shelves()
	g.size(100, 60)
	g.keys("T", "h", "?").sees("change the rule").doesNotSee("open the plant's card")
}

// A bench whose times are over is not "to be dry by" an hour that has passed.
func TestABenchWhoseTimesAreOverIsToBeLookedAt(t *testing.T) {
	g := pulled(t).keys("A", "s")
	g.after(g.board.desk.book.OpenLoads()[0].Due.Sub(g.now)).keys("o", "tab").sees("All surely dry by")
	g.after(3 * 24 * time.Hour).sees("All should have been dry by").doesNotSee("surely dry by")
}

// A tub filled for the session to come is not one left standing from the last.
func TestAFreshFillingIsNoSessionOver(t *testing.T) {
	g := pulled(t).keys("A", "s")
	g.after(g.board.desk.book.OpenLoads()[0].Due.Sub(g.now)).keys("o", "e", "tab")
	g.after(20*time.Minute).keys("A", "d", "A", "r")
	g.keys("shift+tab", "A", "p").enters(g.now.Add(time.Hour), &model.Fill{Vessel: "tub"})
	g.doesNotSee("Session over").sees("Water stands in tub: no child or pet alone with it").keys("e").doesNotSee("Water stands")
}

// A second load in the same tub shows on the tub's line and on the big clock.
func TestTwoLoadsInOneTubAreToldApart(t *testing.T) {
	g := newGrower(t).shelves().keys("A", "p", "l", "A", "p", "tab", "s", "s")
	loads := g.board.desk.book.OpenLoads()
	if len(loads) != 2 {
		t.Fatalf("%d loads, want 2", len(loads))
	}
	g.sees("tap(2│3▒").sees("45 min, then 1 h 55 min").keys("c").sees("3 plants, out at 09:45").sees("2 plants, out at 10:55")
}

// However long what was struck, the way back can be read.
func TestTheWayBackIsNeverCutOff(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now, &model.Note{Text: strings.Repeat("a long note ", 20)}, 1)
	g.keys("u").sees("u again undoes it").keys("u").sees("U redoes it")
}

func TestCautionsOfARoundAreReadInFull(t *testing.T) {
	g := onRounds(t)
	g.size(60, 24)
	for range 3 {
		s := g.board.front().(*roundScreen)
		for _, note := range s.round.Notes[:1] {
			words := strings.Fields(s.aboutStop(0).Reason(note))
			g.sees(words[len(words)-1])
		}
		g.keys(".")
	}
}

// What an open window would change is the last thing on the line and the first to
// act on: it is not cut off.
func TestTheWindowsWorthIsReadAtAnyWidth(t *testing.T) {
	g := pulled(t).keys("A", "s")
	g.after(g.board.desk.book.OpenLoads()[0].Due.Sub(g.now)).keys("o", "tab")
	for _, width := range []int{60, 80, 100, 160} {
		g.size(width, 24)
		s := g.board.front().(*dryScreen)
		s.ahead.MayCome, s.ahead.Opened = 0, s.ahead.AllDry.Add(-time.Hour)
		if words := s.aheadWords(); len([]rune(words)) >= width || !strings.Contains(words, "window open: all dry") {
			t.Errorf("at %d: %q", width, words)
		}
	}
}
