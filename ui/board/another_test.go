package board

import (
	"testing"
	"time"
)

// A plan with a second pair of hands keeps what the grower has put off, says what it is and what
// it would give, and goes back to the agreed one by the key that takes things back.
func TestASecondPairOfHandsIsAskedForAndTakenBack(t *testing.T) {
	for _, key := range []string{"u", "esc"} {
		g := onPlan(t).keys("y", "x")
		s := g.board.front().(*planScreen)
		skipped := s.plan.Otherwise().Skipped
		if len(skipped) == 0 {
			t.Fatal("nothing is put off")
		}
		g.after(time.Minute)
		free, written := s.plan.DayFree, len(g.board.desk.book.Entries())
		g.keys("+")
		for _, id := range skipped {
			if _, _, placed := s.plan.Placed(id); placed {
				t.Errorf("plant %d was put off, and is in the plan", id)
			}
		}
		if is := s.plan.Otherwise().Skipped; len(is) != len(skipped) {
			t.Errorf("%d are put off, not %d", len(is), len(skipped))
		}
		g.sees("Proposed, with two pairs of hands 09:01-10:01: ").sees("free at " + s.plan.DayFree.Format("15:04")).sees("y agrees, u goes back")
		g.keys(key).doesNotSee("Proposed").doesNotSee("Undone")
		if n := len(g.board.desk.book.Entries()); n != written || !s.plan.DayFree.Equal(free) || len(s.plan.Ask.Help) > 0 || len(s.ask.Help) > 0 {
			t.Errorf("%s: %d entries, free at %s, with help %v:\n%s", key, n-written, s.plan.DayFree.Format("15:04"), s.plan.Ask.Help, g.screen())
		}
		g.keys("u").sees("Undone: ")
	}
	g := onPlan(t).keys("+").sees("with two pairs of hands").keys("u").doesNotSee("two pairs").sees("Proposed: y agrees")
	g.keys("+", "y").sees("Agreed").keys("u").sees("Undone: ")
}
