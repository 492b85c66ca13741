package board

import (
	"slices"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/ui/show"
)

// puttingIn is a grower with slow hands whose next thing is to put a load in, for some
// minutes from now.
func puttingIn(t *testing.T) *grower {
	t.Helper()
	g := newGrower(t).shelves()
	g.enters(g.now, &model.RuleSet{Name: "hands-in", Value: 150})
	g.keys("T", "p", "y")
	for range 20 {
		if g.planned().Next() < 0 {
			break
		}
		step := g.planned().Steps[g.planned().Next()]
		if step.At.After(g.now) {
			g.after(step.At.Sub(g.now)).keys("esc")
			step = g.planned().Steps[g.planned().Next()]
		}
		if step.Do == soak.PutIn && step.Until.Sub(step.At) >= time.Minute {
			return g
		}
		g.upTo(step.Do)
	}
	t.Fatal("no load takes a minute to put in")
	return nil
}

// A load that is ticked off when it is in has lain there since the hands began with it, and
// its clock runs from then, however late that is written down.
func TestALoadTickedOffWhenItIsInSoaksFromItsBeginning(t *testing.T) {
	for _, late := range []time.Duration{-20 * time.Second, 0, 4 * time.Minute} {
		g := puttingIn(t)
		step := g.planned().Steps[g.planned().Next()]
		began, takes := step.At, step.Until.Sub(step.At)
		g.after(takes / 2).sees("now, until ").after(takes - takes/2 + late)
		if late > 0 {
			began = g.now.Add(-takes)
		}
		g.keys("d", "d")
		loads := g.board.desk.book.OpenLoads()
		if len(loads) == 0 {
			t.Fatalf("%v late: nothing is in the water:\n%s", late, g.screen())
		}
		if in := loads[len(loads)-1].In; in.Sub(began).Abs() > time.Minute {
			t.Errorf("%v late: in at %s, the hands began at %s", late, in.Format("15:04:05"), began.Format("15:04:05"))
		}
	}
}

// A day done as the plan has it and ticked off step by step when each is done is one in
// which every plant was in the water for as long as it may be.
func TestADayTickedOffHasEveryPlantInItsWindow(t *testing.T) {
	g := newGrower(t).shelves()
	for _, rule := range []string{"hands-in", "hands-out", "hands-lay"} {
		g.enters(g.now, &model.RuleSet{Name: rule, Value: 150})
	}
	g.keys("T", "p", "y")
	window := map[model.ID]day.Plant{}
	for _, l := range g.planned().Loads {
		for _, x := range l.Plants {
			window[x.ID] = x
		}
	}
	for range 60 {
		n := g.planned().Next()
		if n < 0 || len(window) == 0 {
			break
		}
		step := g.planned().Steps[n]
		done := step.At
		if step.Do.Hands() {
			done = step.Until
		}
		g.after(max(0, done.Sub(g.now))).keys("esc", "d")
		if g.planned().Next() == n { // it asked
			g.keys("d")
		}
		for _, id := range step.Plants {
			row, x := g.row(id), window[id]
			if step.Do != soak.GetOut || x.ID == 0 {
				continue
			}
			delete(window, id)
			if is := row.Out.Sub(row.In); is < time.Duration(x.Least)*time.Second-time.Minute || is > time.Duration(x.Most)*time.Second+time.Minute {
				t.Errorf("plant %d was in for %v, between %d and %d s", id, is, x.Least, x.Most)
			}
		}
	}
	if len(window) > 0 {
		t.Errorf("%d plants never came out:\n%s", len(window), g.screen())
	}
}

