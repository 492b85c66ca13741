package board

import (
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/ui/show"
)

// A load that is ticked out of the water long before its time is asked about, as on the soak
// screen, and so is one put in before its vessel is full; the same key again answers.
func TestAStepTickedOffMuchTooSoonIsAskedAbout(t *testing.T) {
	g := onPlan(t).keys("y")
	g.upTo(soak.PutIn)
	s := g.board.front().(*planScreen)
	for n := range s.plan.Steps {
		if step := &s.plan.Steps[n]; step.Do == soak.GetOut && s.plan.Loads[step.Load].Load != 0 {
			g.after(time.Minute).keys("esc")
			in := len(g.board.desk.loads)
			s.rows.put(step.Load)
			s.led = true
			g.keys("D").sees("early: D again takes them out")
			if len(g.board.desk.loads) != in {
				t.Fatal("it is out without a question")
			}
			if g.keys("D"); len(g.board.desk.loads) != in-1 {
				t.Errorf("the same key again does not take it out:\n%s", g.screen())
			}
			return
		}
	}
	t.Fatal("nothing is to come out")
}

func TestALoadPutInBeforeItsVesselIsFullIsAskedAbout(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now, &model.RuleSet{Name: "tap-flow", Value: 1})
	g.keys("T", "p", "y").upTo(soak.Fill)
	taps := day.Taps(g.board.desk.book, g.now)
	if len(taps) != 1 || !taps[0].Until.After(g.now.Add(time.Minute)) {
		t.Fatalf("taps that run: %v", taps)
	}
	s := g.board.front().(*planScreen)
	g.after(doublePress)
	for n := range s.plan.Steps {
		if step := &s.plan.Steps[n]; step.Do == soak.PutIn && step.Vessel == taps[0].Vessel && !step.Done {
			s.do("D", step)
			g.sees(step.Vessel[1:] + " is full only at ").sees("D again has them in now")
			if len(g.board.desk.loads) > 0 {
				t.Error("it is in without a question")
			}
			return
		}
	}
	t.Fatal("nothing is to go in")
}

// A board that was just opened asks as well when what is next became so a moment ago.
func TestABoardJustOpenedAsksAboutWhatHasOnlyJustComeFirst(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now, &model.VesselSet{Vessel: model.Vessel{Name: "tub"}, Away: true})
	g.enters(g.now, &model.VesselSet{Vessel: model.Vessel{Name: "bucket 2"}, Away: true})
	g.enters(g.now, &model.VesselSet{Vessel: model.Vessel{Name: "bucket 1", Litres: 4}})
	g.enters(g.now, &model.RuleSet{Name: "hands-pull", Value: 300})
	g.keys("T", "p", "y").upTo(soak.PutIn)
	first := *g.board.front().(*planScreen).nextStep()
	for range 600 {
		p := g.keptNow()
		if is := p.Steps[p.Next()]; !is.Same(first) {
			g.restart(20 * time.Second)
			written := len(g.board.desk.book.Entries())
			g.keys("T", "p", "esc", "d").sees("This has only just come first. d again ticks off: ")
			if n := len(g.board.desk.book.Entries()); n != written {
				t.Errorf("%d entries were written", n-written)
			}
			g.restart(2 * time.Minute)
			g.keys("T", "p", "esc", "d").doesNotSee("only just come first")
			return
		}
		g.now = g.now.Add(20 * time.Second)
	}
	t.Fatal("what is next stays so for hours")
}

func (g *grower) keptNow() *day.Plan {
	g.t.Helper()
	p, err := day.Kept(g.t.Context(), g.board.desk.keeper, g.now)
	if err != nil || p.Next() < 0 {
		g.t.Fatal(p, err)
	}
	return p
}

// The cursor is on the load that is next, until the grower moves it; when what is next is done
// it goes back there.
func TestTheCursorIsOnTheLoadThatIsNext(t *testing.T) {
	g := onPlan(t).keys("y")
	s := g.board.front().(*planScreen)
	loads := map[int]bool{}
	for range 12 {
		next := s.nextStep()
		if next == nil {
			break
		}
		if loads[max(0, next.Load)] = true; next.Load >= 0 && s.rows.cursor != next.Load {
			t.Fatalf("the cursor is on load %d, next is load %d", s.rows.cursor+1, next.Load+1)
		}
		if len(s.plan.Loads) > 1 {
			other := "j"
			if s.rows.cursor > 0 {
				other = "k"
			}
			at := s.rows.cursor
			if g.keys(other).after(time.Minute).keys("esc"); s.rows.cursor == at {
				t.Error("a cursor that the grower has moved does not stay")
			}
		}
		g.upTo(next.Do)
	}
	if len(loads) < 2 {
		t.Errorf("only loads %v were next", loads)
	}
}

// The big clock over the plan ticks off what is next with the same key as the plan.
func TestTheBigClockLetsTheTickThrough(t *testing.T) {
	g := puttingIn(t)
	g.after(10 * time.Second)
	written, waiting := len(g.board.desk.book.Entries()), len(g.board.desk.loads)
	g.keys("c").doesNotSee("▸Plan  Next").keys("d")
	if len(g.board.desk.over) > 0 || len(g.board.desk.loads) != waiting+1 {
		t.Errorf("%d entries, %d loads in the water:\n%s", len(g.board.desk.book.Entries())-written, len(g.board.desk.loads), g.screen())
	}
	g.keys("T", "t", "c").keys("d")
	if n := len(g.board.desk.loads); n != waiting+1 {
		t.Errorf("over another screen d ticks off too: %d loads", n)
	}
}

// What the grower leaves for another day is said as her doing, by the number of its load.
func TestALoadThatIsSkippedIsNotSaidToHaveNoTime(t *testing.T) {
	g := onPlan(t).keys("y")
	n := len(g.planned().Loads[g.board.front().(*planScreen).rows.cursor].Plants)
	g.keys("x").doesNotSee("o time any more").sees("oad 1 for another day: ")
	g.sees(show.Count(n, "plant") + " for another day").sees("u takes it back")
}

// Whom the plan drops is dated when it shows that it does, and not some minutes ahead.
func TestWhomThePlanDropsIsDatedWhenItHappens(t *testing.T) {
	g := onPlan(t).keys("y")
	for range 24 * 60 {
		g.after(time.Minute)
		if left, since := g.planned().Dropped(); len(left) > 0 {
			if since.After(g.now) {
				t.Errorf("dropped at %s, and it is %s", since.Format("15:04"), g.now.Format("15:04"))
			}
			return
		}
	}
	t.Fatal("nobody is dropped in a day")
}
