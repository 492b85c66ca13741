package board

import (
	"slices"
	"testing"
	"time"

	"tubside/model"
)

func wantSigns(t *testing.T, r *model.Row, want string) {
	t.Helper()
	if got := r.Signs.String(); got != want {
		t.Errorf("plant %d: signs %s, want %s", r.ID, got, want)
	}
}

func TestThreeDigitsGradeAPlantAndStepOn(t *testing.T) {
	g := newGrower(t).shelves()
	g.keys("2", "1").sees("2 1 _").keys("0")
	wantSigns(t, g.row(1), "210")
	if at := g.board.front().list().current(); at != 2 {
		t.Errorf("cursor on plant %d, want the next one, 2", at)
	}
	g.sees("2 1 0")
}

func TestLooksFineRepeatAndNotSeen(t *testing.T) {
	g := newGrower(t).shelves()
	g.keys("f", "r", "1", "-", "enter")
	wantSigns(t, g.row(1), "00-")
	wantSigns(t, g.row(2), "00-")
	wantSigns(t, g.row(3), "1--")
}

func TestHalfTypedSignsAreNotWritten(t *testing.T) {
	g := newGrower(t).shelves()
	entries := len(g.board.desk.book.Entries())
	g.keys("3", "3", "j").sees("Signs not finished, nothing written")
	if n := len(g.board.desk.book.Entries()); n != entries {
		t.Errorf("%d entries were written", n-entries)
	}
	g.keys("7").sees("Grades go from 0 to 3")
}

// Key repeat and slow links join keys into one message; joined keys must work
// like single ones.
func TestJoinedKeysAreTakenOneByOne(t *testing.T) {
	g := newGrower(t).shelves()
	g.keys("210f")
	wantSigns(t, g.row(1), "210")
	wantSigns(t, g.row(2), "00-")
}

func TestSignsForARangeAndAWholeShelf(t *testing.T) {
	g := newGrower(t).shelves()
	entries := len(g.board.desk.book.Entries())
	g.keys("v", "j", "j", "1", "0", "-")
	for id := model.ID(1); id <= 3; id++ {
		wantSigns(t, g.row(id), "10-")
	}
	wantSigns(t, g.row(4), "---")
	g.keys("l", "A", "f")
	for id := model.ID(5); id <= 7; id++ {
		wantSigns(t, g.row(id), "00-")
	}
	if n := len(g.board.desk.book.Entries()) - entries; n != 2 {
		t.Errorf("%d entries, want one for the range and one for the shelf", n)
	}
}

func TestStrikeSurvivesARestart(t *testing.T) {
	g := newGrower(t).shelves()
	g.keys("3", "3", "1")
	g.keys("u").sees("Undone:")
	wantSigns(t, g.row(1), "---")
	g.restart(time.Minute)
	wantSigns(t, g.row(1), "---")
	g.keys("U").sees("Redone")
	wantSigns(t, g.row(1), "331")
	g.restart(time.Minute)
	wantSigns(t, g.row(1), "331")
}

func TestResizingKeepsTheCursorsPlant(t *testing.T) {
	g := newGrower(t).shelves()
	g.keys("l", "j") // capitata on Loft
	at := g.board.front().list().current()
	g.size(60, 20)
	g.size(160, 50)
	if now := g.board.front().list().current(); now != at {
		t.Errorf("after resizing the cursor is on %d, want %d", now, at)
	}
	g.keys("o").sees("Order: thirstiest first")
	if l := g.board.front().list(); l.current() != l.groupIDs()[0] {
		t.Error("the order by thirst does not begin at its top")
	}
}

func TestThirstiestFirstPutsWarningsAndDryOnTop(t *testing.T) {
	g := newGrower(t).shelves()
	g.keys("l", "3", "3", "2", "o")
	ids := g.board.front().list().groupIDs()
	if ids[0] != 5 {
		t.Errorf("first is plant %d, want the rolled-up 5", ids[0])
	}
	for i := 1; i < len(ids); i++ {
		if g.board.desk.need(ids[i-1]).RWC > g.board.desk.need(ids[i]).RWC {
			t.Errorf("plant %d comes before the thirstier %d", ids[i-1], ids[i])
		}
	}
}

func TestFindAndFilter(t *testing.T) {
	g := newGrower(t).shelves()
	g.keys("/").types("capi").keys("enter")
	if at := g.board.front().list().current(); at != 6 {
		t.Errorf("found plant %d, want capitata, 6", at)
	}
	g.keys("F", "/").types("shelf:bay form:b").keys("enter").sees("bulbosa").doesNotSee("stricta")
	g.keys("F", "/", "ctrl+u").types("colour:red").keys("enter").sees("is not a way to choose")
	g.keys("esc").sees("stricta")
	g.keys("/").types("nothing like it").keys("enter").sees("No plant matches nothing like it")
}

