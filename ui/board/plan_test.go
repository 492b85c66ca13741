package board

import (
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/ui/show"
)

// onPlan is a grower with the day's plan in front of her.
func onPlan(t *testing.T) *grower {
	t.Helper()
	return newGrower(t).shelves().keys("T", "p").sees("▸Plan").sees("Next").sees("Proposed: y agrees")
}

func (g *grower) planned() *day.Plan { return g.board.front().(*planScreen).plan }

// upTo does the next thing of the plan until one of a kind is done. What is to come
// is waited for.
func (g *grower) upTo(do soak.Do) *grower {
	g.t.Helper()
	for range 40 {
		p := g.planned()
		i := p.Next()
		if i < 0 {
			break
		}
		next := p.Steps[i]
		if next.At.After(g.now) {
			g.after(next.At.Sub(g.now)).keys("esc")
		}
		g.now = g.now.Add(doublePress) // nobody does two steps within a moment
		if g.keys("d"); next.Do == do {
			return g
		}
	}
	g.t.Fatalf("no step %v is left in the plan", do)
	return g
}

func TestThePlanIsAgreedAndFollowedStepByStep(t *testing.T) {
	g := onPlan(t)
	loads := len(g.planned().Loads)
	g.keys("y").sees("Agreed").doesNotSee("Proposed")
	if g.upTo(soak.Fill); len(g.board.desk.filled) == 0 {
		t.Error("no vessel was filled")
	}
	g.upTo(soak.PutIn)
	if n := len(g.board.desk.book.OpenLoads()); n != 1 {
		t.Fatalf("%d loads in the water, want 1", n)
	}
	first := g.board.desk.book.OpenLoads()[0].Plants[0]
	g.restart(time.Minute)
	g.keys("T", "p").doesNotSee("Proposed")
	if n := len(g.planned().Loads); n != loads {
		t.Errorf("after a restart %d loads, not %d", n, loads)
	}
	for g.row(first).State == model.Soaking {
		g.upTo(soak.GetOut)
	}
	g.sees("✓")
	for g.planned().Next() >= 0 {
		g.upTo(g.planned().Steps[g.planned().Next()].Do)
	}
	g.sees("All is done")
	if left := g.board.desk.book.OpenLoads(); len(left) != 0 {
		t.Errorf("%d loads are still in the water", len(left))
	}
}

// Each plant's own window holds for the time the plan gives it.
// What the shell's plan notes below it stands on the Plan screen as well.
func TestThePlanScreenSaysWhatToKnowBeforeTheFirstStep(t *testing.T) {
	onPlan(t).sees("Your rule: tap water stands 12 h before plants go in")
}

func TestThePlannedTimesLieInTheWindows(t *testing.T) {
	for _, l := range onPlan(t).planned().Loads {
		for _, p := range l.Plants {
			if in := int(p.Out.Sub(p.In).Seconds()); in < p.Least || in > p.Most {
				t.Errorf("plant %d is in for %d s, its window is %d to %d", p.ID, in, p.Least, p.Most)
			}
		}
	}
}

// Something else than planned is normal: times slide and the plan says so.
func TestAnAgreedPlanSlidesWhenTheHandsAreLate(t *testing.T) {
	g := onPlan(t).keys("y")
	before := g.planned()
	g.after(40 * time.Minute).sees("instead of")
	after := g.planned()
	if len(after.Loads) != len(before.Loads) {
		t.Errorf("%d loads, not %d: nothing had to be made up again", len(after.Loads), len(before.Loads))
	}
	for i, l := range after.Loads {
		if !slices.Equal(l.IDs(), before.Loads[i].IDs()) {
			t.Errorf("load %d holds other plants", i+1)
		}
		if l.Start.Before(g.now) {
			t.Errorf("load %d goes in at %v, which is past", i+1, l.Start)
		}
	}
	sick := after.Loads[0].Plants[0].ID
	g.enters(g.now, &model.Rot{}, sick)
	if _, _, planned := g.planned().Placed(sick); planned {
		t.Error("a plant with suspected rot is still planned")
	}
}

