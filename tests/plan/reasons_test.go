package plan_test

import (
	"testing"

	"pgregory.net/rapid"

	"tubside/model/soak"
)

// alone is the session with one item, in a room that does not grow damp.
func alone(s *soak.Session, it soak.Item) *soak.Session {
	one := *s
	one.Items = []soak.Item{it}
	return &one
}

// hopeless reports whether a reason holds for a plant even alone.
func hopeless(w soak.Why) bool { return w <= soak.DriesTooSlow }

// A plant is said to be hopeless exactly when it finds no place even alone, and
// then the help that is offered first does help.
func TestReasonsHoldAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySession.Draw(t, "session")
		s.Room, s.Before = nil, nil
		for g := range s.Given {
			s.Given[g].More = nil
		}
		p, err := soak.Arrange(t.Context(), s, soak.Effort{Work: 2000})
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range p.Left {
			one := alone(s, s.Items[l.Index])
			p, err := soak.Arrange(t.Context(), one, soak.Effort{Work: 200})
			if err != nil {
				t.Fatal(err)
			}
			if served := len(p.Left) == 0; served == hopeless(l.Why) {
				t.Fatalf("plant %d is left out for %q; alone it is served: %v", l.ID, l.Why, served)
			}
			if hopeless(l.Why) {
				helped(t, one, l)
			}
		}
	})
}

// helped applies the first help to a plant that is alone. What else is in its
// way, a second reason says.
func helped(t *rapid.T, s *soak.Session, l soak.LeftOut) {
	more := *s
	if len(s.Given) > 0 {
		return // they too make use of what is added
	}
	switch l.Help[0] {
	case soak.LargerVessel:
		more.Vessels = append(more.Vessels[:len(more.Vessels):len(more.Vessels)], soak.Vessel{Room: 1000, Fed: s.Items[0].Fed})
	case soak.MoreBench:
		more.Benches = append(more.Benches[:len(more.Benches):len(more.Benches)], soak.Bench{Room: 1000, Factor: 0.1})
	case soak.MorningHours:
		end := s.Hours[len(s.Hours)-1].To
		more.Hours = append(more.Hours[:len(more.Hours):len(more.Hours)], soak.Hours{From: end, To: end + 24*hour, DryBy: end + 72*hour, OutOnly: true})
	default:
		return
	}
	p, err := soak.Arrange(t.Context(), &more, soak.Effort{Work: 200})
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Left) > 0 && p.Left[0].Why == l.Why {
		t.Fatalf("%q is no help against %q: %+v", l.Help[0], l.Why, s.Items[0])
	}
}
