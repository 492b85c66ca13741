package belief

import "math"

// JointMass is a probability mass function of two unknowns: the multiplier on the
// grid, and a second one that has a few points, a row each. It sums to 1 over all
// rows.
type JointMass []Mass

// JointLikelihood is how likely something seen is at each point of two unknowns, up
// to a constant. nil says nothing.
type JointLikelihood []Likelihood

// Clone is a copy.
func (l JointLikelihood) Clone() JointLikelihood { return append(JointLikelihood(nil), l...) }

// leastLikely is as unlikely as anything gets beside the likeliest: what is seen
// later can outweigh it.
const leastLikely = 1e-30

// Combine is this evidence and more of the same member. It may change l.
func (l JointLikelihood) Combine(more JointLikelihood) JointLikelihood {
	switch {
	case more == nil:
		return l
	case l == nil:
		return more.Clone()
	}
	top := 0.0
	for r := range l {
		row := &l[r]
		for i, likelihood := range &more[r] {
			both := row[i] * likelihood
			row[i] = both
			if both > top {
				top = both
			}
		}
	}
	lift := 1 / top
	for r := range l {
		row := &l[r]
		for i, likelihood := range row {
			if likelihood *= lift; likelihood < leastLikely {
				likelihood = leastLikely
			}
			row[i] = likelihood
		}
	}
	return l
}

// RandomWalk lets the multiplier wander in each row: [Likelihood.RandomWalk].
func (l JointLikelihood) RandomWalk(spread float64) {
	for r := range l {
		l[r].RandomWalk(spread)
	}
}

// ShiftInto fills moved with [Likelihood.Shifted] of each row.
func (l JointLikelihood) ShiftInto(moved JointLikelihood, steps int) {
	for r := range l {
		moved[r] = l[r].Shifted(steps)
	}
}

// Clone is a copy.
func (m JointMass) Clone() JointMass { return append(JointMass(nil), m...) }

// Marginal is the mass of the multiplier, whatever the second unknown is.
func (m JointMass) Marginal() (sum Mass) {
	for r := range m {
		for i, p := range &m[r] {
			sum[i] += p
		}
	}
	return sum
}

// OfRows is the mass of the second unknown, whatever the multiplier is.
func (m JointMass) OfRows() []float64 {
	rows := make([]float64, len(m))
	for r := range m {
		for _, p := range &m[r] {
			rows[r] += p
		}
	}
	return rows
}

// Observe is the posterior once evidence is in: Bayes' rule. Evidence that leaves
// nothing possible changes nothing.
func (m JointMass) Observe(l JointLikelihood) JointMass {
	after, sum := m.Clone(), 0.0
	for r := range l {
		for i, likelihood := range &l[r] {
			after[r][i] *= likelihood
			sum += after[r][i]
		}
	}
	if !(l != nil && sum > 0) {
		return m
	}
	after.scale(1 / sum)
	return after
}

// MarginalAfter is the marginal of [JointMass.Observe], without what it allocates.
func (m JointMass) MarginalAfter(l JointLikelihood) Mass {
	var after Mass
	sum := 0.0
	for r := range l {
		for i, p := range &m[r] {
			after[i] += p * l[r][i]
		}
	}
	for _, p := range after {
		sum += p
	}
	if !(sum > 0) {
		return m.Marginal()
	}
	scale((*[Points]float64)(&after), 1/sum)
	return after
}

// ShiftedInto is [Mass.Shifted] in each row, in the room of another where anything moves.
func (m JointMass) ShiftedInto(room JointMass, steps int) JointMass {
	if steps == 0 {
		return m
	}
	for r := range m {
		room[r] = m[r].Shifted(steps)
	}
	return room
}

// RandomWalk is [Mass.RandomWalk] in each row.
func (m JointMass) RandomWalk(spread float64) {
	for r := range m {
		m[r].RandomWalk(spread)
	}
}