// Who is not in the plan stands under one heading for each reason, whatever the minutes;
// the list is laid out for the window as it is, and the cursor stays on its plant.
func TestWhoIsNotInThePlanIsLaidOutForTheWindow(t *testing.T) {
	g := onPlan(t)
	p := g.planned()
	p.Left = nil
	for i, id := range g.board.desk.book.IDs()[:4] {
		p.Left = append(p.Left, day.LeftOut{ID: id, Unplaced: &soak.LeftOut{Why: soak.DryTooLate, By: 60 * (i + 5)}})
	}
	g.keys("w", "j")
	for _, size := range [][2]int{{60, 20}, {160, 50}, {80, 24}} {
		g.size(size[0], size[1])
		if n := strings.Count(g.screen(), "Its turn comes too late"); n != 1 || strings.Contains(g.screen(), "…") {
			t.Errorf("%d headings of one reason, or one is cut:\n%s", n, g.screen())
		}
		g.sees("5 min too late").sees("8 min too late").sees("4 plants ")
	}
	g.keys("enter").sees(g.board.desk.book.Row(p.Left[1].ID).Label).sees("for 6 min more")
}

func TestALoadIsSkippedAndBroughtBack(t *testing.T) {
	g := onPlan(t).keys("x").sees("Agree to the plan first").keys("y")
	n, first := len(g.planned().Loads), g.planned().Loads[0].Plants[0].ID
	g.keys("x").sees("another day")
	if _, _, placed := g.planned().Placed(first); placed || len(g.planned().Loads) != n-1 {
		t.Errorf("%d loads, want %d without plant %d", len(g.planned().Loads), n-1, first)
	}
	g.keys("w").sees("Not today").sees("Left for another day ─").keys("enter").sees("Why not today").sees("What it needs")
	g.keys("esc", "esc", "u")
	if _, _, placed := g.planned().Placed(first); !placed {
		t.Error("striking did not bring the load back")
	}
	g.keys("l").sees("quarter of an hour later")
	if at := g.planned().Steps[g.planned().Next()].At; at.Before(g.now.Add(15 * time.Minute)) {
		t.Errorf("the next thing is at %v", at)
	}
}

// The day breaks off: one key takes out everything, and one u takes that back.
func TestEverythingOutNow(t *testing.T) {
	g := onPlan(t).keys("X").sees("Nothing is in the water").keys("y")
	g.upTo(soak.PutIn)
	in := len(g.board.desk.book.StillIn(g.board.desk.book.OpenLoads()[0]))
	g.keys("X").sees("X again writes them out").doesNotSee("Stopped")
	g.keys("j", "X").sees("X again writes them out").doesNotSee("Stopped") // another key between
	g.keys("X").sees("Take out now, in this order: ").sees("Stopped at ").sees("left for tomorrow").doesNotSee("All is done")
	written := len(g.board.desk.book.Entries())
	if g.keys("X", "X").sees("You have stopped for today"); len(g.board.desk.book.Entries()) != written {
		t.Error("who has stopped stops again")
	}
	if n := len(g.board.desk.book.OpenLoads()); n != 0 {
		t.Errorf("%d loads are still in", n)
	}
	if n := len(g.board.desk.book.Waiting()); n > 0 {
		g.sees("Put back")
	}
	g.keys("u").sees("stopped for today").doesNotSee("Stopped at ").keys("u")
	if n := len(g.board.desk.book.StillIn(g.board.desk.book.OpenLoads()[0])); n != in {
		t.Errorf("%d are back in, not %d", n, in)
	}
}

func TestTheLoadAsItLiesAndTheHours(t *testing.T) {
	g := onPlan(t).keys("enter").sees("As they lie").sees("walking order").keys("esc")
	g.keys("H", "ctrl+u").types("10:30").keys("ctrl+s").sees("10:30")
	g.keys("H", "ctrl+u").types("half past ten").keys("ctrl+s").sees("is not an hour")
}

func TestAShelfMovesToAnotherDayAndStays(t *testing.T) {
	g := newGrower(t).shelves().keys("T", "w").sees("▸Week").sees("proposed")
	s := g.board.front().(*weekScreen)
	was, entries := s.turn().Day, len(g.board.desk.book.Entries())
	g.keys("l").sees("enter keep").sees("moved")
	if n := len(g.board.desk.book.Entries()); n != entries {
		t.Fatal("looking at a move wrote it down")
	}
	to := s.to
	g.keys("enter").sees("kept")
	if now := s.turn(); now.Day != to || to == was {
		t.Errorf("the shelf is on %s, want %s", now.Day, to)
	}
	g.keys("u").sees("Undone:")
	if s.turn().Kept {
		t.Error("striking did not take the day back")
	}
}

