package estimate

import (
	"math"

	"tubside/model/belief"
)

// misfit is how far the law by which plants lose water is off in this home, as it shows where a look is not what was
// believed of that plant before it: with soaks nobody wrote down, a season, plants under another's name, a room that is
// not what was read of it, looks are foretold the better the less surely each plant's loss is taken to be known. A look
// is foretold from what that plant showed before and from what is thought of plants anywhere. Between two soaks the
// law is either as good as before anything was seen, or off by much; what share of the looks speaks for that is held
// open and learned.
type misfit struct {
	log      [misfitShares]float64 // log likelihood of each share
	looks    float64
	variance float64 // of the logarithm of a loss, by which it is less certain than what was seen would make it
	version  int     // of that
}

const (
	// lawSpread is how far off a loss may be as a whole in any home, beside what plants are taken to lie apart: the
	// standard deviation of the logarithm. A guess; plants weighed through a year would replace it.
	lawSpread = 0.06
	// farOff is how many steps of the grid a loss that is off by much may be off: three Gauss and Hermite points of a
	// normal distribution, the outer ones so far out, a sixth of it each (Abramowitz & Stegun 1964, table 25.10; from
	// memory). With seven its variance is that of a loss that swings by 40 % through the year. A guess, as lawSpread.
	farOff = 7
	// misfitShares is at how many shares that is held open, from none to all, any as likely. A choice: twice as many
	// come to the same.
	misfitShares = 8
	// misfitLooks is from how many looks on what they say counts for more than half. A choice.
	misfitLooks = 20
	// foretoldFrom is how many spells of a plant its next look is foretold from, at least. A choice.
	foretoldFrom = 3
)

// farVariance is that of a loss that is off by much.
var farVariance = square(farOff*belief.LogStep()) / 3

func newMisfit() misfit { return misfit{variance: square(lawSpread)} }

// foretold takes in a look, beside what was believed before it.
func (m *misfit) foretold(before, seen belief.JointLikelihood) {
	var as, off float64
	for r := range seen {
		prior, look := &before[r], &seen[r]
		for i := farOff; i < belief.Points-farOff; i++ {
			as += prior[i] * look[i]
			off += prior[i] * (look[i-farOff] + look[i+farOff])
		}
	}
	if !(as > 0) {
		return
	}
	likelier := off/as/6 - 1.0/3 // by so much, where the law is off by much
	for n := range m.log {
		m.log[n] += math.Log1p(misfitShare(n) * likelier)
	}
	m.looks++
}

// misfitShare is one of the shares that are held possible. The small ones are told apart best: they lie evenly in the
// spread that they make.
func misfitShare(n int) float64 { return square((float64(n) + 0.5) / misfitShares) }

// weigh makes up what the looks come to. It is done when plants go into the water, as [Keeper.weighHints] is.
func (m *misfit) weigh() {
	top, sum, mean := math.Inf(-1), 0.0, 0.0
	for _, log := range m.log {
		top = max(top, log)
	}
	for n, log := range m.log {
		chance := math.Exp(log-top) * (float64(n) + 0.5) // as many shares lie about it
		sum += chance
		mean += chance * misfitShare(n)
	}
	variance := square(lawSpread) + m.looks/(m.looks+misfitLooks)*mean/sum*farVariance
	if variance != m.variance {
		m.variance = variance
		m.version++
	}
}

func (m *misfit) spread() float64 { return math.Sqrt(m.variance) }
