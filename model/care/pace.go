package care

import (
	"tubside/model"
	"tubside/model/belief"
)

// Pace is what is believed of one plant's multiplier: how many times as fast as
// reckoned it loses water, or how many times as long as reckoned it takes to
// dry.
type Pace struct {
	Median, Low, High float64 // Low to High is the 80 % range
	Own               int     // soaks or dryings of its own that it rests on; 0: known from its kin only
	shares            belief.Shares
}

// Below is the probability (0 to 1) that the multiplier lies under x.
func (p Pace) Below(x float64) float64 { return p.shares.Below(x) }

func paceOf(s *belief.Shares, own int) Pace {
	low, high := s.Range(0.8)
	return Pace{Median: s.QuantileOf(&multipliers, 0.5), Low: low, High: high, Own: own, shares: *s}
}

// LossPace is how many times as fast as reckoned for its form, leaf and size,
// in the air of its shelf, a plant loses water. It returns false for a plant
// that is not in the book.
func (k *Keeper) LossPace(id model.ID) (Pace, bool) {
	p := k.plants[id]
	if p == nil {
		return Pace{}, false
	}
	return paceOf(k.lossOf(p), p.loss.count), true
}

// DryingPace is how many times as long as reckoned for its form, handling and
// air a plant takes to dry. It returns false for a plant that is not in the
// book.
func (k *Keeper) DryingPace(id model.ID) (Pace, bool) {
	p := k.plants[id]
	if p == nil {
		return Pace{}, false
	}
	return paceOf(k.lingerOf(p), p.linger.count), true
}
