package belief

// Step is a lognormal step from one level to the next below it: from what holds for all plants to what holds for a form, from a
// form to a plant, from a plant to one event. Make one for each spread and keep it.
type Step struct {
	to [Points][Points]float64 // to[v][u]: the chance that a step from v ends at u; every row adds up to 1
}

// NewStep is a step with the given spread (sd of the log). Steps that would leave the grid end on it.
func NewStep(spread float64) *Step {
	s := &Step{}
	for v := range s.to {
		s.to[v] = PriorAround(multipliers[v], spread).Shares()
	}
	return s
}

// NewOddStep is a step of which an odd share (0 to 1) goes as far as another spread says.
func NewOddStep(spread, odd, oddSpread float64) *Step {
	s, far := NewStep(spread), NewStep(oddSpread)
	for v := range s.to {
		for u := range s.to[v] {
			s.to[v][u] += odd * (far.to[v][u] - s.to[v][u])
		}
	}
	return s
}

// Down is what is believed one level below, where above is what is believed there: each share, spread out. Shares too small to
// matter are left out.
func (s *Step) Down(above *Shares) Shares {
	var below Shares
	least := negligible * above.highest()
	for v, share := range above {
		if share <= least {
			continue
		}
		for u, step := range s.to[v] {
			below[u] += share * step
		}
	}
	below.whole()
	return below
}

// Up is the likelihood, at each point of the level above, of evidence whose likelihood one level below is given. The highest is 1.
func (s *Step) Up(below *Shares) Shares {
	var above Shares
	for v := range above {
		sum := 0.0
		for u, step := range s.to[v] {
			sum += step * below[u]
		}
		above[v] = sum
	}
	above.scale(1 / above.highest())
	return above
}

// LogStep is the distance of two neighbours of the grid, in the logarithm of the multiplier.
func LogStep() float64 { return logStep }

// Shifted is the same belief about a multiplier that is some steps of the grid higher. What would leave the grid stays at its end.
func (s *Shares) Shifted(steps int) Shares {
	var moved Shares
	for i, share := range s {
		moved[min(max(i+steps, 0), Points-1)] += share
	}
	return moved
}

// ShiftedLikelihood is a likelihood for a multiplier that is some steps of the grid higher. What comes in from outside the grid is
// as likely as its end.
func (s *Shares) ShiftedLikelihood(steps int) (moved Shares) {
	for i := range moved {
		moved[i] = s[min(max(i-steps, 0), Points-1)]
	}
	return moved
}

// negligible is the share, of the largest, that may be left out of a sum: far under what any answer shows.
const negligible = 1e-15

func (s *Shares) highest() float64 { return highest((*[Points]float64)(s)) }

func (s *Shares) scale(by float64) {
	for i := range s {
		s[i] *= by
	}
}

// Likelihood turns log likelihoods into likelihoods, of which the highest is 1.
func Likelihood(log *[Points]float64) (s Shares) {
	top := highest(log)
	for i, l := range log {
		s[i] = falling(top - l)
	}
	return s
}

// Given is what is believed once evidence of the given log likelihood is in: Bayes' rule. Evidence that leaves nothing possible
// changes nothing.
func (s *Shares) Given(log *[Points]float64) Shares {
	likelihood := Likelihood(log)
	return s.Told(&likelihood)
}

// Told is Given for a likelihood instead of its logarithm.
func (s *Shares) Told(likelihood *Shares) Shares {
	after, sum := *likelihood, 0.0
	for i := range after {
		after[i] *= s[i]
		sum += after[i]
	}
	if !(sum > 0) {
		return *s
	}
	after.scale(1 / sum)
	return after
}

// Below is the probability (0 to 1) that the multiplier lies under x. It is what QuantileOf turns round.
func (s *Shares) Below(x float64) float64 {
	sum := 0.0
	for i, share := range s {
		low, high := edges(&multipliers, i)
		if x < high {
			return sum + share*max(x-low, 0)/(high-low)
		}
		sum += share
	}
	return min(sum, 1)
}
