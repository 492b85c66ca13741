package plan_test

import (
	"context"
	"strconv"
	"testing"

	"tubside/model/soak"
	"tubside/tests/plan/check"
	"tubside/tests/plan/sample"
)

const (
	minute = 60
	hour   = 3600
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

func BenchmarkArrange(b *testing.B) {
	for _, n := range []int{10, 80, 320, 640, 1250, 2500, 5000} {
		s := sample.Collection(n, 1)
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			for b.Loop() {
				if _, err := soak.Arrange(context.Background(), s, soak.Effort{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
