package board

import (
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
)

func TestTheRoomShowsItsPast(t *testing.T) {
	g := newGrower(t).shelves()
	for day := range 40 {
		g.enters(soakDay.AddDate(0, 0, -40+day), &model.Reading{TempC: 20, RH: float64(60 - day/2)})
	}
	g.keys("T", "a").sees("▸Room").sees("the last 30 days").sees("Humidity").sees("Your air is")
	g.keys(".").sees("the last 90 days").keys("f").sees("fan on")
	g.size(60, 20)
	g.sees("How dry the air is")
}

func TestARoomWithoutReadingsSaysWhatToDo(t *testing.T) {
	g := newGrower(t).keys("T", "a").sees("No readings yet")
	g.keys("a").types("70F").keys("tab").types("35").keys("ctrl+s").sees("21.1 °C 35 %")
}

func TestTheLedgerCountsALoss(t *testing.T) {
	g := newGrower(t).shelves()
	g.keys("x").types("lost").keys("tab").types("rot").keys("ctrl+s")
	g.after(time.Hour).keys("T", "l").sees("What came and went").sees("-1")
	g.keys(".").sees("Ledger of 2026").keys("G", "g", ",").sees("the last twelve months")
}

// What a rule limits is never cut: in a narrow window it goes on in the next line, which
// the cursor passes over.
func TestHouseRulesAreWholeInANarrowWindow(t *testing.T) {
	g := newGrower(t).keys("T", "h")
	g.size(60, 20)
	for range model.LimitTable {
		if strings.Contains(g.screen(), "…") {
			t.Fatalf("a rule is cut:\n%s", g.screen())
		}
		g.keys("j")
	}
	g.keys("home", "j", "j", "j").sees("▸  Background of your terminal; auto asks the").sees("     terminal\n")
	g.keys("j").sees("▸  Pull a plant by itself")
	g.size(100, 30)
	g.sees("▸  Pull a plant by itself when you look at it, from this soak or curl on")
}

func TestHouseRulesChangeWithAnEntryAndAreStruck(t *testing.T) {
	g := newGrower(t).shelves().keys("T", "h", "/").types("plant should be dry").keys("enter", "enter",
		"ctrl+u").types("25").keys("enter").sees("give a number from 12 to 24")
	g.keys("ctrl+u").types("20").keys("enter").sees("20 h        21")
	if by := g.board.desk.book.Rules()[model.DryByHour]; by != 20 {
		t.Errorf("dry by %v, want 20", by)
	}
	g.keys("u").doesNotSee("20 h        21")
}

// The first frame does not wait for the needs, and no key is lost to it.
func TestTheFirstFrameComesBeforeTheNeeds(t *testing.T) {
	g := newGrower(t).shelves()
	g.board = newBoard(newDesk(g.store, func() time.Time { return g.now }), newBell(g.rung))
	g.board.every = func(time.Duration, func(time.Time) tea.Msg) tea.Cmd { return nil }
	if _, needs := g.board.Update(tea.WindowSizeMsg{}); needs != nil {
		t.Error("the needs are begun before there is room for a frame")
	}
	_, needs := g.board.Update(tea.WindowSizeMsg{Width: 80, Height: 24})
	if _, again := g.board.Update(tea.WindowSizeMsg{Width: 80, Height: 24}); again != nil {
		t.Error("the needs are begun twice")
	}
	g.sees("working out").sees("stricta by the door").keys("2", "1", "0")
	if len(g.board.early) != 3 {
		t.Errorf("%d keys kept, want 3", len(g.board.early))
	}
	g.settle(needs)
	g.doesNotSee("working out")
	wantSigns(t, g.row(1), "210")
}
