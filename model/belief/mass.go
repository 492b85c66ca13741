package belief

import "math"

// Mass is a probability mass function: the probability of each point of the
// grid. They add up to 1.
type Mass [Points]float64

// Prior is the mass before any evidence: lognormal around 1. The spread is the
// standard deviation of the logarithm (0.69 is a factor of two). A spread under
// half a step of the grid counts as half a step; an infinite one is level.
func Prior(spread float64) Mass { return lognormal(1, spread) }

// lognormal is the mass of a lognormal variable with a median on the grid.
func lognormal(median, spread float64) Mass {
	middle := math.Log(median)
	spread = carried(spread)
	var log [Points]float64
	for i, u := range logs {
		z := (u - middle) / spread
		log[i] = -z * z / 2
	}
	top, sum := highest(&log), 0.0
	var m Mass
	for i, l := range log {
		m[i] = math.Exp(l - top)
		sum += m[i]
	}
	scale((*[Points]float64)(&m), 1/sum)
	return m
}

// Observe is the posterior once evidence is in: Bayes' rule. Evidence that leaves
// nothing possible changes nothing.
func (m *Mass) Observe(l *Likelihood) Mass {
	after, sum := Mass(*l), 0.0
	for i := range after {
		after[i] *= m[i]
		sum += after[i]
	}
	if !(sum > 0) {
		return *m
	}
	scale((*[Points]float64)(&after), 1/sum)
	return after
}

// ObserveLog is Observe for a log likelihood, up to a constant.
func (m *Mass) ObserveLog(log *[Points]float64) Mass {
	l := LikelihoodOf(log)
	return m.Observe(&l)
}

// Shifted is the same belief about a multiplier that is some steps of the grid
// higher. What would leave the grid stays at its end.
func (m *Mass) Shifted(steps int) Mass {
	var moved Mass
	for i, p := range m {
		moved[min(max(i+steps, 0), Points-1)] += p
	}
	return moved
}

// MeanOf is the expected value of a quantity that is known at each point of the grid.
func (m *Mass) MeanOf(values *[Points]float64) float64 {
	var sum float64
	for i, v := range values {
		sum += m[i] * v
	}
	return sum
}

// Range is the central range of the multiplier that holds the given share (0 to
// 1) of the probability.
func (m *Mass) Range(share float64) (low, high float64) {
	tail := (1 - min(max(share, 0), 1)) / 2
	return m.QuantileOf(&multipliers, tail), m.QuantileOf(&multipliers, 1-tail)
}

// QuantileOf is the q quantile (0 to 1) of a quantity that is known at each
// point of the grid. The values must be finite and must never turn: rising all
// along the grid, or falling all along it (water left falls where the
// multiplier rises).
//
// A point's probability is spread evenly over its cell, which reaches halfway
// to the neighbours. The answer therefore moves smoothly with the evidence, and
// a belief that lies higher never has a lower quantile.
func (m *Mass) QuantileOf(values *[Points]float64, q float64) float64 {
	q = min(max(q, 0), 1)
	if values[0] > values[Points-1] {
		q = 1 - q
	}
	cell, into := m.reach(q)
	low, high := edges(values, cell)
	return low + (high-low)*into
}

// reach finds the cell in which the summed probability comes to q, and how far
// into that cell (0 to 1). It walks in from the nearer end of the grid, so that
// a small tail is not lost in the rounding of a sum near 1.
func (m *Mass) reach(q float64) (cell int, into float64) {
	first, step, tail := 0, 1, q
	if q > 0.5 {
		first, step, tail = Points-1, -1, 1-q
	}
	var sum, passed float64
	for i := first; i >= 0 && i < Points; i += step {
		if m[i] == 0 {
			continue
		}
		cell, passed = i, sum
		if sum += m[i]; sum >= tail {
			break
		}
	}
	into = (tail - passed) / m[cell]
	if step < 0 {
		into = 1 - into
	}
	return cell, into
}

// edges are the values where a cell begins and ends.
func edges(values *[Points]float64, cell int) (low, high float64) {
	before, after := max(cell-1, 0), min(cell+1, Points-1)
	return (values[before] + values[cell]) / 2, (values[cell] + values[after]) / 2
}

// Below is the probability (0 to 1) that the multiplier lies under x. It is
// what QuantileOf turns round.
func (m *Mass) Below(x float64) float64 {
	sum := 0.0
	for i, p := range m {
		low, high := edges(&multipliers, i)
		if x < high {
			return sum + p*max(x-low, 0)/(high-low)
		}
		sum += p
	}
	return min(sum, 1)
}