// Widened is a belief whose multiplier goes one step down, in each row.
func (m JointMass) Widened(step *Step) JointMass {
	wide := make(JointMass, len(m))
	for r := range m {
		whole := 0.0
		for _, p := range &m[r] {
			whole += p
		}
		if whole > 0 {
			wide[r] = step.MessageDown(&m[r])
			scale((*[Points]float64)(&wide[r]), whole)
		}
	}
	return wide
}

func (m JointMass) scale(by float64) {
	for r := range m {
		scale((*[Points]float64)(&m[r]), by)
	}
}

func (m JointMass) normalize() {
	sum := 0.0
	for r := range m {
		for _, p := range &m[r] {
			sum += p
		}
	}
	m.scale(1 / sum)
}

// Rows are the points of the second unknown: so many, so far apart, the middle one
// 0; and the standard deviations of what all members share, of what a group
// shares and of a member's own part, in the same unit.
type Rows struct {
	Number          int
	Apart           float64
	All, Group, Own float64
}

// oneRow is for a population with no second unknown.
var oneRow = Rows{Number: 1, Apart: 1}

// prior is a normal distribution over the rows.
func (r Rows) prior() []float64 {
	p, sum := make([]float64, r.Number), 0.0
	for i := range p {
		z := float64(i-r.Number/2) * r.Apart / max(r.All, leastSpread)
		p[i] = math.Exp(-z * z / 2)
		sum += p[i]
	}
	for i := range p {
		p[i] /= sum
	}
	return p
}

// step is the chance of each row to step to each: a random walk from row to
// neighbour, with the variance of the spread. What would leave the rows stays at
// their end.
func (r Rows) step(spread float64) [][]float64 {
	to := make([][]float64, r.Number)
	for i := range to {
		to[i] = make([]float64, r.Number)
		to[i][i] = 1
	}
	share := spread * spread / (2 * r.Apart * r.Apart)
	steps := math.Ceil(share / mostMoved)
	share /= max(steps, 1)
	for range int(steps) {
		for i := range to {
			was := append([]float64(nil), to[i]...)
			for j := range to[i] {
				before, after := max(j-1, 0), min(j+1, r.Number-1)
				to[i][j] = (1-2*share)*was[j] + share*(was[before]+was[after])
			}
		}
	}
	return to
}

// jointStep is a step from one level of a hierarchy to the next in both unknowns.
type jointStep struct {
	multiplier *Step
	rows       [][]float64
}

// messageDown fills below with what is believed there.
func (s *jointStep) messageDown(above, below JointMass) {
	least := 0.0
	for r := range above {
		least = max(least, highest((*[Points]float64)(&above[r])))
		below[r] = Mass{}
	}
	least *= negligible
	for r := range above {
		var spread Mass
		any := false
		for v, p := range &above[r] {
			if p <= least {
				continue
			}
			any = true
			for u, step := range &s.multiplier.to[v] {
				spread[u] += p * step
			}
		}
		if !any {
			continue
		}
		for to, chance := range s.rows[r] {
			if chance == 0 {
				continue
			}
			for u, p := range &spread {
				below[to][u] += chance * p
			}
		}
	}
	below.normalize()
}

// logMessageUp fills above with the log likelihood one level above, the highest 0.
func (s *jointStep) logMessageUp(below JointLikelihood, above [][Points]float64) {
	top := 0.0
	for r := range above {
		var mixed Likelihood
		for to, chance := range s.rows[r] {
			if chance == 0 {
				continue
			}
			for u, likelihood := range &below[to] {
				mixed[u] += chance * likelihood
			}
		}
		for v := range mixed {
			sum := 0.0
			for u, step := range &s.multiplier.to[v] {
				sum += step * mixed[u]
			}
			above[r][v] = sum
			top = max(top, sum)
		}
	}
	for r := range above {
		for v, likelihood := range &above[r] {
			above[r][v] = math.Log(max(likelihood/top, math.SmallestNonzeroFloat64))
		}
	}
}
