package plan_test

import (
	"context"
	"errors"
	"math"
	"reflect"
	"slices"
	"testing"

	"tubside/model/soak"
	"tubside/tests/plan/sample"
)

// Life intervenes: a load is in the water, and the day is planned anew.
func TestALoadInTheWaterComesOutWhenDue(t *testing.T) {
	s := bathroom(rosettes(30)...)
	s.Vessels[0].Water = nil
	given := with(rosettes(2), func(i int, it *soak.Item) { it.ID = 101 + i })
	s.Given = []soak.Given{{Vessel: 0, Items: given, In: []int{9*hour - 5*minute, 9*hour - 4*minute}}}
	p := arrange(t, s, soak.Effort{})
	l := p.Loads[0]
	if !l.Given || l.Out != 9*hour+15*minute || len(p.Late) != 0 || len(p.Left) != 0 {
		t.Errorf("given %v, out at %d, late %v, left out %v", l.Given, l.Out, p.Late, p.Left)
	}
	s.Given[0].In = []int{7*hour + 50*minute, 8*hour + 30*minute}
	p = arrange(t, s, soak.Effort{})
	if len(p.Late) != 1 || p.Late[0].ID != 101 || p.Late[0].Over != 10*minute {
		t.Errorf("overdue by ten minutes: %+v", p.Late)
	}
}

func TestStoppedAndCancelled(t *testing.T) {
	s := bathroom(rosettes(50)...)
	p := arrange(t, s, soak.Effort{Stop: func() bool { return true }})
	if len(p.Left) != 0 {
		t.Errorf("stopped at once: %d left out", len(p.Left))
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := soak.Arrange(ctx, s, soak.Effort{}); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled before it began: %v", err)
	}
}

