package belief

import "math"

// mostMoved is the share that may move to each neighbour of the grid in one step:
// with it, a walk of several steps comes out as good as normal.
const mostMoved = 1.0 / 3

// RandomWalk spreads a likelihood of what a multiplier was to what it is after a
// random walk in the logarithm whose end lies spread (sd of the log) from where it
// began. What would leave the grid stays at its end.
func (l *Likelihood) RandomWalk(spread float64) {
	share := min(spread*spread/(2*logStep*logStep), mostMoved*mostSteps)
	steps := math.Ceil(share / mostMoved)
	if !(steps >= 1) {
		return
	}
	share /= steps
	stays := 1 - 2*share
	for range int(steps) {
		was := *l
		for i := 1; i < Points-1; i++ {
			l[i] = stays*was[i] + share*(was[i-1]+was[i+1])
		}
		l[0] += share * (was[1] - was[0])
		l[Points-1] += share * (was[Points-2] - was[Points-1])
	}
}

// RandomWalk spreads what is believed of a multiplier in the same way.
func (m *Mass) RandomWalk(spread float64) { (*Likelihood)(m).RandomWalk(spread) }

// mostSteps is as far as a walk is followed: by then the grid is level.
const mostSteps = 4 * Points * Points