// Band, form, leaf and shelf have a key each under F, and what is chosen stands over
// the list at every width.
func TestAKeyEachForBandFormLeafAndShelf(t *testing.T) {
	g := newGrower(t).shelves()
	g.keys("F", "s").sees("Bay only").sees("bulbosa").doesNotSee("capitata")
	g.keys("f").sees("Bay, bulbous only").sees("bulbosa").doesNotSee("stricta")
	g.keys("a", "s", "s", "f").sees("Loft, rosette only").sees("capitata").doesNotSee("fuchsii")
	g.keys("b").sees("Loft, rosette, Long only").sees("capitata").keys("b", "b")
	g.keys("l", "l").sees("xeric only").sees("xerographica").doesNotSee("capitata").keys("enter")
	for _, width := range []int{60, 80, 100, 160} {
		g.size(width, 24)
		g.sees("Loft, rosette")
	}
	g.keys("F", "a").sees("stricta").keys("esc").sees("Loft, rosette, xeric only").keys("esc").sees("stricta")
}

func TestAddEditMoveSplitGone(t *testing.T) {
	g := newGrower(t).shelves()
	g.keys("+").types("T. ionantha").keys("tab").types("new one").keys("ctrl+s").sees("Added")
	r := g.row(8)
	if r.Home.Shelf != "Bay" || r.Form != model.Rosette || !r.Assumed.Form {
		t.Errorf("new plant %+v: want shelf Bay and the assumed form of its species", r.Plant)
	}
	g.keys("e", "tab", "tab", "tab", "tab", "ctrl+u").types("big").keys("ctrl+s").sees("\"big\" is not a number")
	g.keys("ctrl+u").types("9 cm").keys("ctrl+s")
	if r := g.row(8); r.Size != 9 || r.Assumed.Size {
		t.Errorf("size %v, assumed %v", r.Size, r.Assumed.Size)
	}
	g.keys("M", "ctrl+u").types("Loft").keys("tab", "ctrl+u").types("9").keys("ctrl+s")
	if h := g.row(8).Home; h != (model.Home{Shelf: "Loft", Spot: "9"}) {
		t.Errorf("home %v", h)
	}
	g.keys("/").types("tray").keys("enter", "y", "ctrl+u").types("5").keys("ctrl+s")
	if g.row(4).Count != 7 || g.row(9).Count != 5 {
		t.Errorf("tray %d and part %d, want 7 and 5", g.row(4).Count, g.row(9).Count)
	}
	g.keys("x").types("lost").keys("ctrl+s").sees("Give the cause")
	g.types("rot").keys("ctrl+s")
	if r := g.row(4); r.State != model.Gone || r.GoneCause != "rot" {
		t.Errorf("state %v, cause %q", r.State, r.GoneCause)
	}
	g.doesNotSee("4      ionantha tray")
}

func TestSplitIsRefusedWithAReasonForASinglePlant(t *testing.T) {
	newGrower(t).shelves().keys("y").sees("Only a tray of several, or a mother with offsets")
}

func TestPastedTextDoesNothingOutsideForms(t *testing.T) {
	g := newGrower(t).shelves()
	entries := len(g.board.desk.book.Entries())
	msg := keyNamed("fffu")
	msg.Paste = true
	g.send(msg)
	if n := len(g.board.desk.book.Entries()); n != entries {
		t.Errorf("pasting wrote %d entries", n-entries)
	}
}

func TestOffsetsAreSeparatedWithTheirLineage(t *testing.T) {
	g := newGrower(t).shelves()
	g.keys("I").types("3").keys("tab").types("40").keys("ctrl+s").keys("enter").sees("may be separated").keys("esc")
	g.keys("y", "tab", "ctrl+u").types("stricta pup").keys("ctrl+s")
	pup := g.row(8)
	if pup.Mother != 1 || pup.Size != 6 || g.row(1).Offsets != 2 {
		t.Errorf("mother %d, size %v, %d offsets left; want 1, 6 and 2", pup.Mother, pup.Size, g.row(1).Offsets)
	}
	g.keys("/").types("pup").keys("enter", "enter").sees("offset of #1")
}

// The cursor passes over plants that are not at home, and marks leave them out; a
// plant that is sought is found wherever it is.
func TestTheCursorPassesOverPlantsAwayFromHome(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now, &model.Soak{Load: 1, Vessel: "tub", Due: g.now.Add(time.Hour)}, 1, 3)
	g.keys("T", "t", "home").sees("in tub, out 10:00")
	if at := g.board.plant(); at != 2 {
		t.Errorf("cursor on plant %d, want 2", at)
	}
	g.keys("j", "k", "A", "f", "u")
	if e := g.board.desk.book.Entries(); len(e[len(e)-2].Plants) != 2 {
		t.Errorf("marked %v, want 2 and 4", e[len(e)-2].Plants)
	}
	g.keys("/").types("tectorum").keys("enter")
	if at := g.board.plant(); at != 3 {
		t.Errorf("found plant %d, want 3", at)
	}
}