// Where a load was ticked off minutes after it could be in, the screen says from when it takes
// it to have been in, and one key has it in from when the plan had it; where some would have
// been in too long by then, it asks first.
func TestALoadTickedOffLateMayHaveGoneInWhenThePlanHadIt(t *testing.T) {
	for _, asked := range []bool{false, true} {
		g := puttingIn(t)
		s := g.board.front().(*planScreen)
		step := *s.nextStep()
		l := &s.plan.Loads[step.Load]
		late := 6 * time.Minute
		if asked {
			late = time.Duration(l.Plants[0].Most)*time.Second - step.Until.Sub(step.At) + 5*time.Minute
		}
		for range 10 {
			g.after(step.Until.Sub(step.At)/10 + late/10)
		}
		if next := s.nextStep(); !next.Same(step) {
			t.Fatalf("next is %v %s", next.Do, next.Vessel)
		}
		taken := g.now.Add(-step.Until.Sub(step.At))
		hour := func(at time.Time) string { return show.Clock(at, g.now, time.UTC) }
		n := len(g.board.desk.book.OpenLoads())
		if g.keys("d"); asked {
			if len(g.board.desk.book.OpenLoads()) != n {
				t.Fatalf("it is written without a question:\n%s", g.screen())
			}
			g.sees(": d again. In at " + hour(step.At) + ": -, and some are in ").after(doublePress)
		} else {
			in := g.row(step.Plants[0]).In
			if g.sees("in at " + hour(in) + ", out from ").sees("- if it went in at " + hour(step.At)); in.Sub(taken).Abs() > time.Minute {
				t.Errorf("in at %s, not %s", hour(in), hour(taken))
			}
		}
		g.keys("-").sees("in at " + hour(step.At))
		row := g.row(step.Plants[0])
		if load := g.board.desk.book.Load(row.Load); row.In.Sub(step.At).Abs() > time.Minute || load.Due.Sub(row.In) != l.Out.Sub(l.Start) {
			t.Errorf("asked: %v; in at %s and not %s, due %s", asked, hour(row.In), hour(step.At), hour(load.Due))
		}
		if g.keys("-"); g.row(step.Plants[0]).In.Sub(row.In) > -time.Minute {
			t.Errorf("one more, and it is in at %s", hour(g.row(step.Plants[0]).In))
		}
		if g.keys("u"); g.row(step.Plants[0]).State != model.AtHome {
			t.Error("u does not take it out of the book again")
		}
		g.keys("-").sees("right after that")
	}
}

// What comes first by itself, and not because something was ticked off, is asked about.
func TestWhatHasOnlyJustComeFirstIsAskedAbout(t *testing.T) {
	g := puttingIn(t)
	s := g.board.front().(*planScreen)
	changed := *s.plan
	changed.Steps = append(changed.Steps[:0:0], changed.Steps...)
	changed.Steps[changed.Next()].Vessel = "bucket 2"
	s.take(&changed)
	written := len(g.board.desk.book.Entries())
	g.after(doublePress).keys("d").sees("This has only just come first. d again ticks off: ")
	if n := len(g.board.desk.book.Entries()); n != written {
		t.Fatalf("%d entries were written", n-written)
	}
	g.keys("d")
	if n := len(g.board.desk.book.Entries()); n == written {
		t.Error("the same key again does nothing")
	}
}

// Where not every load has room, the head of the list says that more follow.
func TestThePlanSaysThatMoreLoadsFollow(t *testing.T) {
	g := onPlan(t)
	g.size(80, 20)
	s := g.board.front().(*planScreen)
	head := func(loads int) string {
		plan := *s.plan
		for len(plan.Loads) < loads {
			plan.Loads = append(plan.Loads, plan.Loads[0])
		}
		s.take(&plan)
		for line := range strings.Lines(g.screen()) {
			if strings.Contains(line, "vessel") && strings.Contains(line, "plants") {
				return line
			}
		}
		t.Fatalf("there is no head:\n%s", g.screen())
		return ""
	}
	if is := head(14); !strings.Contains(is, " below") && !strings.Contains(is, " +") {
		t.Errorf("14 loads, and the head says %q", is)
	}
	if is := head(40); !strings.Contains(is, " +") {
		t.Errorf("40 loads, and the head says %q", is)
	}
}

// A tap to be opened while the hands are at something has a line and a key of its own, and
// what the hands are at stays next.
func TestATapBesideWhatIsNextHasItsOwnKey(t *testing.T) {
	g := puttingIn(t).after(20 * time.Second).keys("f").sees("No tap is to be opened")
	s := g.board.front().(*planScreen)
	plan := *s.plan
	tap := day.Step{At: g.now, Until: g.now.Add(time.Minute), Do: soak.Fill, Vessel: "tub", Litres: 100}
	plan.Steps = append(slices.Clone(plan.Steps), tap)
	s.take(&plan)
	next, full := *s.nextStep(), len(g.board.desk.filled)
	g.sees("Beside it, now: Fill tub").after(doublePress).keys("f")
	if n := len(g.board.desk.filled); n != full+1 {
		t.Errorf("%d vessels are full, before it were %d:\n%s", n, full, g.screen())
	}
	if is := s.nextStep(); !is.Same(next) {
		t.Errorf("next is %v %s, it was %v %s", is.Do, is.Vessel, next.Do, next.Vessel)
	}
}