// What the preview of a move shows is what is kept, for every shelf.
func TestThePreviewOfAMoveIsWhatIsKept(t *testing.T) {
	g := newGrower(t).shelves().keys("T", "w", "l")
	s := g.board.front().(*weekScreen)
	var shown []model.Weekday
	for _, turn := range s.week.Shelves {
		shown = append(shown, turn.Day)
	}
	g.keys("enter")
	for i, turn := range s.week.Shelves {
		if turn.Day != shown[i] || !turn.Kept {
			t.Errorf("shelf %s was shown on %s, and is on %s, kept %v", turn.Shelf, shown[i], turn.Day, turn.Kept)
		}
	}
}

func TestATripSaysWhomToSoakBefore(t *testing.T) {
	g := newGrower(t).shelves().keys("T", "v").sees("▸Trip").sees("7 days away")
	g.keys(".").sees("8 days away").keys(",", ",").sees("6 days away")
	g.keys("H", "ctrl+u").types("2026-01-20").keys("tab", "ctrl+u").types("2026-01-10").keys("ctrl+s").sees("Come home after you leave")
	g.keys("ctrl+u").types("2026-02-03").keys("ctrl+s").sees("14 days away").sees("Soak on the last day")
	g.keys("K")
	if trip, ok := g.board.desk.book.LastTrip(); !ok || trip.Until.Day() != 3 {
		t.Errorf("the book has the trip %+v", trip)
	}
}

// Plants without a shelf are not shown as moved when nobody moved them.
func TestPlantsWithoutAShelfAreNotMovedByThemselves(t *testing.T) {
	g := newGrower(t).keys("+").types("Foxglove").keys("ctrl+s", "T", "w")
	g.sees("No shelf").sees("proposed").doesNotSee("moved").doesNotSee("1 plants")
	g.keys("l").sees("No shelf: Sun instead of Sat").keys("enter").sees("Soak days: no shelf sun")
}

// Hands so late that plants are left out: they stay so when the next thing is done, on the
// board or on another screen than the plan's.
func TestWhoIsLeftOutStaysSoWhenAStepIsDone(t *testing.T) {
	for name, does := range map[string]func(g *grower){
		"the next thing": func(g *grower) { g.keys("d", "d") },
		"in the shell":   func(g *grower) { g.enterInShell(g.planned(), g.board.front().(*planScreen).nextStep()) },
		"on other screen": func(g *grower) {
			g.keys("t").board.desk.enter(&model.Fill{Vessel: "tub"})
			g.board.sync()
			g.keys("p")
		},
	} {
		g := onPlan(t).keys("y")
		for hours := 0; !g.planned().Lost; hours++ {
			if hours > 24 {
				t.Fatal("the day is over before a plant is lost")
			}
			g.after(30 * time.Minute)
		}
		g.sees("o time any more for")
		at, shown := g.now, g.planned()
		if n := shown.Count(); n == 0 {
			t.Fatalf("%s: nobody is left to go in", name)
		}
		does(g)
		if is := g.board.desk.book.AgreedPlan(g.now); is.At.Before(at.Add(-time.Minute)) {
			t.Errorf("%s: agreed at %v, and a step was done at %v", name, is.At, at)
		}
		for _, l := range shown.Left {
			if _, _, planned := g.planned().Placed(l.ID); planned {
				t.Errorf("%s: plant %d was left out, and is in the plan", name, l.ID)
			}
		}
	}
}

// A plan made again is looked at for as long as she likes: the one she agreed to stands
// until y, and esc goes back to it.
func TestAPlanMadeAgainWaitsForAYes(t *testing.T) {
	g := onPlan(t).keys("y").after(time.Minute).doesNotSee("Proposed")
	agreed := g.board.desk.book.AgreedPlan(g.now).At
	g.keys("s").sees("Proposed: y agrees").after(5 * time.Minute).sees("Proposed: y agrees")
	g.keys("esc").sees("The plan you agreed to stands").doesNotSee("Proposed")
	if at := g.board.desk.book.AgreedPlan(g.now).At; !at.Equal(agreed) {
		t.Errorf("agreed at %v, and now at %v", agreed, at)
	}
	g.keys("s", "y").sees("Agreed")
	if at := g.board.desk.book.AgreedPlan(g.now).At; !at.After(agreed) {
		t.Errorf("agreed again, and the plan is still that of %v", at)
	}
}

