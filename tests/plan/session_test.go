package plan_test

import (
	"context"
	"errors"
	"testing"

	"tubside/model/soak"
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
	} {
		s := bathroom(rosettes(2)...)
		spoil(s)
		if _, err := soak.Arrange(context.Background(), s, soak.Effort{}); !errors.Is(err, soak.ErrSession) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
