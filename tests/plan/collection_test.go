package plan_test

import (
	"context"
	"strconv"
	"testing"

	"tubside/model/soak"
	"tubside/tests/plan/check"
	"tubside/tests/plan/sample"
)

// arrange plans a session and holds the plan against every rule.
func arrange(t testing.TB, s *soak.Session, e soak.Effort) *soak.Plan {
	t.Helper()
	p, err := soak.Arrange(context.Background(), s, e)
	if err != nil {
		t.Fatal(err)
	}
	for _, fault := range check.Plan(s, p) {
		t.Error(fault)
	}
	return p
}

func TestCollectionIsPlannedWithinFivePercentOfTheBound(t *testing.T) {
	seeds := uint64(5)
	if testing.Short() {
		seeds = 1
	}
	for seed := range seeds {
		s := sample.Collection(640, seed)
		p := arrange(t, s, soak.Effort{})
		start := s.Hours[0].From
		over := float64(p.HandsFree-p.Bound.HandsFree) / float64(p.Bound.HandsFree-start)
		t.Logf("seed %d: %d loads, %d left out, hands free %d s after the start, bound %d: %.2f %% over; thirst %.1f of %.1f; %d fills, %d drying at once",
			seed, len(p.Loads), len(p.Left), p.HandsFree-start, p.Bound.HandsFree-start, 100*over, p.Thirst, p.Bound.Thirst, p.Fills, p.AtOnce)
		if over > 0.05 {
			t.Errorf("seed %d: hands free %.1f %% after the bound", seed, 100*over)
		}
		if p.Thirst < 0.95*p.Bound.Thirst {
			t.Errorf("seed %d: serves a thirst of %.1f, the bound is %.1f", seed, p.Thirst, p.Bound.Thirst)
		}
	}
}

// The hours grow with the plants, or they are one day whatever is due: then
// most are left out, each with its reason.
func BenchmarkArrange(b *testing.B) {
	for _, n := range []int{10, 80, 160, 320, 640, 1250, 2500, 5000} {
		b.Run("days enough/"+strconv.Itoa(n), func(b *testing.B) { plan(b, sample.Collection(n, 1)) })
	}
	for _, n := range []int{640, 1250, 2500, 5000} {
		s := sample.Collection(n, 1)
		s.Hours = sample.Days(1)
		b.Run("one day/"+strconv.Itoa(n), func(b *testing.B) { plan(b, s) })
	}
}

func plan(b *testing.B, s *soak.Session) {
	for b.Loop() {
		if _, err := soak.Arrange(context.Background(), s, soak.Effort{}); err != nil {
			b.Fatal(err)
		}
	}
}
