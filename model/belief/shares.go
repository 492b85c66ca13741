package belief

// Shares is the probability of each point of the grid. They add up to 1.
type Shares [Points]float64

// Mean is the expected multiplier.
func (s *Shares) Mean() float64 { return s.MeanOf(&multipliers) }

// MeanOf is the expected value of a quantity that is known at each point of the grid.
func (s *Shares) MeanOf(values *[Points]float64) float64 {
	var sum float64
	for i, v := range values {
		sum += s[i] * v
	}
	return sum
}

// Range is the central range of the multiplier that holds the given share (0 to 1) of the probability.
func (s *Shares) Range(share float64) (low, high float64) {
	tail := (1 - min(max(share, 0), 1)) / 2
	return s.QuantileOf(&multipliers, tail), s.QuantileOf(&multipliers, 1-tail)
}

// QuantileOf is the q quantile (0 to 1) of a quantity that is known at each point of the grid. The values must be finite and must
// never turn: rising all along the grid, or falling all along it (water left falls where the pace rises).
//
// A point's probability is spread evenly over its cell, which reaches halfway to the neighbours. The answer therefore moves
// smoothly with the evidence, and a belief that lies higher never has a lower quantile.
func (s *Shares) QuantileOf(values *[Points]float64, q float64) float64 {
	q = min(max(q, 0), 1)
	if values[0] > values[Points-1] {
		q = 1 - q
	}
	cell, into := s.reach(q)
	low, high := edges(values, cell)
	return low + (high-low)*into
}

// reach finds the cell in which the summed probability comes to q, and how far into that cell (0 to 1). It walks in from the
// nearer end of the grid, so that a small tail is not lost in the rounding of a sum near 1.
func (s *Shares) reach(q float64) (cell int, into float64) {
	first, step, tail := 0, 1, q
	if q > 0.5 {
		first, step, tail = Points-1, -1, 1-q
	}
	var sum, passed float64
	for i := first; i >= 0 && i < Points; i += step {
		if s[i] == 0 {
			continue
		}
		cell, passed = i, sum
		if sum += s[i]; sum >= tail {
			break
		}
	}
	into = (tail - passed) / s[cell]
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
