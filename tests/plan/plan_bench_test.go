package plan_test

import (
	"context"
	"testing"

	"tubside/model/soak"
	"tubside/tests/plan/sample"
)

// BenchmarkFiveThousand plans a day for 5,000 plants, of which most have no place. The
// budget is 2 s.
func BenchmarkFiveThousand(b *testing.B) {
	s := sample.Collection(5000, 1)
	for b.Loop() {
		if _, err := soak.Arrange(context.Background(), s, soak.Effort{}); err != nil {
			b.Fatal(err)
		}
	}
}
