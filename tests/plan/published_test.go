package plan_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"tubside/model/soak"
)

// unit is one unit of time of a published problem, long enough that the second
// the hands need for each plant is lost in it.
const unit = 1000

// jobs are plants with the given soaks, in units, and no other needs.
func jobs(lengths ...int) []soak.Item {
	items := make([]soak.Item, len(lengths))
	for i, n := range lengths {
		items[i] = soak.Item{ID: i + 1, From: n * unit, To: 100 * unit, Bulk: 1, HandsIn: 1, HandsOut: 1, Thirst: 1}
	}
	return items
}

// machines are vessels that hold so many jobs at once, standing filled.
func machines(n int, holds float64, items []soak.Item) *soak.Session {
	s := &soak.Session{Items: items, Hours: []soak.Hours{{From: 0, To: 1000 * unit, DryBy: 2000 * unit}}}
	for range n {
		s.Vessels = append(s.Vessels, soak.Vessel{Room: holds, Water: &soak.Water{}})
	}
	return s
}

// Parallel machines, the example on which the longest-first rule is worst:
// Graham 1969, SIAM Journal on Applied Mathematics 17:416-429 (the family from
// memory). Jobs 2m-1, 2m-1, ..., m+1, m+1, m, m, m on m machines: the rule
// takes 4m-1, the optimum is 3m.
func TestGrahamsWorstCaseForLongestFirst(t *testing.T) {
	for m := 2; m <= 5; m++ {
		lengths := []int{m}
		for n := m; n <= 2*m-1; n++ {
			lengths = append(lengths, n, n)
		}
		p := arrange(t, machines(m, 1, jobs(lengths...)), soak.Effort{})
		if units := p.HandsFree / unit; units != 3*m {
			t.Errorf("%d machines: %d units, want %d", m, units, 3*m)
		}
	}
}

// One batch machine that holds b jobs of one size: full batches, longest first,
// are optimal for the time of the last (Lee, Uzsoy & Martin-Vega 1992,
// Operations Research 40:764-775, after Bartholdi 1988).
func TestFullBatchesLongestFirst(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lengths := rapid.SliceOfN(rapid.IntRange(1, 9), 1, 9).Draw(t, "lengths")
		b := rapid.IntRange(1, 4).Draw(t, "b")
		p, err := soak.Arrange(t.Context(), machines(1, float64(b), jobs(lengths...)), soak.Effort{Work: 100_000})
		if err != nil {
			t.Fatal(err)
		}
		slices.Sort(lengths)
		slices.Reverse(lengths)
		want := 0
		for i := 0; i < len(lengths); i += b {
			want += lengths[i]
		}
		if units := p.HandsFree / unit; units != want {
			t.Fatalf("%d units, want %d", units, want)
		}
	})
}

// One batch machine and jobs of one length but many sizes is bin packing
// (Uzsoy 1994, International Journal of Production Research 32:1615-1635).
// Largest first, each where it first fits, takes five loads of ten litres for
// these; 4+3+3 four times over takes four. The sizes are our own.
func TestSizesAreBinPacking(t *testing.T) {
	items := jobs(7, 7, 7, 7, 7, 7, 7, 7, 7, 7, 7, 7)
	for i := range items {
		items[i].Bulk = 3
		if i < 4 {
			items[i].Bulk = 4
		}
	}
	p := arrange(t, machines(1, 10, items), soak.Effort{})
	if units := p.HandsFree / unit; units != 4*7 {
		t.Errorf("%d units, want %d", units, 4*7)
	}
}
