package board

import (
	"testing"
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// onPlan is a grower with the day's plan in front of her.
func onPlan(t *testing.T) *grower {
	t.Helper()
	return newGrower(t).shelves().keys("T", "p").sees("▸Plan").sees("Steps").sees("hands")
}

// doStep puts the cursor on the first step of a kind and does it.
func (g *grower) doStep(do soak.Do) *grower {
	g.t.Helper()
	s := g.board.front().(*planScreen)
	for i, step := range s.plan.Steps {
		if step.Do == do {
			g.keys("g")
			for range i {
				g.keys("j")
			}
			return g.keys("d")
		}
	}
	g.t.Fatalf("no step %v in the plan", do)
	return g
}

func TestThePlanIsFollowedStepByStep(t *testing.T) {
	g := onPlan(t)
	g.doStep(soak.Fill)
	if len(g.board.filled) == 0 {
		t.Error("no vessel was filled")
	}
	g.doStep(soak.PutIn)
	loads := g.board.book.OpenLoads()
	if len(loads) != 1 {
		t.Fatalf("%d loads in the water, want 1", len(loads))
	}
	g.after(loads[0].Due.Sub(g.now)).keys("esc") // the clock comes forward
	g.doStep(soak.GetOut)
	if g.row(loads[0].Plants[0]).State != model.Drying {
		t.Error("the load is not out")
	}
}

// Each plant's own window holds for the time the plan gives it.
func TestThePlannedTimesLieInTheWindows(t *testing.T) {
	g := onPlan(t)
	s := g.board.front().(*planScreen)
	for _, l := range s.plan.Loads {
		for _, p := range l.Plants {
			if in := int(p.Out.Sub(p.In).Seconds()); in < p.From || in > p.To {
				t.Errorf("plant %d is in for %d s, its window is %d to %d", p.ID, in, p.From, p.To)
			}
		}
	}
}

// Something else than planned is normal: the plan flows on and says so.
func TestThePlanFlowsOnWhenLifeIntervenes(t *testing.T) {
	g := onPlan(t)
	before := g.board.front().(*planScreen).plan
	load := before.Loads[0]
	g.now = g.now.Add(40 * time.Minute)
	g.enters(g.now, &model.Rot{}, load.Plants[0].ID).sees("Plan changed: ")
	after := g.board.front().(*planScreen).plan
	if _, _, planned := after.Placed(load.Plants[0].ID); planned {
		t.Error("a plant with suspected rot is still planned")
	}
	if !after.Steps[0].At.After(before.Steps[0].At) {
		t.Errorf("the first step is still at %v", after.Steps[0].At)
	}
}

func TestThePullListAndTheHours(t *testing.T) {
	g := onPlan(t)
	s := g.board.front().(*planScreen)
	for i, step := range s.plan.Steps {
		if step.Do == soak.PutIn {
			s.rows.cursor = i
			break
		}
	}
	g.keys("enter").sees("in walking order").keys("esc").keys("p")
	if len(g.board.book.Waiting()) == 0 {
		t.Error("nothing was pulled")
	}
	g.keys("H", "ctrl+u").types("10:30").keys("ctrl+s").sees("10:30")
	g.keys("H", "ctrl+u").types("half past ten").keys("ctrl+s").sees("is not an hour")
}

func TestAShelfMovesToAnotherDayAndStays(t *testing.T) {
	g := newGrower(t).shelves().keys("T", "w").sees("▸Week").sees("proposed")
	s := g.board.front().(*weekScreen)
	was, entries := s.turn().Day, len(g.board.book.Entries())
	g.keys("l").sees("enter keep").sees("moved")
	if n := len(g.board.book.Entries()); n != entries {
		t.Fatal("looking at a move wrote it down")
	}
	to := s.to
	g.keys("enter").sees("kept")
	if now := s.turn(); now.Day != to || to == was {
		t.Errorf("the shelf is on %s, want %s", now.Day, to)
	}
	g.keys("u").sees("Struck:")
	if s.turn().Kept {
		t.Error("striking did not take the day back")
	}
}

func TestATripSaysWhomToSoakBefore(t *testing.T) {
	g := newGrower(t).shelves().keys("T", "v").sees("▸Trip").sees("7 days away")
	g.keys(".").sees("8 days away").keys(",", ",").sees("6 days away")
	g.keys("H", "ctrl+u").types("2026-01-20").keys("tab", "ctrl+u").types("2026-01-10").keys("ctrl+s").sees("Come home after you leave")
	g.keys("ctrl+u").types("2026-02-03").keys("ctrl+s").sees("14 days away").sees("Soak on the last day")
	g.keys("K")
	if trip, ok := g.board.book.LastTrip(); !ok || trip.Until.Day() != 3 {
		t.Errorf("the book has the trip %+v", trip)
	}
}

// Plants without a shelf are not shown as moved when nobody moved them.
func TestPlantsWithoutAShelfAreNotMovedByThemselves(t *testing.T) {
	g := newGrower(t).keys("+").types("Foxglove").keys("ctrl+s", "T", "w")
	g.sees("No shelf").sees("proposed").doesNotSee("moved").doesNotSee("1 plants")
	g.keys("l").sees("No shelf: sun instead of sat").keys("enter").sees("Soak days: no shelf sun")
}
