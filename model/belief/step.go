package belief

// Step is a lognormal step from one level of a hierarchy to the next below it:
// from what holds for all plants to what holds for a form, from a form to a
// plant, from a plant to one event. Make one for each spread and keep it.
type Step struct {
	to [Points]Mass // to[v]: where a step from v ends
}

// NewStep is a step with the given spread (sd of the log). Steps that would leave
// the grid end on it.
func NewStep(spread float64) *Step {
	s := &Step{}
	for v := range s.to {
		s.to[v] = lognormal(multipliers[v], spread)
	}
	return s
}

// NewOddStep is a step of which an odd share (0 to 1) goes as far as another
// spread says.
func NewOddStep(spread, odd, oddSpread float64) *Step {
	s, far := NewStep(spread), NewStep(oddSpread)
	for v := range s.to {
		for u := range s.to[v] {
			s.to[v][u] += odd * (far.to[v][u] - s.to[v][u])
		}
	}
	return s
}

// negligible is the share, of the largest, that may be left out of a sum: far
// under what any answer shows.
const negligible = 1e-15

// MessageDown is what is believed one level below, where above is what is
// believed there: each probability, spread out. Those too small to matter are
// left out.
func (s *Step) MessageDown(above *Mass) Mass {
	var below Mass
	least := negligible * highest((*[Points]float64)(above))
	for v, p := range above {
		if p <= least {
			continue
		}
		for u, step := range s.to[v] {
			below[u] += p * step
		}
	}
	below.normalize()
	return below
}

// MessageUp is the likelihood, at each point of the level above, of evidence whose
// likelihood one level below is given. The highest is 1.
func (s *Step) MessageUp(below *Likelihood) Likelihood {
	var above Likelihood
	for v := range above {
		sum := 0.0
		for u, step := range s.to[v] {
			sum += step * below[u]
		}
		above[v] = sum
	}
	scale((*[Points]float64)(&above), 1/highest((*[Points]float64)(&above)))
	return above
}

func (m *Mass) normalize() {
	sum := 0.0
	for _, p := range m {
		sum += p
	}
	scale((*[Points]float64)(m), 1/sum)
}
