package belief_test

import (
	"math"
	"testing"

	"tubside/model/belief"
)

var (
	ways  = belief.Rows{Number: 5, Apart: 0.3, All: 0.4, Group: 0.2, Own: 0.2}
	ofTwo = belief.NewJointPrior(spreads, ways)
)

// ratio is what signs say: how the multiplier stands to the second unknown, and neither alone.
func ratio(at float64) belief.JointLikelihood {
	p := make(belief.JointLikelihood, ways.Number)
	for r := range p {
		for i, m := range belief.Multipliers() {
			z := (math.Log(m/at) - ways.Apart*float64(r-ways.Number/2)) / 0.15
			p[r][i] = math.Exp(-z * z / 2)
		}
	}
	return p
}

// Told the same of two unknowns by each member, what all share stays as unknown along the ridge as it was, and is known
// across it.
func TestARatioLeavesBothUnknown(t *testing.T) {
	f := ofTwo.Population(1)
	for range 30 {
		f.Observe(f.Join(0), ratio(1.3))
	}
	var pace, square, apart, apartSquare float64
	for r, row := range f.Group(0) {
		for i, share := range row {
			u, v := math.Log(belief.Multipliers()[i]), ways.Apart*float64(r-ways.Number/2)
			pace += share * u
			square += share * u * u
			apart += share * (u - v)
			apartSquare += share * (u - v) * (u - v)
		}
	}
	if sd := math.Sqrt(square - pace*pace); sd < 0.15 {
		t.Errorf("the multiplier is known to %.2f, from its ratio to another unknown", sd)
	}
	if sd := math.Sqrt(apartSquare - apart*apart); math.Abs(apart-math.Log(1.3)) > 0.1 || sd > 0.12 {
		t.Errorf("the ratio is thought to be %.2f ± %.2f, told 1.3 each time", math.Exp(apart), sd)
	}
}

// Before any word, both unknowns lie as far apart as their parts together.
func TestAMemberOfTwoUnknownsBeforeAnyWord(t *testing.T) {
	f := ofTwo.Population(2)
	prior := f.Prior(f.Join(1))
	total, variance := 0.0, 0.0
	for r := range prior {
		for _, share := range prior[r] {
			v := ways.Apart * float64(r-ways.Number/2)
			total += share
			variance += share * v * v
		}
	}
	if math.Abs(total-1) > 1e-9 {
		t.Errorf("shares come to %v", total)
	}
	if sd := math.Sqrt(variance); sd < 0.35 || sd > 0.5 { // the ends of five rows hold back a little of 0.49
		t.Errorf("the second unknown lies %.2f apart", sd)
	}
}

// Where a law may be wrong for all alike, a thousand who speak prove no more than a few.
func TestACoarsenedPopulationBelievesNoCrowd(t *testing.T) {
	spread := func(most float64, n int) float64 {
		f := belief.NewHierarchicalPrior(spreads).Coarsened(most).Population(1)
		for range n {
			f.Observe(f.Join(0), likely(evidence(3, 0.3)))
		}
		var mean, square float64
		for i, share := range f.Group(0)[0] {
			u := math.Log(belief.Multipliers()[i])
			mean += share * u
			square += share * u * u
		}
		return math.Sqrt(square - mean*mean)
	}
	if few, many := spread(8, 8), spread(8, 800); many < 0.6*few {
		t.Errorf("told by 8: known to %.3f; by 800: %.3f", few, many)
	}
	if few, many := spread(0, 8), spread(0, 800); many > 0.3*few {
		t.Errorf("where the law is right, told by 8: known to %.3f; by 800: %.3f", few, many)
	}
}

// What is heard twice counts twice, and nothing that is heard makes anything impossible.
func TestEvidenceCombines(t *testing.T) {
	p := ratio(2)
	for range 40 {
		p = p.Combine(ratio(0.5))
	}
	for r := range p {
		for i, v := range p[r] {
			if !(v > 0 && v <= 1) {
				t.Fatalf("row %d, point %d: %v", r, i, v)
			}
		}
	}
}
