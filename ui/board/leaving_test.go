package board

import (
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
)

// Where a plan is agreed a load is out when the plan has it out, wherever the board says so:
// before that it is not due, and it is not late while the hands are at it. Without a plan it is
// its own clock.
func TestALoadIsOutWhenThePlanHasIt(t *testing.T) {
	g := newGrower(t).shelves()
	g.enters(g.now, &model.Soak{Load: 1, Vessel: "tub", Due: g.now.Add(20 * time.Minute)}, 1, 5)
	from, until := g.now.Add(30*time.Minute), g.now.Add(36*time.Minute)
	g.board.desk.leaving = func() map[model.LoadID]day.Leaving {
		return map[model.LoadID]day.Leaving{1: {From: from, Until: until}}
	}
	bells := func() int { return strings.Count(g.rung.String(), "\a") }
	g.after(22*time.Minute).sees("tub 8 min").keys("T", "s").sees("out 09:30").keys("c").sees("out at 09:30").keys("esc")
	if bells() > 0 {
		t.Error("it rings when only its own clock says so")
	}
	g.after(8 * time.Minute)
	g.sees("take out 2 plants now, until 09:36").keys("esc").sees("tub coming out, until 09:36").sees("coming out ").doesNotSee("late")
	if g.after(2 * time.Minute).after(2 * time.Minute); bells() != 1 {
		t.Errorf("it rings %d times while it comes out", bells())
	}
	g.after(5 * time.Minute).sees("tub OUT 3 min late").keys("c").sees("due since 09:36")
	if bells() != 2 {
		t.Errorf("it rings %d times", bells())
	}
	g.board.desk.leaving = nil
	g.after(0).sees("tub OUT 19 min late")
}

// A board at work on an agreed plan has all its clocks from it.
func TestTheClocksOfAnAgreedPlanAreThoseOfThePlan(t *testing.T) {
	g := puttingIn(t)
	step := *g.board.front().(*planScreen).nextStep()
	g.after(step.Until.Sub(g.now)).keys("d", "d")
	for _, l := range g.board.desk.loads {
		n, x, ok := g.planned().Placed(g.board.desk.book.StillIn(l)[0])
		if !ok {
			t.Fatalf("load %d is not in the plan", l.ID)
		}
		if is := g.board.desk.outAt(l).From; is.Sub(g.planned().Loads[n].Out).Abs() > time.Second {
			t.Errorf("load %d is out at %s, by the plan at %s (plant %s)", l.ID, is.Format("15:04:05"), g.planned().Loads[n].Out.Format("15:04:05"), x.Out.Format("15:04:05"))
		}
	}
	if len(g.board.desk.loads) == 0 {
		t.Fatal("nothing is in the water")
	}
}