// Where there is room the load under the cursor is drawn below the loads.
func TestTheLoadUnderTheCursorIsDrawnWhereThereIsRoom(t *testing.T) {
	g := onPlan(t)
	l := g.planned().Loads[0]
	g.size(160, 50)
	g.sees("Load 1, " + l.Vessel).sees("in the order to pull them").sees(g.row(l.Plants[len(l.Plants)-1].ID).Home.Spot)
}

// A terminal without signs beyond ASCII shows the lanes as well, and none of them as
// something it does not know.
func TestTheLanesInASCII(t *testing.T) {
	g := onPlan(t)
	for _, line := range strings.Split(g.screen(), "\n") {
		for _, lane := range []string{" bucket 1 ", " tap ", " you "} {
			if strings.HasPrefix(line, lane) && strings.Contains(show.ASCII(line), "?") {
				t.Errorf("%q in ASCII is %q", line, show.ASCII(line))
			}
		}
	}
}

// Each vessel's lane says which load lies in it, so that it can be found in the list
// above.
func TestTheLanesSayWhichLoad(t *testing.T) {
	g := onPlan(t)
	g.size(160, 50)
	for i, l := range g.planned().Loads {
		lane := ""
		for _, line := range strings.Split(g.screen(), "\n") {
			if strings.HasPrefix(line, " "+l.Vessel+" ") && strings.ContainsRune(line, laneWater) {
				lane = line
			}
		}
		if !l.Night && !slices.Contains(strings.FieldsFunc(lane, func(r rune) bool { return r < '0' || r > '9' }), strconv.Itoa(i+1)) {
			t.Errorf("load %d is not in the lane of %s: %q", i+1, l.Vessel, lane)
		}
	}
}

// A second press within a moment asks, and the same key again answers; a step done a
// while later is not asked about.
func TestASecondPressWithinAMomentAsks(t *testing.T) {
	g := onPlan(t).keys("y")
	written := func() int { return len(g.board.desk.book.Entries()) }
	before := written()
	g.keys("d")
	if n := written() - before; n != 1 {
		t.Fatalf("the first press wrote %d entries", n)
	}
	g.keys("d").sees("So soon? d again ticks off: ")
	if n := written() - before; n != 1 {
		t.Fatalf("the second press within a moment wrote: %d entries", n)
	}
	if g.keys("d"); written()-before != 2 {
		t.Fatalf("the same key again did not answer: %d entries", written()-before)
	}
	if g.after(doublePress).keys("d").doesNotSee("So soon?"); written()-before != 3 {
		t.Fatalf("a while later the key does nothing: %d entries", written()-before)
	}
}

// While a plan is being made its page says what is known already, how long it has taken
// and the way out; the plan that stood there before is still to be read.
func TestAPlanInTheMakingSaysWhatIsKnown(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now.Add(-time.Minute), &model.Soak{Load: 1, Vessel: "tub", Due: g.now.Add(time.Hour)}, 5, 6)
	press := func(keys ...string) { // without waiting for what they begin
		for _, key := range keys {
			g.board.Update(keyNamed(key))
		}
	}
	press("T", "p")
	g.sees("Planning 4 plants …").sees("Esc gives up").sees("2 plants, out 10:00").sees("10 L, no plants in it")
	g.sees("5 h on Saturdays").sees("Short 3, Dip 1").doesNotSee("The plan before")
	g.now = g.now.Add(4 * time.Second)
	g.board.Update(planBeatMsg{})
	g.sees("4 s so far")
	press("esc")
	g.sees("Given up")
	g.keys("s").sees("Proposed: y agrees")
	press("s")
	g.sees("Planning 4 plants …").sees("The plan before").sees("plants").doesNotSee("Proposed: y agrees")
	press("esc")
	g.sees("Proposed: y agrees")
}

// Where there is no room for every lane, that of what is to be done next stays, however
// few plants its vessel soaks; and what is next has a sign of its own, not the cursor's.
func TestTheLaneOfWhatIsNextIsNeverLeftOut(t *testing.T) {
	g := onPlan(t)
	s := g.board.front().(*planScreen)
	s.nextStep().Vessel = "thimble"
	if names := []string{"thimble", "tub", "tap", "you"}; names[s.leastUsed(names)] == "thimble" {
		t.Error("the lane of what is next is the first to go")
	}
	for line := range strings.Lines(g.screen()) {
		if strings.HasPrefix(strings.TrimSpace(line), "▸ ") {
			t.Errorf("a cursor stands before a load: %q", line)
		}
	}
	g.sees(" →    1  ")
}