func TestASessionThatMakesNoSense(t *testing.T) {
	for name, spoil := range map[string]func(*soak.Session){
		"no hours":        func(s *soak.Session) { s.Hours = nil },
		"hours backwards": func(s *soak.Session) { s.Hours[0].To = s.Hours[0].From },
		"no room":         func(s *soak.Session) { s.Vessels[0].Room = 0 },
		"window":          func(s *soak.Session) { s.Items[0].To = s.Items[0].From - 1 },
		"no thirst":       func(s *soak.Session) { s.Items[0].Thirst = 0 },
		"no hands":        func(s *soak.Session) { s.Items[0].HandsOut = 0 },
		"company":         func(s *soak.Session) { s.Items[0].Company = 9 },
		"bench factor":    func(s *soak.Session) { s.Benches = []soak.Bench{{Room: 1}} },
		"given":           func(s *soak.Session) { s.Given = []soak.Given{{Vessel: 3}} },
		"no such bench":   func(s *soak.Session) { s.Drying = []soak.Drying{{Bench: 1, Room: 1}} },
		"endless plant":   func(s *soak.Session) { s.Items[0].Bulk = math.Inf(1) },
		"endless factor":  func(s *soak.Session) { s.Benches = []soak.Bench{{Room: 1, Factor: math.Inf(1)}} },
		"endless drying":  func(s *soak.Session) { s.Items[0].DryFor = math.MaxInt },
		"endless soak":    func(s *soak.Session) { s.Items[0].To = math.MaxInt },
		"endless hours":   func(s *soak.Session) { s.Hours[0].To = math.MaxInt },
		"endless refill":  func(s *soak.Session) { s.Vessels[0].Refill = math.MaxInt },
		"in long ago":     func(s *soak.Session) { s.Given = []soak.Given{{Items: rosettes(1), In: []int{math.MinInt}}} },
	} {
		s := bathroom(rosettes(2)...)
		spoil(s)
		if _, err := soak.Arrange(context.Background(), s, soak.Effort{}); !errors.Is(err, soak.ErrSession) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A load is half in: the rest of it goes in with it, unless some of it no longer
// can, and that goes in by itself.
func TestTheRestOfALoadGoesInWithIt(t *testing.T) {
	s := bathroom(rosettes(8)...)
	s.Items[7].Company = soak.Suspect
	s.Given = []soak.Given{{Vessel: 0, Items: with(rosettes(2), func(i int, it *soak.Item) { it.ID = 101 + i }),
		In: []int{9*hour - 2*minute, 9*hour - minute}, More: []int{0, 1, 2, 3, 7}}}
	p := arrange(t, s, soak.Effort{})
	if l := p.Loads[0]; !l.Given || len(l.Plants) != 6 || l.Plants[5].In >= l.Out || len(p.Left) != 0 {
		t.Errorf("%d plants with those in the water, out from %d; left out %v", len(l.Plants), l.Out, p.Left)
	}
	if a := p.Actions(s); !slices.ContainsFunc(a, func(a soak.Action) bool {
		return a.Do == soak.PutIn && a.Vessel == 0 && a.Load == 0 && slices.Equal(a.IDs, []int{1, 2, 3, 4})
	}) {
		t.Errorf("nothing is put in with them: %v", a)
	}
	if len(s.Given[0].Items) != 2 {
		t.Error("the session was changed")
	}
}

// An earlier plan is kept to, also where another would be as good, and what it
// has no place for is fitted in.
func TestAnEarlierPlanIsKeptTo(t *testing.T) {
	s := sample.Collection(120, 3)
	was := arrange(t, s, soak.Effort{Work: 20_000})
	s.Before = &soak.Before{AtOnce: was.AtOnce}
	slices.SortFunc(was.Loads, func(a, b soak.Load) int { return a.Turn - b.Turn })
	for _, l := range was.Loads {
		before := soak.LoadBefore{Vessel: l.Vessel}
		for _, x := range l.Plants {
			before.IDs = append(before.IDs, x.ID)
		}
		s.Before.Loads = append(s.Before.Loads, before)
	}
	is := arrange(t, s, soak.Effort{})
	slices.SortFunc(is.Loads, func(a, b soak.Load) int { return a.Turn - b.Turn })
	if !reflect.DeepEqual(was.Loads, is.Loads) {
		t.Error("planned again at once, the loads differ")
	}
	s.Before.Loads[0].IDs = s.Before.Loads[0].IDs[1:]
	if p := arrange(t, s, soak.Effort{}); len(p.Left) != 0 {
		t.Errorf("one plant more: left out %v", p.Left)
	}
}

// Days that nobody has, but that a book's numbers may come to.
func TestOddSessions(t *testing.T) {
	for name, change := range map[string]func(*soak.Session){
		"only a morning": func(s *soak.Session) { s.Hours[0].OutOnly = true },
		"before the origin": func(s *soak.Session) {
			s.Hours[0] = soak.Hours{From: -24 * hour, To: -20 * hour, DryBy: -15 * hour}
		},
		"plants of no size": func(s *soak.Session) {
			with(s.Items, func(_ int, it *soak.Item) { it.Bulk, it.BenchRoom = 0, 0 })
		},
		"benches without limit": func(s *soak.Session) {
			s.Benches = []soak.Bench{{Room: math.Inf(1), Factor: 1}, {Room: math.Inf(1), Factor: 0.5}}
		},
		"a bench that never dries":  func(s *soak.Session) { s.Benches = []soak.Bench{{Room: 100, Factor: 1e300}, {Room: 100, Factor: 1}} },
		"a room that dries faster":  func(s *soak.Session) { s.Room = func(int) float64 { return 0.01 } },
		"a room that dries at once": func(s *soak.Session) { s.Room = func(int) float64 { return 0 } },
		"a crowd that empties":      func(s *soak.Session) { s.Room = func(n int) float64 { return 10 / float64(n+1) } },
		"hands taken by given loads": func(s *soak.Session) {
			given := with(rosettes(2000), func(i int, it *soak.Item) { it.ID = 1000 + i })
			s.Given = []soak.Given{{Items: given, In: make([]int, len(given))}}
			s.Room = func(n int) float64 { return 1 + float64(n)/1000 }
		},
	} {
		t.Run(name, func(t *testing.T) {
			s := bathroom(rosettes(60)...)
			change(s)
			arrange(t, s, soak.Effort{Work: 20_000})
		})
	}
}

// Where the drying of a crowd cannot be reckoned no crowd is allowed.
func TestARoomThatNeverDries(t *testing.T) {
	for _, factor := range []float64{math.Inf(1), math.NaN(), 1e300} {
		s := bathroom(rosettes(60)...)
		s.Room = func(n int) float64 {
			if n > 5 {
				return factor
			}
			return 1
		}
		if p := arrange(t, s, soak.Effort{Work: 20_000}); p.AtOnce > 5 || len(p.Left) > 50 {
			t.Errorf("factor %g: %d dry at once, %d left out", factor, p.AtOnce, len(p.Left))
		}
	}
}
