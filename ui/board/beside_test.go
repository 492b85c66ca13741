package board

import (
	"strings"
	"testing"
	"time"
)

// In a wide window Soak has the vessels' contents beside its list, with names and where
// they hang, and whom s would put in.
func TestAWideSoakShowsWhoLiesInTheVessels(t *testing.T) {
	g := newGrower(t).shelves().keys("A", "p", "l", "A", "p", "tab", "s")
	g.size(160, 50)
	if len(g.board.desk.book.Waiting()) == 0 {
		t.Fatal("nothing waits any more")
	}
	g.sees("s puts into").sees("In tub, load 1 ────").sees("as they come out, ")
	for _, id := range g.board.desk.loads[0].Plants {
		if !g.besideList(g.row(id).Home.String()) {
			t.Errorf("%s is not named beside the list:\n%s", g.row(id).Label, g.screen())
		}
	}
	g.keys("G").doesNotSee("as they come out, ") // the cursor is in that load: it stands at the left
	g.sees("In tub, load 1 ────").sees("Thirst ─")
	g.size(140, 50)
	g.doesNotSee("s puts into")
}

// besideList reports whether a text stands beside the list.
func (g *grower) besideList(text string) bool {
	for line := range strings.Lines(g.screen()) {
		if _, right, ok := strings.Cut(line, "│"); ok && strings.Contains(right, text) {
			return true
		}
	}
	return false
}

func TestAWideDryingShowsTheCard(t *testing.T) {
	g := pulled(t).keys("A", "s")
	g.after(g.board.desk.loads[0].Due.Sub(g.now)).keys("o", "tab")
	g.size(160, 50)
	first := g.row(g.board.front().list().current())
	if !g.besideList("#"+first.ID.String()+"  "+first.Label) || !g.besideList("Drying") {
		t.Errorf("the card of %s does not stand beside the list:\n%s", first.Label, g.screen())
	}
}

// In a wide window a round has the card of its plant beside the list, under the whole of
// why it is due; in a narrow one that stands below.
func TestAWideRoundShowsTheCard(t *testing.T) {
	g := newGrower(t).shelves().keys("T", "r", ".", ".").sees("▸Look")
	g.size(160, 50)
	first := g.row(g.board.front().list().current())
	if !g.besideList("#"+first.ID.String()+"  "+first.Label) || !g.besideList(first.Label+". ") {
		t.Errorf("the card of %s does not stand beside the list:\n%s", first.Label, g.screen())
	}
	g.size(80, 24)
	g.sees(first.Label + ". ").doesNotSee("#" + first.ID.String() + "  ")
}

// A shelf that is moved shows each day before and after, for as long as it takes to
// decide.
func TestAWeekShowsTheDaysBeforeAndAfter(t *testing.T) {
	g := newGrower(t).shelves()
	g.size(160, 50)
	g.keys("T", "w").sees("What fills ").sees("your hands").doesNotSee(", was ")
	if !g.besideList("bulbosa") {
		t.Errorf("the shelf's plants do not stand beside it:\n%s", g.screen())
	}
	g.keys("l").sees(", was ").sees("moved")
	g.after(2 * time.Minute).sees(", was ").sees("moved")
	g.keys("esc").doesNotSee(", was ").keys("l", "enter").doesNotSee(", was ").sees("kept")
	if _, kept := g.board.desk.book.ShelfDay("Bay"); !kept {
		t.Error("the day is not in the book")
	}
}
