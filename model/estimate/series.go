package estimate

import (
	"math"
	"time"

	"tubside/model"
	"tubside/model/leaf"
)

// learnSeries takes a weight of a plant that is in the water. Each is held against the first of the same soak, for a
// wet plant carries water that is on it and not in it, the same at each weighing; counted as if it were not there,
// which makes what it drinks a little too small.
func (k *Keeper) learnSeries(p *plantState, t time.Time, grams float64) {
	first := p.inWater
	if first == nil {
		p.inWater = &weighing{grams: grams, at: t}
		return
	}
	losses := unlearned.Observe(p.evidence).Marginal()
	var in grid
	p.full.mean(&in)
	step := k.book.Rules()[model.ScaleStep] / first.grams
	var said grid
	for j, multiplier := range multipliers {
		tau, before, after, sum := p.traits.Tau*multiplier, in, in, 0.0
		leaf.NewSoak(first.at.Sub(p.in).Minutes(), tau).Refill(before[:])
		leaf.NewSoak(t.Sub(p.in).Minutes(), tau).Refill(after[:])
		for i, loss := range losses {
			if loss > 1e-6 {
				sum += loss * math.Exp(leaf.LogWeight(grams/first.grams, after[i], before[i], 0, step))
			}
		}
		said[j] = math.Log(sum)
	}
	k.learnDrinking(p, &said, t)
}
