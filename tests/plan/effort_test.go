package plan_test

import (
	"context"
	"reflect"
	"runtime"
	"sync/atomic"
	"testing"

	"pgregory.net/rapid"

	"tubside/model/soak"
	"tubside/tests/plan/check"
	"tubside/tests/plan/sample"
)

// someDay draws a soak day small or large: one of every rule, or a collection's
// with handfuls in it, the hours enough or cut short.
var someDay = rapid.Custom(func(t *rapid.T) *soak.Session {
	if rapid.Bool().Draw(t, "small") {
		return anySession.Draw(t, "session")
	}
	s := sample.Collection(rapid.IntRange(60, 200).Draw(t, "plants"), rapid.Uint64().Draw(t, "seed"))
	s.Hours = s.Hours[:1]
	s.Hours[0].To = s.Hours[0].From + rapid.IntRange(1, 8).Draw(t, "hours")*hour
	return s
})

// What first drafts and going on from them take at most, in plants placed for
// each plant of the session: twice what was seen in 5,000 sessions.
const draftsEach = 300

// The work of a plan is what was asked for, beside the first drafts.
func TestThePlanKeepsToItsWork(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, work := someDay.Draw(t, "session"), rapid.IntRange(1, 100_000).Draw(t, "work")
		if got := effort(t, s, soak.Effort{Work: work}).Work; got > work+draftsEach*len(s.Items) {
			t.Fatalf("%d plants placed for %d, %d asked for", got, len(s.Items), work)
		}
	})
}

// Between two questions whether to stop a search places some ten thousand
// plants; four go on side by side.
const stopSoon = 100_000

// A search that is told to stop does, asks no more, and still has a plan.
func TestOneStopIsEnough(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, stopAt := someDay.Draw(t, "session"), rapid.Int32Range(1, 20).Draw(t, "questions")
		var asked, asking atomic.Int32
		p := effort(t, s, soak.Effort{Work: 1_000_000, Stop: func() bool {
			defer asking.Add(-1)
			if asking.Add(1) > 1 {
				t.Error("asked twice at a time")
			}
			return asked.Add(1) == stopAt
		}})
		if n := asked.Load(); n > stopAt {
			t.Fatalf("asked %d times, told to stop the time number %d", n, stopAt)
		}
		if most := draftsEach*len(s.Items) + int(stopAt)*stopSoon; p.Work > most {
			t.Fatalf("%d plants placed, want at most %d", p.Work, most)
		}
		for _, fault := range check.Plan(s, p) {
			t.Error(fault)
		}
	})
}

func TestTheSamePlanOnAnyNumberOfProcessors(t *testing.T) {
	before := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(before)
	for seed := range 10 {
		s := someDay.Example(seed)
		var plans []*soak.Plan
		for _, processors := range []int{1, 2, 8} {
			runtime.GOMAXPROCS(processors)
			plans = append(plans, arrange(t, s, soak.Effort{Work: 100_000}))
		}
		for _, p := range plans[1:] {
			if !reflect.DeepEqual(plans[0], p) {
				t.Errorf("day %d: another plan on more processors", seed)
			}
		}
	}
}

func effort(t *rapid.T, s *soak.Session, e soak.Effort) *soak.Plan {
	p, err := soak.Arrange(context.Background(), s, e)
	if err != nil {
		t.Fatal(err)
	}
	return p
}
