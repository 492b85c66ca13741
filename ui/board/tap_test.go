package board

import (
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// filling is a grower whose tap runs for ten minutes and more.
func filling(t *testing.T) *grower {
	t.Helper()
	g := newGrower(t).shelves()
	g.enters(g.now, &model.RuleSet{Name: "tap-flow", Value: 1})
	return g.keys("T", "p", "y").upTo(soak.Fill)
}

// A tap that runs is told of with its end, on the plan and over every other screen; at its end
// it rings once, and in red until something more is written down, or it must long be off.
func TestATapThatRunsIsToldOfAndRingsAtItsEnd(t *testing.T) {
	g := filling(t)
	if len(g.board.desk.taps) != 1 {
		t.Fatalf("%d taps run", len(g.board.desk.taps))
	}
	tap := g.board.desk.taps[0]
	at := tap.Until.Format("15:04")
	g.sees("Tap on the " + tap.Vessel + " until " + at + ": turn it off then")
	g.keys("T", "t").sees("Tap on the "+tap.Vessel+" until "+at).keys("T", "p")
	if cmd := g.board.tick(); cmd != nil || !g.board.desk.counts() {
		t.Error("nobody counts its seconds")
	}
	if rung := strings.Count(g.rung.String(), "\a"); rung > 0 {
		t.Fatalf("it rings %d times before its end", rung)
	}
	g.after(tap.Until.Sub(g.now)).sees("The " + tap.Vessel + " is full since " + at + ": turn off the tap")
	g.after(time.Minute).after(time.Minute).sees("turn off the tap")
	if rung := strings.Count(g.rung.String(), "\a"); rung != 1 {
		t.Errorf("it rings %d times", rung)
	}
	g.restart(time.Minute)
	g.keys("T", "p").sees("turn off the tap")
	g.after(15 * time.Minute).doesNotSee("turn off the tap")
}

func TestAVesselThatFillsIsNamedInTheStrip(t *testing.T) {
	g := filling(t)
	tap := g.board.desk.taps[0]
	g.enters(g.now, &model.Pull{}, 1)
	g.keys("T", "t").sees(tap.Vessel + " tap until " + tap.Until.Format("15:04"))
	g.after(tap.Until.Sub(g.now)).sees(tap.Vessel + " TAP OFF")
	g.enters(g.now, &model.Pull{}, 2)
	g.doesNotSee("TAP OFF")
}

// One tap fills one vessel: to open it over another asks.
func TestOneTapFillsOneVessel(t *testing.T) {
	g := filling(t)
	s, tap := g.board.front().(*planScreen), g.board.desk.taps[0]
	other := *s.plan
	step := other.Steps[other.Next()]
	step.Do, step.Vessel, step.Plants = soak.Fill, "bucket 2", nil
	if tap.Vessel == step.Vessel {
		step.Vessel = "tub"
	}
	full := len(g.board.desk.filled)
	g.after(doublePress)
	s.do("d", &step)
	g.sees("he tap is on the " + tap.Vessel + " until ")
	s.do("d", &step)
	if n := len(g.board.desk.filled); n != full+1 {
		t.Errorf("%d vessels are filled, not %d", n, full+1)
	}
	if taps := g.board.desk.taps; len(taps) != 1 || taps[0].Vessel != step.Vessel {
		t.Errorf("taps that run: %v", taps)
	}
}
