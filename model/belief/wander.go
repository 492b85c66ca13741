package belief

import "math"

// mostMoved is the share that may move to each neighbour of the grid in one go: with it, a walk of several goes comes out as good
// as normal.
const mostMoved = 1.0 / 3

// Wander spreads a likelihood of what a multiplier was, or a belief in it, to what it is after it has wandered: a random walk in
// the logarithm whose end lies spread (sd of the log) from where it began. What would leave the grid stays at its end.
func (s *Shares) Wander(spread float64) {
	share := min(spread*spread/(2*logStep*logStep), mostMoved*mostGoes)
	goes := math.Ceil(share / mostMoved)
	if !(goes >= 1) {
		return
	}
	share /= goes
	stays := 1 - 2*share
	for range int(goes) {
		was := *s
		for i := 1; i < Points-1; i++ {
			s[i] = stays*was[i] + share*(was[i-1]+was[i+1])
		}
		s[0] += share * (was[1] - was[0])
		s[Points-1] += share * (was[Points-2] - was[Points-1])
	}
}

// mostGoes is as far as wandering is followed: by then the grid is level.
const mostGoes = 4 * Points * Points
