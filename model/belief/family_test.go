package belief_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tubside/model/belief"
)

var spreads = belief.Spreads{All: 0.3, Group: 0.25, Own: 0.4}

// evidence is a look that says: about this multiplier.
func evidence(at, spread float64) *[belief.Points]float64 {
	var log [belief.Points]float64
	for i, m := range belief.Multipliers() {
		z := math.Log(m/at) / spread
		log[i] = -z * z / 2
	}
	return &log
}

func likely(log *[belief.Points]float64) *belief.Shares {
	s := belief.Likelihood(log)
	return &s
}

// unit is certainty of one point.
func unit(i int) *belief.Shares {
	var s belief.Shares
	s[i] = 1
	return &s
}

// What a member's prior comes to when everything is summed over at once: all, its group, and the other group.
func summed(told map[int]*[belief.Points]float64) belief.Shares {
	group, own := belief.NewStep(spreads.Group), belief.NewStep(spreads.Own)
	b := belief.Prior(spreads.All)
	all := b.Shares()
	var toGroup, toOwn [belief.Points]belief.Shares
	for i := range toGroup {
		toGroup[i], toOwn[i] = group.Down(unit(i)), own.Down(unit(i))
	}
	likelihood := func(v int, members ...int) float64 {
		product := 1.0
		for _, m := range members {
			sum, log := 0.0, told[m]
			for u, p := range toOwn[v] {
				sum += p * math.Exp(log[u])
			}
			product *= sum
		}
		return product
	}
	var prior belief.Shares
	for a, pa := range all {
		other := 0.0
		for v, pv := range toGroup[a] {
			other += pv * likelihood(v, 2, 3)
		}
		for v, pv := range toGroup[a] {
			w := pa * other * pv * likelihood(v, 1)
			for u, pu := range toOwn[v] {
				prior[u] += w * pu
			}
		}
	}
	var sum float64
	for _, p := range prior {
		sum += p
	}
	for i := range prior {
		prior[i] /= sum
	}
	return prior
}

func TestAFamilyIsTheSumOverAllItsMembers(t *testing.T) {
	told := map[int]*[belief.Points]float64{1: evidence(1.5, 0.2), 2: evidence(0.7, 0.3), 3: evidence(0.9, 0.1)}
	f := belief.NewKinship(spreads).Family(2)
	for _, group := range []int{0, 0, 1, 1} {
		f.Join(group)
	}
	for _, m := range []int{3, 1, 2} {
		f.Tell(m, likely(told[m]))
	}
	f.Tell(0, likely(evidence(4, 0.1))) // its own word is no part of its prior
	got, want := f.Prior(0), summed(told)
	for i := range want {
		if math.Abs(got[i]-want[i]) > 1e-6 {
			t.Errorf("point %d: %.8f, summed over all %.8f", i, got[i], want[i])
		}
	}
}

func TestBeforeAnyWordAMemberIsTheThreeSpreadsTogether(t *testing.T) {
	f := belief.NewKinship(spreads).Family(3)
	m := f.Join(1)
	b := belief.Prior(math.Sqrt(0.3*0.3 + 0.25*0.25 + 0.4*0.4))
	got, want := f.Prior(m), b.Shares()
	for _, q := range []float64{0.1, 0.5, 0.9} {
		m := belief.Multipliers()
		if a, b := got.QuantileOf(&m, q), want.QuantileOf(&m, q); math.Abs(a/b-1) > 0.01 {
			t.Errorf("quantile %g: %.4f, want %.4f", q, a, b)
		}
	}
}

func TestANewMemberBorrowsFromItsGroupFirst(t *testing.T) {
	f := belief.NewKinship(spreads).Family(2)
	for range 10 {
		f.Tell(f.Join(0), likely(evidence(2, 0.1)))
	}
	near, far := f.Prior(f.Join(0)), f.Prior(f.Join(1))
	if n, o := near.Mean(), far.Mean(); !(n > o && o > 1.1) {
		t.Errorf("in a group of twos %.2f, in another %.2f", n, o)
	}
}

// The order in which things are told is nothing to what is known.
func TestAFamilyForgetsTheOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		said := make([]*[belief.Points]float64, 5)
		for i := range said {
			said[i] = evidence(rapid.Float64Range(0.2, 5).Draw(t, "at"), rapid.Float64Range(0.05, 1).Draw(t, "spread"))
		}
		make := func(order []int, twice bool) *belief.Family {
			f := belief.NewKinship(spreads).Family(2)
			for i := range said {
				f.Join(i % 2)
			}
			for _, i := range order {
				if twice {
					f.Tell(i, likely(evidence(8, 0.1)))
					f.Prior((i + 1) % 5)
				}
				f.Tell(i, likely(said[i]))
			}
			return f
		}
		a := make([]int{0, 1, 2, 3, 4}, false)
		b := make(rapid.Permutation([]int{0, 1, 2, 3, 4}).Draw(t, "order"), true)
		for m := range said {
			if *a.Prior(m) != *b.Prior(m) {
				t.Fatalf("member %d", m)
			}
		}
	})
}

// One member far from all the others, and very sure of it, does not break the sums.
func TestAFamilyBearsAnOutlier(t *testing.T) {
	f := belief.NewKinship(belief.Spreads{All: 0.1, Group: 0.1, Own: 0.1}).Family(1)
	for range 50 {
		f.Tell(f.Join(0), likely(evidence(0.2, 0.05)))
	}
	odd := f.Join(0)
	f.Tell(odd, likely(evidence(7, 0.04)))
	for m := range 51 {
		s := f.Prior(m)
		if mean := s.Mean(); !(mean > 0.1 && mean < 2) {
			t.Fatalf("member %d: mean %v", m, mean)
		}
	}
}
