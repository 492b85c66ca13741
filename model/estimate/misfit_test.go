package estimate

import (
	"math"
	"testing"

	"tubside/model/belief"
)

// A plant's loss is known to some 15 %, and each look tells it as closely. Where every look says what was believed, the law
// is taken to be as good as before anything was seen; where looks say another loss, now a higher and now a lower one, by 40 %,
// it is taken to be off by much, and the more so the more of them do.
func TestLooksThatAreBadlyForetoldTellThatTheLawIsOff(t *testing.T) {
	about := func(step int) belief.JointLikelihood {
		var l belief.Likelihood
		for i := range l {
			off := float64(i-belief.Points/2-step) / 2
			l[i] = math.Exp(-off * off / 2)
		}
		return belief.JointLikelihood{l}
	}
	// spread is what is made of a hundred looks, of which one in so many says otherwise.
	spread := func(every int) float64 {
		m := newMisfit()
		for look := range 100 {
			step := 0
			if every > 0 && look%every == 0 {
				step = 5 - 10*(look/every%2)
			}
			m.foretold(about(0), about(step))
		}
		m.weigh()
		return m.spread()
	}
	none, some, all := spread(0), spread(3), spread(1)
	t.Logf("%.3f where all is as foretold, %.3f where a third is not, %.3f where nothing is", none, some, all)
	if none > 1.3*lawSpread || some <= none || all < 2*none || square(all) > square(lawSpread)+farVariance {
		t.Errorf("the law is off by %.3f where all is as foretold, %.3f where a third is not, %.3f where nothing is",
			none, some, all)
	}
}

// Before anything was seen the law is taken to be off as it may be anywhere.
func TestLooksAreNeededToTellThatTheLawIsOff(t *testing.T) {
	m := newMisfit()
	if m.weigh(); m.spread() != lawSpread {
		t.Errorf("the law is off by %.3f in a home of which nothing was seen", m.spread())
	}
}
