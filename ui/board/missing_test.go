package board

import (
	"slices"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// A plant that is not there when its load is pulled, or when it is laid in, is left for another
// day with one key of the plan, and nobody is sent to fetch it.
func TestAPlantThatIsNotThereIsLeftForAnotherDay(t *testing.T) {
	for _, pulled := range []bool{false, true} {
		g := onPlan(t).keys("y")
		if pulled {
			g.upTo(soak.Pull)
		}
		s := g.board.front().(*planScreen)
		plants, left := s.plan.Count(), len(s.plan.Left)
		id := s.plan.Loads[s.rows.cursor].Plants[0].ID
		if pulled {
			id = g.board.desk.book.Waiting()[0]
		}
		g.after(doublePress)
		s.led = true
		load, _, _ := s.plan.Placed(id)
		s.rows.put(load)
		g.keys("m").sees("which plant is not there?")
		list := g.board.desk.over[0].(*missing)
		list.rows.put(slices.Index(list.ids, id))
		g.keys("enter").sees("left for another day; u takes it back").sees("for another day").doesNotSee("o time any more")
		notThere := func() {
			t.Helper()
			if _, _, placed := s.plan.Placed(id); placed || s.plan.Count() != plants-1 || len(s.plan.Left) != left+1 {
				t.Errorf("pulled %v: %d plants, not %d; %d left:\n%s", pulled, s.plan.Count(), plants-1, len(s.plan.Left), g.screen())
			}
			if len(s.plan.Back(g.board.desk.book)) > 0 || g.board.desk.book.Waiting().Has(id) {
				t.Error("it is to be carried home, though nobody has found it")
			}
			if next := s.nextStep(); next != nil && next.Do == soak.Pull && next.Plants.Has(id) {
				t.Errorf("it is to be pulled next")
			}
		}
		notThere()
		g.keys("w").sees("Left for another day").keys("esc")
		g.upTo(soak.PutIn)
		if g.row(id).State == model.Soaking {
			t.Error("it goes in with the others")
		}
		plants = s.plan.Count() + 1
		g.restart(time.Minute)
		g.keys("T", "p")
		s = g.board.front().(*planScreen)
		notThere()
		placed := false
		for n := 0; n < 12 && !placed; n++ {
			g.keys("u")
			_, _, placed = s.plan.Placed(id)
			placed = placed && g.board.desk.book.AgreedPlan(g.now) != nil
		}
		if !placed {
			t.Errorf("pulled %v: taken back, it is not in the plan", pulled)
		}
	}
}

// A plant put back on another screen is not fetched again before what is due.
func TestAPlantPutBackIsNotWhatIsNext(t *testing.T) {
	g := onPlan(t).keys("y")
	g.upTo(soak.Pull)
	id := g.board.desk.book.Waiting()[0]
	g.enters(g.now, &model.PutBack{}, id)
	if next := g.board.front().(*planScreen).nextStep(); next.Do == soak.Pull && next.Plants.Has(id) {
		t.Errorf("it is to be pulled again:\n%s", g.screen())
	}
	g.enters(g.now, &model.Pull{}, id)
	if _, _, placed := g.planned().Placed(id); !placed {
		t.Error("pulled again it has no place")
	}
}