// Two plants hung on each other's hooks are put right in one key, and one key undoes it.
func TestTwoPlantsSwapTheirHooks(t *testing.T) {
	g := newGrower(t).shelves().keys("X").sees("Swapped: stricta by the door on Bay 2")
	if one, two := g.row(1).Home.Spot, g.row(2).Home.Spot; one != "2" || two != "1" {
		t.Errorf("on hooks %s and %s, want 2 and 1", one, two)
	}
	g.keys("u").sees("Undone: swapped")
	if one, two := g.row(1).Home.Spot, g.row(2).Home.Spot; one != "1" || two != "2" {
		t.Errorf("after undoing on hooks %s and %s, want 1 and 2", one, two)
	}
	g.keys("home", "space", "j", "j", "X").sees("Swapped: stricta by the door on Bay 4") // wherever the other hangs
	if one, four := g.row(1).Home.Spot, g.row(4).Home.Spot; one != "4" || four != "1" {
		t.Errorf("on hooks %s and %s, want 4 and 1", one, four)
	}
	g.keys("u", "home", "space", "space", "space", "X").sees("Mark the two plants").keys("esc")
	g.enters(g.now, &model.Move{To: g.row(1).Home}, 2).keys("home", "X").sees("both hang on Bay 1")
	g.doesNotSee("Swapped")
}

// What has lost nearly all it can bear to lose is said as an alarm at every width,
// and why stands under the list (Benzing & Dahle 1971: injury from 75 to 80 %).
func TestBadlyDryIsAnAlarm(t *testing.T) {
	g := newGrower(t).shelves()
	g.after(120 * 24 * time.Hour)
	for _, width := range []int{60, 80, 100, 160} {
		g.size(width, 30)
		g.sees("BADLY DRY, look first")
	}
	g.size(100, 30)
	g.sees("Benzing & Dahle 1971")
}

// Signs keyed in on the wrong one of two plants of a name are moved to the right
// one in two keys: n to the other, R.
func TestSignsOnTheWrongOfTwoNamesakesAreMoved(t *testing.T) {
	g := newGrower(t).shelves()
	other := g.row(6).Plant
	other.Label = "bulbosa"
	g.enters(g.now, &model.Edit{Plants: []model.Plant{other}}, 6)
	g.keys("home", "j", "2", "1", "0")
	wantSigns(t, g.row(2), "210")
	g.keys("n", "R").sees("Moved to this plant: ")
	wantSigns(t, g.row(2), "---")
	wantSigns(t, g.row(6), "210")
	g.keys("R").sees("is of this plant")
	g.keys("u")
	wantSigns(t, g.row(6), "---")
	g.keys("home", "n").sees("No other plant here is called stricta by the door")
}

// When the last plant is looked at that is said, with how the thirsty are pulled; and a
// digit more does not grade it again unasked.
func TestTheEndOfAWalk(t *testing.T) {
	g := newGrower(t).shelves()
	g.keys("f", "f", "f", "f", "2", "1", "0", "f", "f").sees("All looked at; P pulls the thirsty, ").sees("from Dip on")
	g.keys("3").sees("xerographica is looked at, the last in the list; once more grades it again").doesNotSee("3 _")
	wantSigns(t, g.row(7), "00-")
	g.keys("3", "2", "1")
	wantSigns(t, g.row(7), "321")
	g.keys("f").sees("once more grades it again")
	wantSigns(t, g.row(7), "321")
}

// A bloom past its time is asked about in the list and under it: one key for yes, one
// for no. Badly dry and in bloom is listed where danger is.
func TestALateBloomIsAskedAboutInTriage(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(soakDay.AddDate(0, 0, -40), &model.Bloom{Stage: model.Open}, 5, 6)
	g.keys("l").sees("still in bloom?").sees("Still in bloom? B yes, b no, it is over.")
	g.keys("B").sees("Still in bloom; asked again after 14 days").doesNotSee("B yes")
	g.after(15 * 24 * time.Hour).sees("B yes")
	g.keys("l")
	if g.keys("3", "2", "-").row(5).Bloom.IsZero() {
		t.Fatal("no longer in bloom")
	}
	g.keys("o").sees("BADLY DRY, in bloom?")
	if ids := g.board.front().list().groupIDs(); !slices.Contains(ids, 5) {
		t.Errorf("%v are first, without the one badly dry in bloom", ids)
	}
	g.keys("o").sees("In danger").keys("home", "b").sees("spent its bloom")
	if n := g.board.desk.need(5); !n.Band.InWater() {
		t.Errorf("after its bloom it is to have %s", n.Band)
	}
}

// A word typed into the filter's menu filters by it; the keys of the menu stay keys.
func TestAWordFiltersFromTheMenu(t *testing.T) {
	g := newGrower(t).shelves().keys("F", "c", "a", "p", "i", "enter").sees("capitata").doesNotSee("stricta")
	g.keys("esc", "F", "s", "x", "e", "r", "o").doesNotSee("xerographica").keys("esc").sees("Bay only").keys("esc").sees("xerographica")
}
