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

func likely(log *[belief.Points]float64) belief.JointLikelihood {
	return belief.JointLikelihood{belief.LikelihoodOf(log)}
}

// unit is certainty of one point.
func unit(i int) *belief.Mass {
	var s belief.Mass
	s[i] = 1
	return &s
}

// What a member's prior comes to when everything is summed over at once: all,
// its group, and the other group.
func summed(seen map[int]*[belief.Points]float64) belief.Mass {
	group, own := belief.NewStep(spreads.Group), belief.NewStep(spreads.Own)
	all := belief.Prior(spreads.All)
	var toGroup, toOwn [belief.Points]belief.Mass
	for i := range toGroup {
		toGroup[i], toOwn[i] = group.MessageDown(unit(i)), own.MessageDown(unit(i))
	}
	likelihood := func(v int, members ...int) float64 {
		product := 1.0
		for _, m := range members {
			sum, log := 0.0, seen[m]
			for u, p := range toOwn[v] {
				sum += p * math.Exp(log[u])
			}
			product *= sum
		}
		return product
	}
	var prior belief.Mass
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

func TestAPopulationIsTheSumOverAllItsMembers(t *testing.T) {
	seen := map[int]*[belief.Points]float64{1: evidence(1.5, 0.2), 2: evidence(0.7, 0.3), 3: evidence(0.9, 0.1)}
	f := belief.NewHierarchicalPrior(spreads).Population(2)
	for _, group := range []int{0, 0, 1, 1} {
		f.Join(group)
	}
	for _, m := range []int{3, 1, 2} {
		f.Observe(m, likely(seen[m]))
	}
	f.Observe(0, likely(evidence(4, 0.1))) // its own evidence is no part of its prior
	got, want := f.Prior(0)[0], summed(seen)
	for i := range want {
		if math.Abs(got[i]-want[i]) > 1e-6 {
			t.Errorf("point %d: %.8f, summed over all %.8f", i, got[i], want[i])
		}
	}
}

func TestBeforeAnyEvidenceAMemberIsTheThreeSpreadsTogether(t *testing.T) {
	f := belief.NewHierarchicalPrior(spreads).Population(3)
	m := f.Join(1)
	got, want := f.Prior(m)[0], belief.Prior(math.Sqrt(0.3*0.3+0.25*0.25+0.4*0.4))
	for _, q := range []float64{0.1, 0.5, 0.9} {
		m := belief.Multipliers()
		if a, b := got.QuantileOf(&m, q), want.QuantileOf(&m, q); math.Abs(a/b-1) > 0.01 {
			t.Errorf("quantile %g: %.4f, want %.4f", q, a, b)
		}
	}
}

func TestANewMemberBorrowsFromItsGroupFirst(t *testing.T) {
	f := belief.NewHierarchicalPrior(spreads).Population(2)
	for range 10 {
		f.Observe(f.Join(0), likely(evidence(2, 0.1)))
	}
	near := f.Prior(f.Join(0))[0]
	far := f.Prior(f.Join(1))[0]
	if n, o := mean(&near), mean(&far); !(n > o && o > 1.1) {
		t.Errorf("in a group of twos %.2f, in another %.2f", n, o)
	}
}

// The order of the evidence is nothing to what is known.
func TestAPopulationForgetsTheOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		logs := make([]*[belief.Points]float64, 5)
		for i := range logs {
			logs[i] = evidence(rapid.Float64Range(0.2, 5).Draw(t, "at"), rapid.Float64Range(0.05, 1).Draw(t, "spread"))
		}
		build := func(order []int, twice bool) *belief.Population {
			f := belief.NewHierarchicalPrior(spreads).Population(2)
			for i := range logs {
				f.Join(i % 2)
			}
			for _, i := range order {
				if twice {
					f.Observe(i, likely(evidence(8, 0.1)))
					f.Prior((i + 1) % 5)
				}
				f.Observe(i, likely(logs[i]))
			}
			return f
		}
		a := build([]int{0, 1, 2, 3, 4}, false)
		b := build(rapid.Permutation([]int{0, 1, 2, 3, 4}).Draw(t, "order"), true)
		for m := range logs {
			if a.Prior(m)[0] != b.Prior(m)[0] {
				t.Fatalf("member %d", m)
			}
		}
	})
}

// One member far from all the others, and very sure of it, does not break the sums.
func TestAPopulationBearsAnOutlier(t *testing.T) {
	f := belief.NewHierarchicalPrior(belief.Spreads{All: 0.1, Group: 0.1, Own: 0.1}).Population(1)
	for range 50 {
		f.Observe(f.Join(0), likely(evidence(0.2, 0.05)))
	}
	odd := f.Join(0)
	f.Observe(odd, likely(evidence(7, 0.04)))
	for m := range 51 {
		s := f.Prior(m)[0]
		if at := mean(&s); !(at > 0.1 && at < 2) {
			t.Fatalf("member %d: mean %v", m, at)
		}
	}
}

// What was measured of one member counts in full for the others, whatever is seen of
// many by a law that may be wrong.
func TestWhatWasMeasuredIsNotCoarsened(t *testing.T) {
	prior := func(measured bool) float64 {
		f := belief.NewHierarchicalPrior(spreads).Coarsened(2).Population(1)
		for range 40 {
			f.Observe(f.Join(0), likely(evidence(0.5, 0.1)))
		}
		for range 5 {
			m := f.Join(0)
			if f.Observe(m, likely(evidence(2, 0.1))); measured {
				f.Measured(m)
			}
		}
		m := f.Prior(f.Join(0))[0]
		return mean(&m)
	}
	if told, not := prior(true), prior(false); !(not < 1 && told > 1.3) {
		t.Errorf("five twos beside forty halves: %.2f measured, %.2f seen like the others", told, not)
	}
}
